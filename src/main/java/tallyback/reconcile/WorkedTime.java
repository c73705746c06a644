package tallyback.reconcile;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tallyback.model.Entry;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;

/**
 * Time that somebody can be asked to pay for: from the first thing told of the work to the last,
 * without pauses and nights, without hours in which nothing was told, and without doing over again
 * what had been done. Doing over counts from when the step was begun again, or, where that was not
 * told, from the thing told before.
 *
 * @param counted the time
 * @param leftOut whether anything was left out of it
 */
public record WorkedTime(Duration counted, boolean leftOut) {

  /** So long without a word is no work (a choice of our own). */
  public static final Duration LONGEST_SILENCE = Duration.ofHours(4);

  /** The time worked in a job. */
  public static WorkedTime of(Outcome outcome) {
    List<Entry> work =
        outcome.standing().stream().filter(entry -> JobView.isWork(entry.statement())).toList();
    Pauses pauses = Pauses.of(outcome.standing());
    Set<Integer> over = doneOver(work);
    Duration all = Duration.ZERO;
    Duration counted = Duration.ZERO;
    for (int index = 1; index < work.size(); index++) {
      Instant from = work.get(index - 1).happenedAt();
      Instant to = work.get(index).happenedAt();
      Duration between = Duration.between(from, to);
      Duration worked = between.minus(pauses.within(from, to));
      all = all.plus(between);
      if (!over.contains(index) && worked.compareTo(LONGEST_SILENCE) < 0) {
        counted = counted.plus(worked);
      }
    }
    return new WorkedTime(counted, !counted.equals(all));
  }

  /**
   * A time in which work stood still, as told.
   *
   * @param from when it began
   * @param to when it ended; when it began, while nobody said so
   * @param overnight true when the job was left for the night, or closed until a visit
   */
  public record Stood(Instant from, Instant to, boolean overnight) {}

  /** The pauses and nights of a job, in order. */
  public static List<Stood> pauses(Outcome outcome) {
    return Pauses.of(outcome.standing()).all().stream()
        .map(pause -> new Stood(pause.from(), pause.to(), pause.overnight()))
        .toList();
  }

  /** Positions of the entries before each of which lies time in which something was done over. */
  private static Set<Integer> doneOver(List<Entry> work) {
    Set<Integer> over = new HashSet<>();
    Set<String> done = new HashSet<>();
    Map<String, Integer> begunAgain = new HashMap<>();
    for (int index = 0; index < work.size(); index++) {
      if (!(work.get(index).statement() instanceof StepMarked marked)) {
        continue;
      }
      String step = marked.step();
      boolean again = done.contains(step);
      if (marked.mark() == StepMark.STARTED && again) {
        begunAgain.put(step, index);
      } else if (marked.mark() == StepMark.REDONE || (marked.mark() == StepMark.DONE && again)) {
        Integer begun = begunAgain.remove(step);
        for (int each = begun == null ? index : begun + 1; each <= index; each++) {
          over.add(each);
        }
      }
      if (marked.mark() == StepMark.DONE || marked.mark() == StepMark.REDONE) {
        done.add(step);
      }
    }
    return over;
  }
}
