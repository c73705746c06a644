package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.function.LongSupplier;

/**
 * The clock of a job that is being listened to: it follows this machine's clock, but is never set
 * back, so that the times of entries stay in the order in which they were told. Set forward it
 * follows, since after a sleep the clock is right.
 *
 * <p>Thread rule: any thread.
 */
public final class SteadyClock implements InstantSource {

  /** Clocks are put right by less than this all the time, and then no time is wrong by much. */
  private static final Duration PUT_RIGHT = Duration.ofSeconds(1);

  private final InstantSource wall;
  private final LongSupplier nanos;
  private Instant last;
  private long lastNanos;
  private Duration behind = Duration.ZERO;

  /** Follows a clock. */
  public SteadyClock(InstantSource wall) {
    this(wall, System::nanoTime);
  }

  /**
   * Follows a clock.
   *
   * @param nanos counts on whatever the clock does; its beginning means nothing
   */
  SteadyClock(InstantSource wall, LongSupplier nanos) {
    this.wall = wall;
    this.nanos = nanos;
    last = wall.instant();
    lastNanos = nanos.getAsLong();
  }

  @Override
  public synchronized Instant instant() {
    Instant now = wall.instant();
    long count = nanos.getAsLong();
    Instant counted = last.plusNanos(count - lastNanos);
    Duration late = Duration.between(now, counted);
    boolean isBack = late.compareTo(PUT_RIGHT) > 0;
    behind = isBack ? late : Duration.ZERO;
    Instant told = isBack ? counted : now.isBefore(last) ? last : now;
    last = told;
    lastNanos = count;
    return told;
  }

  /** How far this machine's clock was set back and still is; zero when it wasn't. */
  public synchronized Duration setBack() {
    instant();
    return behind;
  }

  /** What to tell of a clock that was set back. */
  public static String setBackText(Duration by) {
    String span =
        by.toMinutes() >= 60
            ? by.toHours() + " h " + by.toMinutesPart() + " min"
            : by.toMinutes() >= 1
                ? by.toMinutes() + " min " + by.toSecondsPart() + " s"
                : by.toSeconds() + " s";
    return "this machine's clock was set back by "
        + span
        + ": entries go on by the clock as it was; see which is right, then start Tallyback again";
  }
}
