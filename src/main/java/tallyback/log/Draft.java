package tallyback.log;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.Source;
import tallyback.model.Statement;

/**
 * An entry before it is noted: all but the sequence number, which the log gives, and the name of
 * its clip. Times are cut to the millisecond.
 *
 * @param id made where the entry was made (device, stream, first sample), so that a retry notes
 *     nothing twice; 1 to 200 characters
 * @param job the job it belongs to; 1 to 100 characters
 * @param happenedAt when it happened
 * @param recordedAt when it is noted; a retry may differ in it
 * @param zone the time zone of the shop
 * @param actor who said it; 1 to 100 characters
 * @param device where it was said or typed; 1 to 100 characters
 * @param source spoken, typed or made by the tool
 * @param certainty confirmed or unconfirmed
 * @param words the words as heard or typed; at most 4000 characters
 * @param statement what the words mean; must be {@link Statement#notable()}
 * @param heard how it came by its words, or null; a retry may differ in it
 */
public record Draft(
    String id,
    String job,
    Instant happenedAt,
    Instant recordedAt,
    ZoneId zone,
    String actor,
    String device,
    Source source,
    Certainty certainty,
    String words,
    Statement statement,
    @Nullable HowHeard heard) {

  private static final Instant EARLIEST = Instant.parse("0001-01-01T00:00:00Z");
  private static final Instant LATEST = Instant.parse("9999-12-31T23:59:59.999Z");

  /**
   * Cuts the times to the millisecond and checks the rest.
   *
   * @throws LogRefused naming every field that is too long, empty, or holds what a line of text
   *     can't
   */
  public Draft {
    happenedAt = happenedAt.truncatedTo(ChronoUnit.MILLIS);
    recordedAt = recordedAt.truncatedTo(ChronoUnit.MILLIS);
    List<String> faults = new ArrayList<>();
    checkText(faults, "id", id, 1, 200);
    checkText(faults, "job", job, 1, 100);
    checkText(faults, "actor", actor, 1, 100);
    checkText(faults, "device", device, 1, 100);
    checkText(faults, "words", words, 0, 4000);
    checkTime(faults, "happenedAt", happenedAt);
    checkTime(faults, "recordedAt", recordedAt);
    if (!statement.notable()) {
      faults.add(
          "statement: expected something that can be noted, found "
              + statement.getClass().getSimpleName()
              + ", which only answers or changes another");
    }
    if (!faults.isEmpty()) {
      throw new LogRefused("this can't be noted: " + String.join("; ", faults));
    }
  }

  /** One of whose words there is nothing to tell. */
  public Draft(
      String id,
      String job,
      Instant happenedAt,
      Instant recordedAt,
      ZoneId zone,
      String actor,
      String device,
      Source source,
      Certainty certainty,
      String words,
      Statement statement) {
    this(
        id,
        job,
        happenedAt,
        recordedAt,
        zone,
        actor,
        device,
        source,
        certainty,
        words,
        statement,
        null);
  }

  /** The entry this becomes. */
  public Entry noted(long seq, @Nullable String clip) {
    return new Entry(
        id,
        job,
        seq,
        happenedAt,
        recordedAt,
        zone,
        actor,
        device,
        source,
        certainty,
        words,
        clip,
        statement,
        heard);
  }

  private static void checkText(
      List<String> faults, String field, String text, int least, int most) {
    if (text.length() < least || text.length() > most) {
      faults.add(
          field + ": expected " + least + " to " + most + " characters, found " + text.length());
    } else if (text.codePoints().anyMatch(Character::isISOControl)) {
      faults.add(field + ": expected one line of text, found a line break or control character");
    } else if (!StandardCharsets.UTF_8.newEncoder().canEncode(text)) {
      faults.add(field + ": expected text, found half a character (a lone surrogate)");
    }
  }

  private static void checkTime(List<String> faults, String field, Instant time) {
    if (time.isBefore(EARLIEST) || time.isAfter(LATEST)) {
      faults.add(field + ": expected a time in the years 1 to 9999, found " + time);
    }
  }
}
