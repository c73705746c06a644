package tallyback.report;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/**
 * Times as a shop writes them: 24 hours, by the zone that comes with the entries, never by the zone
 * or language of the machine that prints them. A job of one day needs no dates; in a longer one
 * every time carries its day.
 */
public final class ShopTime {

  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter DAY_CLOCK =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter SHORT_DAY =
      DateTimeFormatter.ofPattern("d MMM", Locale.ENGLISH);

  private final boolean oneDay;

  private ShopTime(boolean oneDay) {
    this.oneDay = oneDay;
  }

  /** For a job whose entries happened on these days. */
  public static ShopTime of(JobRecord job) {
    LocalDate opened = day(job.heading().openedAt(), job.heading().zone());
    return new ShopTime(
        job.entries().stream()
            .allMatch(entry -> day(entry.happenedAt(), entry.zone()).equals(opened)));
  }

  /** True when all of the job happened on one day. */
  boolean oneDay() {
    return oneDay;
  }

  /** {@code 09:42}, or {@code 3 Mar 09:42} in a job of several days. */
  public String at(Instant instant, ZoneId zone) {
    return (oneDay ? CLOCK : DAY_CLOCK).format(instant.atZone(zone));
  }

  /** {@code Monday 2 March 2026, 09:42}. */
  public static String full(Instant instant, ZoneId zone) {
    return DAY.format(instant.atZone(zone)) + ", " + clock(instant, zone);
  }

  /** {@code 09:42}. */
  public static String clock(Instant instant, ZoneId zone) {
    return CLOCK.format(instant.atZone(zone));
  }

  /** {@code 2 Mar}. */
  static String shortDay(Instant instant, ZoneId zone) {
    return SHORT_DAY.format(instant.atZone(zone));
  }

  /** {@code Monday 2 March 2026}. */
  public static String fullDay(Instant instant, ZoneId zone) {
    return DAY.format(instant.atZone(zone));
  }

  /** {@code 1 h 05 min}, to the nearest minute; {@code under 1 min} for less. */
  public static String took(Duration duration) {
    long minutes = duration.plusSeconds(30).toMinutes();
    if (minutes < 1) {
      return "under 1 min";
    }
    return minutes < 60
        ? minutes + " min"
        : minutes / 60 + " h " + twoDigits(minutes % 60) + " min";
  }

  private static String twoDigits(long number) {
    return number < 10 ? "0" + number : Long.toString(number);
  }

  private static LocalDate day(Instant instant, ZoneId zone) {
    return instant.atZone(zone).toLocalDate();
  }
}
