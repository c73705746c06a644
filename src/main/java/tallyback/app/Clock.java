package tallyback.app;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Places in a film and lengths of it, as a player shows them. */
public final class Clock {

  private static final Pattern PLACE =
      Pattern.compile("(?:(?:(\\d{1,3}):)?(\\d{1,3}):)?(\\d{1,6}(?:\\.\\d{1,3})?)");

  private Clock() {}

  /** {@code 1:02:03.5}, {@code 12:30} or {@code 45}; empty when it is none of these. */
  public static Optional<Duration> read(String text) {
    Matcher part = PLACE.matcher(text);
    if (!part.matches()) {
      return Optional.empty();
    }
    long hours = part.group(1) == null ? 0 : Long.parseLong(part.group(1));
    long minutes = part.group(2) == null ? 0 : Long.parseLong(part.group(2));
    BigDecimal seconds = new BigDecimal(part.group(3));
    boolean tooMany =
        (part.group(2) != null && seconds.compareTo(BigDecimal.valueOf(60)) >= 0)
            || (part.group(1) != null && minutes >= 60);
    return tooMany
        ? Optional.empty()
        : Optional.of(
            Duration.ofHours(hours)
                .plusMinutes(minutes)
                .plusMillis(seconds.movePointRight(3).longValueExact()));
  }

  /** {@code 1:02:03.5}; {@code 0:12} where there are no hours and no parts of a second. */
  public static String of(long ms) {
    long tenths = (ms % 1000) / 100;
    String fraction = tenths == 0 ? "" : "." + tenths;
    long minutes = ms / 60_000;
    return minutes < 60
        ? String.format(Locale.ROOT, "%d:%02d%s", minutes, ms / 1000 % 60, fraction)
        : String.format(
            Locale.ROOT, "%d:%02d:%02d%s", minutes / 60, minutes % 60, ms / 1000 % 60, fraction);
  }
}
