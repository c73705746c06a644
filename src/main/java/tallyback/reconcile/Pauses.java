package tallyback.reconcile;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import tallyback.model.Entry;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.VisitBegun;

/**
 * When work stood still, as told. A pause ends with "carry on", or with the next thing said of the
 * work. Immutable.
 */
final class Pauses {

  /**
   * One pause.
   *
   * @param position where it began among the entries
   * @param entry the entry that began it
   * @param to when it ended; when it began, while it has not ended
   * @param overnight true when the job was left for the night, or closed
   * @param closed true when the job was closed in it
   */
  record Pause(int position, Entry entry, Instant to, boolean overnight, boolean closed) {

    Instant from() {
      return entry.happenedAt();
    }

    Duration lasted() {
      return Duration.between(from(), to);
    }

    /** How much of it lies between two times. */
    Duration within(Instant start, Instant end) {
      Instant first = from().isAfter(start) ? from() : start;
      Instant last = to.isBefore(end) ? to : end;
      return first.isBefore(last) ? Duration.between(first, last) : Duration.ZERO;
    }
  }

  private final List<Pause> all;

  private Pauses(List<Pause> all) {
    this.all = all;
  }

  /** The pauses in entries that are in the order in which things happened. */
  static Pauses of(List<Entry> entries) {
    List<Pause> pauses = new ArrayList<>();
    int position = -1;
    boolean overnight = false;
    boolean closed = false;
    for (int index = 0; index < entries.size(); index++) {
      Entry entry = entries.get(index);
      // From closing to a visit nobody works, as over night.
      boolean closing = entry.statement() instanceof JobClosed;
      boolean night = closing || entry.statement() instanceof LeftForNight;
      if (night || entry.statement() instanceof Paused) {
        overnight = (position >= 0 && overnight) || night;
        closed = (position >= 0 && closed) || closing;
        position = position < 0 ? index : position;
      } else if (position >= 0
          && (entry.statement() instanceof Resumed
              || entry.statement() instanceof VisitBegun
              || JobView.isWork(entry.statement()))) {
        pauses.add(
            new Pause(position, entries.get(position), entry.happenedAt(), overnight, closed));
        position = -1;
      }
    }
    if (position >= 0) {
      Entry began = entries.get(position);
      pauses.add(new Pause(position, began, began.happenedAt(), overnight, closed));
    }
    return new Pauses(List.copyOf(pauses));
  }

  /** All of them, in order. */
  List<Pause> all() {
    return all;
  }

  /** How long work stood still between two times. */
  Duration within(Instant start, Instant end) {
    return all.stream()
        .map(pause -> pause.within(start, end))
        .reduce(Duration.ZERO, Duration::plus);
  }

  /** The first long pause between two positions, both left out. */
  Optional<Pause> firstLongBetween(int after, int before, Duration least) {
    int from = firstAfter(after);
    return Stream.iterate(from, index -> index < all.size(), index -> index + 1)
        .map(all::get)
        .takeWhile(pause -> pause.position() < before)
        .filter(pause -> pause.overnight() || pause.lasted().compareTo(least) >= 0)
        .findFirst();
  }

  private int firstAfter(int position) {
    int low = 0;
    int high = all.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (all.get(middle).position() <= position) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
