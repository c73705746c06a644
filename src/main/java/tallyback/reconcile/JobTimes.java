package tallyback.reconcile;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;

/**
 * How long a job took, against its plan and against earlier jobs. Immutable. No finding is made of
 * times: whoever is timed stops talking.
 *
 * @param total from the first to the last thing told of the work
 * @param paused how much of that was pause, as told
 * @param planned sum of the plan's minutes of the steps that have a time, or null when none has
 * @param againstPlan working time of those same steps, or null when none has both
 * @param past working time of earlier jobs, or null when there is none
 * @param steps one line per step of the plan, in plan order
 */
public record JobTimes(
    Duration total,
    Duration paused,
    @Nullable Duration planned,
    @Nullable Duration againstPlan,
    @Nullable Past past,
    List<StepTime> steps) {

  /** From so many earlier jobs on their middle is told; below that only the last one. */
  public static final int JOBS_FOR_A_MEDIAN = 5;

  /** Copies the list. */
  public JobTimes {
    steps = List.copyOf(steps);
  }

  /**
   * What earlier jobs took.
   *
   * @param jobs how many
   * @param last the latest of them
   * @param median their median; null below {@link #JOBS_FOR_A_MEDIAN}
   */
  public record Past(int jobs, Duration last, @Nullable Duration median) {

    /** What this time is to be held against: the median where there is one, else the last. */
    public Duration usual() {
      return median == null ? last : median;
    }
  }

  /**
   * One step.
   *
   * @param step plan id
   * @param label how people call it
   * @param took working time without pauses; null when not told from start to end
   * @param planned from the plan, or null
   * @param past in earlier jobs, or null
   */
  public record StepTime(
      String step,
      String label,
      @Nullable Duration took,
      @Nullable Duration planned,
      @Nullable Past past) {}

  /** Working time: all but the pauses. */
  public Duration worked() {
    return total.minus(paused);
  }

  /**
   * The times of a job.
   *
   * @param outcome what the reconciler made of it
   * @param earlier earlier jobs of the same plan, in any order
   */
  public static JobTimes of(Outcome outcome, List<PastJob> earlier) {
    List<Entry> work =
        outcome.standing().stream().filter(entry -> JobView.isWork(entry.statement())).toList();
    Duration total = Duration.ZERO;
    Duration paused = Duration.ZERO;
    if (!work.isEmpty()) {
      Instant first = work.get(0).happenedAt();
      Instant last = work.get(work.size() - 1).happenedAt();
      total = Duration.between(first, last);
      paused = Pauses.of(outcome.standing()).within(first, last);
    }
    List<PastJob> past = earlier.stream().sorted(Comparator.comparing(PastJob::openedAt)).toList();
    List<StepTime> steps = steps(outcome, past);
    List<Duration> planned = new ArrayList<>();
    List<Duration> took = new ArrayList<>();
    for (StepTime step : steps) {
      if (step.took() != null && step.planned() != null) {
        took.add(step.took());
        planned.add(step.planned());
      }
    }
    return new JobTimes(
        total,
        paused,
        planned.isEmpty() ? null : sum(planned),
        took.isEmpty() ? null : sum(took),
        pastOf(past.stream().map(PastJob::worked).toList()),
        steps);
  }

  private static List<StepTime> steps(Outcome outcome, List<PastJob> past) {
    List<StepTime> steps = new ArrayList<>();
    for (Outcome.StepLine line : outcome.steps()) {
      Integer minutes = line.expectedMinutes();
      steps.add(
          new StepTime(
              line.step(),
              line.label(),
              line.took(),
              minutes == null ? null : Duration.ofMinutes(minutes),
              pastOf(
                  past.stream()
                      .flatMap(each -> Stream.ofNullable(each.steps().get(line.step())))
                      .toList())));
    }
    return steps;
  }

  private static Duration sum(List<Duration> times) {
    return times.stream().reduce(Duration.ZERO, Duration::plus);
  }

  private static @Nullable Past pastOf(List<Duration> times) {
    if (times.isEmpty()) {
      return null;
    }
    Duration last = times.get(times.size() - 1);
    return new Past(times.size(), last, times.size() < JOBS_FOR_A_MEDIAN ? null : median(times));
  }

  private static Duration median(List<Duration> times) {
    List<Duration> sorted = times.stream().sorted().toList();
    int middle = sorted.size() / 2;
    return sorted.size() % 2 == 1
        ? sorted.get(middle)
        : sorted.get(middle - 1).plus(sorted.get(middle)).dividedBy(2);
  }
}
