package tallyback.photo;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;

/**
 * When a photo was taken, as the camera wrote it.
 *
 * @param shown what its clock showed, to the millisecond
 * @param offset by how much that was ahead of UTC; null when the camera didn't say
 */
public record CameraTime(LocalDateTime shown, @Nullable ZoneOffset offset) {

  /**
   * The moment, if the clock was right.
   *
   * @param zone the zone that the clock is taken to show when the camera didn't say
   */
  public Instant at(ZoneId zone) {
    return offset == null ? shown.atZone(zone).toInstant() : shown.toInstant(offset);
  }

  /** ISO 8601, with the offset if the camera said it. */
  public String text() {
    return offset == null ? shown.toString() : shown.atOffset(offset).toString();
  }
}
