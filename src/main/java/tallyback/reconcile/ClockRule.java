package tallyback.reconcile;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tallyback.books.Standing;

/**
 * The clock by which the entries were noted was set back. Then the times of what was noted around
 * it don't tell what came first.
 */
final class ClockRule implements Rule {

  /** What stands for the clock where ids of things stand for things. */
  static final String KEY = "clock";

  private static final Kind SET_BACK = Kind.check("clock-set-back", Kind.AFTER_TEST);

  /** Clocks are put right by a little now and then. Common practice, no source. */
  private static final Duration PUT_RIGHT = Duration.ofMinutes(1);

  @Override
  public List<Kind> kinds() {
    return List.of(SET_BACK);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    List<Standing> bySeq = new ArrayList<>(job.books().standing());
    bySeq.sort(Comparator.comparingLong(said -> said.entry().seq()));
    for (int index = 1; index < bySeq.size(); index++) {
      Standing before = bySeq.get(index - 1);
      Standing after = bySeq.get(index);
      Duration back = Duration.between(after.entry().recordedAt(), before.entry().recordedAt());
      if (back.compareTo(PUT_RIGHT) > 0) {
        found
            .add(SET_BACK, KEY, FindingText.CLOCK)
            .with("earlier", FindingText.notedAt(before.entry()))
            .with("later", FindingText.notedAt(after.entry()))
            .with("minutes", back.toMinutes())
            .with("least", PUT_RIGHT.toMinutes())
            .seenIn(before)
            .seenIn(after);
      }
    }
  }
}
