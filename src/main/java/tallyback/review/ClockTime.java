package tallyback.review;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;

/** Times as a clock on the wall of the shop shows them. */
public final class ClockTime {

  private ClockTime() {}

  /**
   * The moment at which the clock showed a time.
   *
   * @param shown day and time
   * @param zone the zone of the clock
   * @throws ReviewRefused in the night in which clocks are changed, for a time that came twice or
   *     never: which was meant must not be guessed
   */
  public static Instant at(LocalDateTime shown, ZoneId zone) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(shown);
    if (offsets.isEmpty()) {
      throw new ReviewRefused(
          "the clocks were put forward then, so that they never showed "
              + shown.toLocalTime()
              + "; look at the time once more");
    }
    if (offsets.size() > 1) {
      throw new ReviewRefused(
          "the clocks were put back then, so that they showed "
              + shown.toLocalTime()
              + " twice; say which it was: review --at "
              + shown
              + offsets.get(0)
              + ", or "
              + shown
              + offsets.get(1));
    }
    return shown.toInstant(offsets.get(0));
  }
}
