package tallyback.export;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Where a film lies beside a job.
 *
 * @param begins the moment of its first picture
 * @param length how long it is; null when nobody knows: then it has no end
 */
public record Film(Instant begins, @Nullable Duration length) {

  /** Milliseconds from its beginning; below nought before it. */
  long place(Instant moment) {
    return Duration.between(begins, moment).toMillis();
  }

  /** In milliseconds. */
  long endMs() {
    return length == null ? Long.MAX_VALUE : length.toMillis();
  }
}
