package tallyback.model;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One thing said or typed and noted.
 *
 * @param id made where the entry was made (device, stream, first sample), so that a retry notes
 *     nothing twice
 * @param job the job it belongs to
 * @param seq its number in the job, from 1 without gaps; orders undo and correction
 * @param happenedAt when it happened, to the millisecond; orders the steps
 * @param recordedAt when it was noted, to the millisecond
 * @param zone the time zone of the shop, for showing times
 * @param actor who said it
 * @param device where it was said or typed
 * @param source spoken, typed or made by the tool
 * @param certainty confirmed or unconfirmed
 * @param words the words as heard or typed, in full, lower case
 * @param clip SHA-256 (hex) of its sound, or of its picture where it is one; or null
 * @param statement what the words mean
 * @param heard how it came by its words; null when it was neither spoken nor asked about, or when
 *     nobody kept that
 */
public record Entry(
    String id,
    String job,
    long seq,
    Instant happenedAt,
    Instant recordedAt,
    ZoneId zone,
    String actor,
    String device,
    Source source,
    Certainty certainty,
    String words,
    @Nullable String clip,
    Statement statement,
    @Nullable HowHeard heard) {

  /** One of whose words there is nothing to tell. */
  public Entry(
      String id,
      String job,
      long seq,
      Instant happenedAt,
      Instant recordedAt,
      ZoneId zone,
      String actor,
      String device,
      Source source,
      Certainty certainty,
      String words,
      @Nullable String clip,
      Statement statement) {
    this(
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
        null);
  }

  /** What was said: of what was added later that which was added. */
  public Statement said() {
    return statement instanceof Statement.AddedLater added ? added.now() : statement;
  }

  /** What its sound was taken for, the likeliest first; empty where there is nothing to choose. */
  public List<String> readings() {
    return heard == null ? List.of() : heard.readings();
  }

  /** True for the reading whose words were taken. */
  public boolean took(String reading) {
    return reading.equals(words);
  }

  /** What was asked before it was noted, in order; empty also where nobody kept that. */
  public List<HowHeard.Asked> asked() {
    return heard == null ? List.of() : heard.asked();
  }

  /** True when the entry may close a finding. */
  public boolean confirmed() {
    return certainty == Certainty.CONFIRMED;
  }
}
