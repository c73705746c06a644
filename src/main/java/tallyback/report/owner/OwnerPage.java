package tallyback.report.owner;

import java.util.List;
import tallyback.report.owner.Form.Picture;

/**
 * What the owner reads, as finished texts: the template only lays it out. What nobody said stands
 * as words, since a blank would look like a pass.
 *
 * @param style the style sheet
 * @param onPaper whether it is for print and not for a screen
 * @param title what was done
 * @param machine the machine
 * @param foot what stands at the foot of every sheet
 * @param facts which machine, when, by whom
 * @param answer whether it may be used
 * @param unchecked what was not checked
 * @param parts what is told under headings, up to the measurements
 * @param readings what was measured
 * @param readingsNote what the table of readings doesn't say
 * @param more what is told under headings behind them
 * @param pictures annex: pictures
 * @param picturesNote what pictures are shown and what was done with them
 * @param signs who signs
 * @param sealCode the seal as a picture, {@code data:image/png;base64,...}; empty while there is
 *     none
 * @param unprinted what stands for letters that can't be printed; empty where all can
 * @param torques annex: every fastener with a torque
 * @param torquesNote what the table of torques doesn't say
 * @param days annex: everything told, by time
 * @param daysNote what the list doesn't say
 */
record OwnerPage(
    String style,
    boolean onPaper,
    String title,
    String machine,
    String foot,
    List<Fact> facts,
    Answer answer,
    List<Unchecked.Group> unchecked,
    List<Part> parts,
    List<Reading> readings,
    String readingsNote,
    List<Part> more,
    List<Picture> pictures,
    String picturesNote,
    List<Sign> signs,
    String sealCode,
    String unprinted,
    List<Torque> torques,
    String torquesNote,
    List<Day> days,
    String daysNote) {

  private static final int SHORT_TABLE = 12;

  /** The same, with words about letters that can't be printed. */
  OwnerPage unprinted(String words) {
    return new OwnerPage(
        style,
        onPaper,
        title,
        machine,
        foot,
        facts,
        answer,
        unchecked,
        parts,
        readings,
        readingsNote,
        more,
        pictures,
        picturesNote,
        signs,
        sealCode,
        words,
        torques,
        torquesNote,
        days,
        daysNote);
  }

  /** Whether the second annex may begin on the sheet of the first. */
  boolean annexesTogether() {
    return torques.size() <= SHORT_TABLE;
  }

  /** A line of the head. */
  record Fact(String name, String value) {}

  /**
   * Whether the machine may be used: never a bare yes.
   *
   * @param style {@code stop}, {@code open} or {@code clear}
   * @param headline the answer in a few words
   * @param why the reason in a sentence or two
   * @param points what stands against it, the gravest first
   */
  record Answer(String style, String headline, String why, List<Point> points) {

    /** What stands at the head of every further sheet; empty when nothing stands against it. */
    String everySheet() {
      return style.equals("clear") ? "" : headline + " \u2013 see page 1.";
    }
  }

  /** One thing that stands against it. */
  record Point(String subject, String text) {}

  /**
   * A part under a heading.
   *
   * @param id its place in the document
   * @param heading heading
   * @param lines lines; a label in front of each, empty for none
   */
  record Part(String id, String heading, List<Line> lines) {}

  /** A line of a part. */
  record Line(String label, String text) {}

  /** Something measured. */
  record Reading(String what, String measured, String expected, String judged, String style) {}

  /** Fasteners with a torque. */
  record Torque(
      String fasteners,
      String expected,
      String source,
      String told,
      String wrench,
      String judged,
      String style) {}

  /** Who signs. */
  record Sign(String role, String name) {}

  /** What was told on one day. */
  record Day(String name, List<Told> lines) {}

  /** One thing told. */
  record Told(String number, String time, String meaning, String mark, boolean struck) {}
}
