package tallyback.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

/** The nights on which clocks are changed, by the tz database of the JDK: Dublin in 2026. */
class ClockTimeTest {

  private static final ZoneId DUBLIN = ZoneId.of("Europe/Dublin");

  private static String refused(String shown) {
    return String.valueOf(
        assertThrows(ReviewRefused.class, () -> ClockTime.at(LocalDateTime.parse(shown), DUBLIN))
            .getMessage());
  }

  @Test
  void aTimeThatCameOnceIsTaken() {
    assertEquals(
        Instant.parse("2026-07-01T13:05:00Z"),
        ClockTime.at(LocalDateTime.parse("2026-07-01T14:05:00"), DUBLIN));
    assertEquals(
        Instant.parse("2026-03-29T02:00:00Z"),
        ClockTime.at(LocalDateTime.parse("2026-03-29T03:00:00"), DUBLIN));
    assertEquals(
        Instant.parse("2026-10-25T01:30:00Z"),
        ClockTime.at(LocalDateTime.parse("2026-10-25T01:30:00"), ZoneOffset.UTC));
  }

  @Test
  void oneThatCameTwiceOrNeverIsNotGuessed() {
    assertEquals(
        "the clocks were put back then, so that they showed 01:30 twice; say which it was: review"
            + " --at 2026-10-25T01:30+01:00, or 2026-10-25T01:30Z",
        refused("2026-10-25T01:30:00"));
    assertEquals(
        "the clocks were put forward then, so that they never showed 01:30; look at the time once"
            + " more",
        refused("2026-03-29T01:30:00"));
  }
}
