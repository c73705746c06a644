package tallyback.export;

/** The words that stand only in exports. */
final class ExportText {

  static final String CALENDAR_ID = "-//Tallyback//Tallyback//EN";
  static final String NOT_CONFIRMED = "not confirmed";
  static final String BEFORE_STEPS = "Before the first step";
  static final String BETWEEN_STEPS = "Between steps";
  static final String AFTER_STEPS = "After the last step";
  static final String PAUSE = "Work paused";
  static final String NIGHT = "Left for the night";
  static final String BEGINNING_NOT_TOLD = " (begin not told)";
  static final String NOT_TOLD_DONE = " (end not told)";
  static final String GOES_ON = " (goes on)";
  static final String ONCE_MORE = " (done once more)";
  static final String NO_STEPS =
      "no step was told while the film ran, so there are no chapters; say \"starting\" and the"
          + " name of a step, and its name and \"done\"";
  static final String NOTHING_TO_LOOK_AT =
      "nothing is to be looked at again, so there is no calendar; say such as \"look again at the"
          + " level in two weeks\"";
  static final String NO_CAPTIONS =
      "nothing was said while the film ran, so there are no captions; is its beginning right?";

  private ExportText() {}

  static String leftOut(int before, int after) {
    String all = "left out: " + entries(before + after);
    if (before == 0 || after == 0) {
      return all + " from " + (after == 0 ? "before" : "after") + " the film";
    }
    return all + ", " + before + " from before the film and " + after + " from after it";
  }

  static String ofTheTool(int count) {
    return "left out: " + entries(count) + " that nobody said, made by the tool";
  }

  static String noChapter(String step) {
    return "no chapter for \"" + step + "\": only its end was told, and another step was under way";
  }

  static String filmNote(String job, String begins) {
    return "Job " + job + ". The film begins " + begins + ".";
  }

  static String lookAgain(String what, String machine) {
    return "Look again: " + what + " (" + machine + ")";
  }

  static String lookAgainBecause(String words, String who, String when, String job, String title) {
    return "\""
        + words
        + "\", "
        + who
        + ", "
        + when
        + ", job "
        + job
        + ": "
        + title
        + "\nMachine stopped and made safe first. The maker's manual decides.";
  }

  private static String entries(int count) {
    return count + (count == 1 ? " entry" : " entries");
  }
}
