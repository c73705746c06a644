package tallyback.report;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A job over time, with everything reckoned that a page needs to draw it and to find one's way in
 * it: a script that shows it only places marks. Times are milliseconds since 1970, each with its
 * text as the shop writes it. Immutable.
 *
 * @param job its id
 * @param title what was done to which machine
 * @param jobLine which job, when, how much was said and by whom
 * @param zone the time zone of the shop
 * @param fromMs the first time shown
 * @param toMs the last
 * @param offsets how far the shop's clock is ahead of UTC, from when on; the first holds from the
 *     beginning
 * @param stretches the times between nights and other long silences, in order
 * @param lanes the lanes, from top to bottom
 * @param bars what lasted: steps, pauses and nights
 * @param entries every entry, by its number
 * @param findings the findings, the weightiest first
 * @param curves what rose and fell
 * @param doubts the kinds of doubt there are, the weightiest first
 * @param steps the steps that entries belong to
 * @param places the things and places that were named
 */
public record TimelineData(
    String job,
    String title,
    String jobLine,
    String zone,
    long fromMs,
    long toMs,
    List<Offset> offsets,
    List<Stretch> stretches,
    List<Lane> lanes,
    List<Bar> bars,
    List<Mark> entries,
    List<Found> findings,
    List<Curve> curves,
    List<DoubtKind> doubts,
    List<Choice> steps,
    List<Choice> places) {

  private static final ObjectMapper MAPPER =
      new ObjectMapper().registerModule(new SimpleModule().addSerializer(new Visible()));

  /** What holds of the shop's clock from a time on. */
  public record Offset(long fromMs, int minutes) {}

  /** A stretch in which something was told at least every few hours. */
  public record Stretch(long fromMs, long toMs) {}

  /** A lane. */
  public record Lane(String id, String name) {}

  /** Something to choose from. */
  public record Choice(String id, String name) {}

  /**
   * A kind of doubt: its name, and the sign that its marks carry.
   *
   * @param settled true when there was a doubt and it is none any more
   */
  public record DoubtKind(String id, String name, String sign, boolean settled) {}

  /**
   * Something that lasted.
   *
   * @param lane where it is drawn
   * @param id of a step its plan id
   * @param name what it is
   * @param says when, how long, and how it stands
   * @param open true when nobody said that it ended
   */
  public record Bar(
      String lane, String id, String name, String says, long fromMs, long toMs, boolean open) {}

  /**
   * An entry.
   *
   * @param seq its number
   * @param lane where it is drawn
   * @param ms when it happened, by the last time that was said for it
   * @param time the same as a shop writes it
   * @param whole the same with its whole day
   * @param noted when it was noted, where that is another time; else empty
   * @param who who said it
   * @param source how it came in
   * @param words as heard or typed
   * @param meaning what was noted
   * @param sure how certain it is, and why
   * @param doubts ids of the kinds of doubt about it
   * @param struck true when it no longer holds as it was said
   * @param heard what its sound was taken for when it was noted, the likeliest first; empty when
   *     only one reading was made of it
   * @param asked what was asked before it was noted
   * @param readings how else it was read, before or after
   * @param links the entries that changed it or that it changed
   * @param step id of the step that was under way, or null
   * @param places ids of what it names
   * @param findings numbers of the findings that it is evidence for
   * @param sound the hash of its sound, or null when there never was any
   */
  public record Mark(
      long seq,
      String lane,
      long ms,
      String time,
      String whole,
      String noted,
      String who,
      String source,
      String words,
      String meaning,
      String sure,
      List<String> doubts,
      boolean struck,
      List<Candidate> heard,
      List<Asked> asked,
      List<Reading> readings,
      List<Link> links,
      @Nullable String step,
      List<String> places,
      List<String> findings,
      @Nullable String sound,
      @Nullable String picture) {}

  /** One way in which an entry was read: what it is, the words, and what they mean. */
  public record Reading(String what, String words, String meaning) {}

  /** What a sound might have been, and whether it was taken for that. */
  public record Candidate(String words, boolean taken) {}

  /** A question, and what was answered; empty when nobody did. */
  public record Asked(String question, String answer) {}

  /** Another entry, and what it has to do with this one. */
  public record Link(String says, long seq) {}

  /**
   * A finding.
   *
   * @param entries numbers of the entries that are its evidence
   * @param also what only follows from it
   */
  public record Found(
      String number,
      String weight,
      String weightWord,
      String subject,
      String found,
      String expected,
      String difference,
      String tolerance,
      String remedy,
      List<Long> entries,
      List<String> also) {}

  /** What rose and fell in steps. */
  public record Curve(String lane, String name, List<Point> points) {}

  /** A value from a time on; the number is for drawing only. */
  public record Point(long ms, double value, String says) {}

  /** Reckons a job. */
  public static TimelineData of(JobRecord job) {
    return new TimelineMaker(job).make();
  }

  /**
   * The data as JSON on one line that may stand in a page: nothing in it ends a script or opens a
   * comment, and no text in it steers or turns what is beside it.
   */
  public String json() {
    try {
      return MAPPER
          .writeValueAsString(this)
          .replace("&", "\\u0026")
          .replace("<", "\\u003c")
          .replace(">", "\\u003e");
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("records of texts and numbers are always JSON", e);
    }
  }

  /** Writes texts that can do nothing but be read. */
  private static final class Visible extends StdSerializer<String> {

    private static final long serialVersionUID = 1;

    Visible() {
      super(String.class);
    }

    @Override
    public void serialize(String text, JsonGenerator json, SerializerProvider provider)
        throws IOException {
      json.writeString(SafeText.visible(text));
    }
  }
}
