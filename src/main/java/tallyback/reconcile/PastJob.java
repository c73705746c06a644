package tallyback.reconcile;

import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The times of an earlier job of the same plan. Immutable.
 *
 * @param job its id
 * @param openedAt when it began
 * @param worked working time from first to last, pauses left out
 * @param steps working time by plan id of the step, of those that were told from start to end
 */
public record PastJob(String job, Instant openedAt, Duration worked, Map<String, Duration> steps) {

  /** Copies the map. */
  public PastJob {
    steps = Map.copyOf(steps);
  }

  /**
   * The times of a job that has been judged.
   *
   * @param job its id
   * @param openedAt when it began
   * @param outcome what was made of it
   */
  public static PastJob of(String job, Instant openedAt, Outcome outcome) {
    Map<String, Duration> steps = new LinkedHashMap<>();
    for (Outcome.StepLine step : outcome.steps()) {
      Duration took = step.took();
      if (took != null) {
        steps.put(step.step(), took);
      }
    }
    return new PastJob(job, openedAt, JobTimes.of(outcome, java.util.List.of()).worked(), steps);
  }
}
