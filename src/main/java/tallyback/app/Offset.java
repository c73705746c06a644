package tallyback.app;

import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** What is added to a clock's times, as it is written: {@code +1h2m3s}, {@code -45s}, {@code 0}. */
public final class Offset {

  private static final Pattern WRITTEN =
      Pattern.compile(
          "([+\\-\u2212]?)(?:(\\d{1,5})d)?(?:(\\d{1,6})h)?(?:(\\d{1,6})m)?(?:(\\d{1,9})s)?");

  private Offset() {}

  /** Reads it; empty when it is none. */
  public static Optional<Duration> read(String text) {
    if (text.matches("[+\\-\u2212]?0")) {
      return Optional.of(Duration.ZERO);
    }
    Matcher part = WRITTEN.matcher(text);
    if (!part.matches() || text.replaceFirst("^[+\\-\u2212]", "").isEmpty()) {
      return Optional.empty();
    }
    Duration size =
        Duration.ofDays(number(part.group(2)))
            .plusHours(number(part.group(3)))
            .plusMinutes(number(part.group(4)))
            .plusSeconds(number(part.group(5)));
    boolean back = !part.group(1).isEmpty() && !part.group(1).equals("+");
    return Optional.of(back ? size.negated() : size);
  }

  private static long number(@Nullable String digits) {
    return digits == null ? 0 : Long.parseLong(digits);
  }

  /** Writes it, to the nearest second. */
  public static String text(Duration offset) {
    long seconds = Math.round(offset.toMillis() / 1000.0);
    if (seconds == 0) {
      return "0";
    }
    long size = Math.abs(seconds);
    StringBuilder text = new StringBuilder(seconds < 0 ? "-" : "+");
    part(text, size / 86_400, 'd');
    part(text, size / 3600 % 24, 'h');
    part(text, size / 60 % 60, 'm');
    part(text, size % 60, 's');
    return text.toString();
  }

  private static void part(StringBuilder text, long number, char unit) {
    if (number != 0) {
      text.append(number).append(unit);
    }
  }
}
