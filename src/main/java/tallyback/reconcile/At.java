package tallyback.reconcile;

import java.time.Instant;
import java.util.List;
import tallyback.books.Standing;

/**
 * A statement with its place in the order in which things happened.
 *
 * @param position from 0, by when it happened, then by number
 * @param said the entry
 * @param statement what it means
 */
record At<T>(int position, Standing said, T statement) {

  /** Index of the first at or after a position, in a list in order, by halving. */
  static <T> int firstFrom(List<At<T>> inOrder, int position) {
    int low = 0;
    int high = inOrder.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (inOrder.get(middle).position() < position) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  Instant happenedAt() {
    return said.entry().happenedAt();
  }
}
