package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class SteadyClockTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private Instant wall = NINE;
  private long nanos = 77;
  private final SteadyClock clock = new SteadyClock(() -> wall, () -> nanos);

  private Instant after(Duration span) {
    wall = wall.plus(span);
    nanos += span.toNanos();
    return clock.instant();
  }

  private void set(Duration by) {
    wall = wall.plus(by);
  }

  @Test
  void goesAsTheMachinesClockDoes() {
    assertEquals(NINE, clock.instant());
    assertEquals(NINE.plusSeconds(5), after(Duration.ofSeconds(5)));
    assertEquals(Duration.ZERO, clock.setBack());
  }

  @Test
  void isNeverSetBackAndSaysSo() {
    after(Duration.ofMinutes(5));
    set(Duration.ofHours(-1));
    assertEquals(NINE.plusSeconds(360), after(Duration.ofMinutes(1)));
    assertEquals(NINE.plusSeconds(420), after(Duration.ofMinutes(1)));
    assertEquals(Duration.ofHours(1), clock.setBack());
    assertEquals(
        "this machine's clock was set back by 1 h 0 min: entries go on by the clock as it was; see"
            + " which is right, then start Tallyback again",
        SteadyClock.setBackText(clock.setBack()));
    set(Duration.ofHours(1));
    assertEquals(NINE.plusSeconds(480), after(Duration.ofMinutes(1)));
    assertEquals(Duration.ZERO, clock.setBack());
  }

  @Test
  void followsAClockThatIsSetForwardOrWasRightAfterASleep() {
    set(Duration.ofHours(8));
    assertEquals(NINE.plus(Duration.ofHours(8)), clock.instant());
    assertEquals(NINE.plus(Duration.ofHours(8)).plusSeconds(1), after(Duration.ofSeconds(1)));
  }

  @Test
  void waitsForAClockThatIsPutRightByALittle() {
    after(Duration.ofSeconds(10));
    set(Duration.ofMillis(-400));
    assertEquals(NINE.plusSeconds(10), clock.instant());
    assertEquals(NINE.plusSeconds(10), after(Duration.ofMillis(300)));
    assertEquals(NINE.plusMillis(10_100), after(Duration.ofMillis(200)));
    assertEquals(Duration.ZERO, clock.setBack());
  }
}
