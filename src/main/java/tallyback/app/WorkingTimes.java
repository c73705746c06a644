package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.report.Trail;

/**
 * When somebody was at work on a job, by what was told. Nights are not in it, so that what a phone
 * took in the evening isn't taken for the job's.
 *
 * @param stretches one behind the other, none longer without an entry than {@link #SILENCE}
 */
public record WorkingTimes(List<Stretch> stretches) {

  /** Who says nothing for so long has gone home without saying so. A choice of our own. */
  static final Duration SILENCE = Duration.ofHours(4);

  /** Copies the list. */
  public WorkingTimes {
    stretches = List.copyOf(stretches);
  }

  /** From when to when. */
  public record Stretch(Instant from, Instant to) {}

  /** Of a job with these entries. */
  public static WorkingTimes of(List<Entry> entries) {
    record Told(Instant at, boolean left) {}
    Trail trail = Trail.of(entries);
    List<Told> told =
        entries.stream()
            .filter(entry -> isAtWork(entry.said()))
            .map(
                entry ->
                    new Told(
                        trail.happenedAt(entry),
                        entry.statement() instanceof Statement.LeftForNight))
            .sorted(Comparator.comparing(Told::at))
            .toList();
    List<Stretch> stretches = new ArrayList<>();
    for (int i = 0; i < told.size(); i++) {
      Told now = told.get(i);
      boolean goesOn =
          i > 0
              && !told.get(i - 1).left()
              && Duration.between(told.get(i - 1).at(), now.at()).compareTo(SILENCE) <= 0;
      if (goesOn) {
        int last = stretches.size() - 1;
        stretches.set(last, new Stretch(stretches.get(last).from(), now.at()));
      } else {
        stretches.add(new Stretch(now.at(), now.at()));
      }
    }
    return new WorkingTimes(stretches);
  }

  /** What may be typed in the office days later tells nothing of when somebody was at work. */
  private static boolean isAtWork(Statement statement) {
    return !(statement instanceof Statement.JobClosed
        || statement instanceof Statement.VisitBegun
        || statement instanceof Statement.Written
        || statement instanceof Statement.Undone
        || statement instanceof Statement.Corrected
        || statement instanceof Statement.Retimed
        || statement instanceof Statement.NotUnderstoodSettled
        || statement instanceof Statement.FindingAnswered
        || statement instanceof Statement.PictureTaken);
  }

  /** Whether it falls into one of them, or lies no more than a margin beside it. */
  public boolean hold(Instant at, Duration margin) {
    return stretches.stream()
        .anyMatch(
            stretch ->
                !at.isBefore(stretch.from().minus(margin))
                    && !at.isAfter(stretch.to().plus(margin)));
  }
}
