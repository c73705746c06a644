package tallyback.reconcile;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Statement;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.TemporaryMoved;

/**
 * Counts one group by what was told of it: how many were away at once, which is how many there are.
 * Of a temporary item the machine is where it is away to. Used by one thread.
 */
final class Counting {

  private final String label;
  private final boolean single;
  private final boolean temporary;
  private @Nullable Integer firstAway;
  private @Nullable Integer lastBack;
  private int away;
  private int most;
  private int backWithoutAway;
  private int told;
  private boolean wentBack;
  private boolean uncounted;
  private @Nullable String onceMore;
  private @Nullable String tooManyBack;

  /**
   * Starts.
   *
   * @param label how people call it
   * @param single true for a part there is one of: then no number need be said
   * @param temporary true for what goes in for the job: in without a number, it is one
   */
  Counting(String label, boolean single, boolean temporary) {
    this.label = label;
    this.single = single;
    this.temporary = temporary;
  }

  /**
   * Takes what was told of it.
   *
   * @param position its place by the time it happened
   */
  void take(int position, Standing said) {
    Statement statement = said.statement();
    if (statement instanceof ItemsMoved moved) {
      moved(position, moved);
    } else if (statement instanceof TemporaryMoved moved) {
      if (moved.in()) {
        away(position, moved.count());
      } else {
        back(position, moved.count());
      }
    } else if (statement instanceof PartFitted fitted
        && (away > 0 || fitted.condition() != PartCondition.NEW)) {
      back(position, null);
    }
  }

  private void moved(int position, ItemsMoved moved) {
    if (moved.move() == ItemMove.OFF || moved.move() == ItemMove.SHEARED) {
      away(position, moved.count());
    } else if (moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON) {
      back(position, moved.count());
    }
  }

  private void away(int position, @Nullable Integer said) {
    firstAway = firstAway == null ? Integer.valueOf(position) : firstAway;
    Integer count = said == null && (single || temporary) ? Integer.valueOf(1) : said;
    boolean restated = away > 0 && (single || (temporary && said == null));
    if (count == null) {
      uncounted = true;
    } else if (count > 0 && !restated) {
      away += count;
      if (wentBack && away < most) {
        onceMore = FindingText.openOnceMore(label, most, count);
      }
      most = Math.max(most, away);
    }
  }

  private void back(int position, @Nullable Integer said) {
    lastBack = position;
    wentBack = true;
    if (said == null) {
      // "Back on" without a number speaks of all that are off.
      away = 0;
    } else if (most == 0 && !uncounted) {
      backWithoutAway += said;
    } else {
      if (said > away && !(single && said == 1)) {
        tooManyBack = FindingText.openMoreBack(label, most, most - away + said);
      }
      away = Math.max(0, away - said);
    }
  }

  /** A number said with its tightness, where nothing else was. */
  void tightened(@Nullable Integer count) {
    told = Math.max(told, count == null ? 0 : count);
  }

  /** How many there are by what was told, at least 1. */
  int count() {
    int known = Math.max(most, single ? 1 : 0);
    if (known == 0) {
      known = Math.max(backWithoutAway, told);
    }
    return Math.max(1, known);
  }

  /** Why that is not sure, as a question; empty when it is. */
  Optional<String> open() {
    if (uncounted) {
      return Optional.of(FindingText.openCountUnsaid(label, most));
    }
    if (tooManyBack != null) {
      return Optional.of(tooManyBack);
    }
    if (onceMore != null) {
      return Optional.of(onceMore);
    }
    return most == 0 && !single && backWithoutAway > 0
        ? Optional.of(FindingText.openOnlyBack(label, backWithoutAway))
        : Optional.empty();
  }

  /** Where it first came off, or null. */
  @Nullable Integer firstAway() {
    return firstAway;
  }

  /** Where it last went back, or null while some are off or none ever went back. */
  @Nullable Integer backAt() {
    return away == 0 ? lastBack : null;
  }
}
