package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.export.Export.Mark;

/**
 * Lays a film beside a job by camera marks: a mark that was noted at a time of day and stands at a
 * place of the film tells when the film began.
 *
 * @param begins when the film began
 * @param notices what is to be known of it, one line each
 */
public record FilmPlace(Instant begins, List<String> notices) {

  /** Marks of one film that differ by more don't belong to one film that ran through. */
  private static final Duration MOST_APART = Duration.ofSeconds(2);

  private static final long WORTH_TELLING_MS = 200;

  /** With milliseconds and offset, as it can be given back. */
  private static final DateTimeFormatter ISO =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSSxxx", Locale.ROOT);

  /** Copies the list. */
  public FilmPlace {
    notices = List.copyOf(notices);
  }

  /**
   * Where a mark stands in the film.
   *
   * @param number which mark; null when its number was not said, which does where there is one
   * @param place from the film's beginning
   */
  public record Said(@Nullable Integer number, Duration place) {}

  /**
   * Finds the film's beginning.
   *
   * @param marks the marks of the job
   * @param said where they stand in the film, at least one
   * @param zone to tell times in
   * @throws WrongUse if there is no such mark, more than one of that number, or they contradict
   *     each other
   */
  public static FilmPlace by(List<Mark> marks, List<Said> said, ZoneId zone) {
    List<Instant> begins = new ArrayList<>();
    for (Said each : said) {
      begins.add(meant(marks, each, zone).at().minus(each.place()));
    }
    Instant first = begins.get(0);
    List<String> notices = new ArrayList<>();
    for (int i = 1; i < begins.size(); i++) {
      Duration apart = Duration.between(first, begins.get(i)).abs();
      if (apart.compareTo(MOST_APART) > 0) {
        throw new WrongUse(
            called(said.get(0))
                + " and "
                + called(said.get(i))
                + " can't be of one film that ran through: by the first it began "
                + time(first, zone)
                + ", by the other "
                + time(begins.get(i), zone)
                + "; give one of them, or one of these times as --film-begins");
      }
      if (apart.toMillis() > WORTH_TELLING_MS) {
        notices.add(
            called(said.get(i))
                + " is "
                + Clock.of(apart.toMillis())
                + " from where "
                + called(said.get(0))
                + " puts it; the first counts");
      }
    }
    return new FilmPlace(first, notices);
  }

  private static Mark meant(List<Mark> marks, Said said, ZoneId zone) {
    List<Mark> fit =
        marks.stream()
            .filter(mark -> said.number() == null || said.number() == mark.number())
            .toList();
    if (fit.size() == 1) {
      return fit.get(0);
    }
    if (fit.isEmpty()) {
      throw new WrongUse(
          "there is no "
              + (said.number() == null ? "camera mark" : called(said))
              + " in this job; "
              + told(marks, zone));
    }
    throw new WrongUse(
        called(said)
            + " was said more than once, so the film may have begun "
            + fit.stream()
                .map(mark -> time(mark.at().minus(said.place()), zone))
                .collect(Collectors.joining(" or "))
            + "; give the right one as --film-begins");
  }

  /** The camera marks of a job in words, or how to make one. */
  public static String told(List<Mark> marks, ZoneId zone) {
    return marks.isEmpty()
        ? "it has none: say \"camera mark one\" while camera and log both listen"
        : "it has "
            + marks.stream()
                .map(mark -> "camera mark " + mark.number() + " at " + time(mark.at(), zone))
                .collect(Collectors.joining(", "));
  }

  /** A moment as it can be given back to a command. */
  public static String time(Instant moment, ZoneId zone) {
    return ISO.format(moment.atZone(zone));
  }

  private static String called(Said said) {
    return said.number() == null
        ? "the camera mark without a number"
        : "camera mark " + said.number();
  }
}
