package tallyback.reconcile;

import java.time.Instant;
import tallyback.books.Standing;

/**
 * A statement with its place in the order in which things happened.
 *
 * @param position from 0, by when it happened, then by number
 * @param said the entry
 * @param statement what it means
 */
record At<T>(int position, Standing said, T statement) {

  Instant happenedAt() {
    return said.entry().happenedAt();
  }
}
