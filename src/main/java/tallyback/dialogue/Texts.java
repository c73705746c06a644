package tallyback.dialogue;

import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.ReadBackText;

/** What the dialogue says to the speaker. */
final class Texts {

  static final String PAUSED = "paused: say carry on first";
  static final String NOTHING_ASKED = "nothing was asked";
  static final String NOTHING_BEFORE =
      "there is nothing before this that it could mean; say it in full";
  static final String NOTHING_MISSED = "nothing was missed";
  static final String SO_ALREADY = "it is noted so already";
  static final String FELL_WHERE = "on the floor, or in the machine?";
  static final String GONE_ON = "gone on without \"understood\", which is noted";
  static final String NO_TIMER = "no timer is running";
  static final String SEVERAL_TIMERS = "several are running: say \"cancel all timers\"";
  static final String NOTHING_OPEN = "nothing is open in what you told me";
  static final String HANG_A_TAG = "Hang a do-not-start tag on it";
  static final String NO_OTHER_READING = "nothing else was heard there; say it in full";
  static final String MORE_THAN_ALL = "that would be more than all of it.";
  static final String COLDER_THAN_COLDEST = "that would be colder than anything can be.";
  static final String EMPTIER_THAN_EMPTY = "that would be less pressure than none at all.";
  static final String LESS_THAN_NOTHING = "that would be less than nothing.";
  static final String MEMO_GOES_ON = "memo: go on, up to sixty seconds";
  static final String MEMO_EMPTY = "memo: nothing was said, nothing kept";
  static final String MEMO_FULL = "that is the longest a memo can be";
  static final String MEMO_OF_WHAT =
      "a memo of what? write it behind the word: memo the thread looks worn";
  static final String NO_ENTRY_BY_ITSELF =
      "that is no entry by itself; say in full what was done, to what and how many";
  static final String TIME_BY_ITSELF = "give the time by itself, not in the words";
  static final String ONE_AT_A_TIME = "that is more than one thing; enter one after the other";
  static final String SAY_OF_WHAT = "of what? name the part or its place";
  static final String WRENCH_OR_BOLT_TOO =
      "with an adapter on the wrench say where the torque is meant: at the wrench, or at the bolt";

  static String unitToo(String units) {
    return units.isEmpty()
        ? "no unit was given; write it too"
        : "no unit was given; write it too: " + units;
  }

  static final String NO_MEMO = "no memo was begun";
  static final String TOO_NOISY = "too noisy to trust what I hear";
  static final String ASKED_LATER = "later, then";
  static final String SKIP_IT = "skip it";
  static final String ASK_LATER = "ask me later";
  static final String DROPPED = "dropped, nothing noted; say it again";

  private Texts() {}

  /** In a quiet shop the noise was not what kept it from being understood. */
  static String notUnderstood(boolean noisy) {
    return "not understood, kept; say it again " + (noisy ? "when it is quieter" : "another way");
  }

  /**
   * It is too noisy to note anything.
   *
   * @param askedAgain whether somebody will ask for it
   */
  static String keptInNoise(boolean askedAgain) {
    return TOO_NOISY
        + ": not noted, kept as sound. "
        + (askedAgain ? "I'll ask you when it is quieter" : "Say it again when it is quieter");
  }

  /** "two things were said in the noise. Say the first again: it was at 10:40". */
  static String sayAgain(int count, String at, boolean isFirst) {
    if (!isFirst) {
      return "now what you said at " + at;
    }
    return (count == 1
            ? "one thing was said in the noise. Say it again: it was at " + at
            : ReadBackText.aloud(count)
                + " things were said in the noise. Say the first again: it was at "
                + at)
        + ". Or: skip it, ask me later";
  }

  static String stillWanted(String at) {
    return "say what you said at " + at + ". Or: skip it, ask me later";
  }

  static String saidLate(String at) {
    return "noted as said at " + at;
  }

  static String skipped(String at) {
    return "skipped. What you said at " + at + " is kept as sound, not noted";
  }

  /** "at 10:14 and 10:20 something was not understood: ..." */
  static String reminder(List<String> times) {
    int last = times.size() - 1;
    String at =
        last == 0
            ? times.get(0)
            : String.join(", ", times.subList(0, last)) + " and " + times.get(last);
    return "at "
        + at
        + " something was not understood: say it again, then \"never mind what you missed\"";
  }

  static String nothingAbout(String label) {
    return "nothing is noted about the " + label + "; say it in full";
  }

  /** What was named has no such value. */
  static String noSuchValue(String label, @Nullable String was) {
    return "no entry about the "
        + label
        + (was == null ? " has such a value" : " says " + was)
        + "; say it in full";
  }

  /** Two entries or more fit equally. */
  static String whichOf(List<String> entries) {
    return "that could be " + String.join(", or ", entries) + "; name it in full";
  }

  /** The cautions of a step. */
  static String caution(List<String> texts, boolean wantsAnswer) {
    StringBuilder all = new StringBuilder("caution.");
    for (String text : texts) {
      all.append(' ').append(text).append(text.endsWith(".") ? "" : ".");
    }
    return wantsAnswer ? all + " Say understood." : all.toString();
  }

  /** "ten minutes are over: check the level". */
  static String timerOver(String lapse, String what, String dueAt) {
    return "reminder: "
        + lapse
        + " over"
        + (dueAt.isEmpty() ? "" : " since " + dueAt)
        + (what.isEmpty() ? "" : ", " + what);
  }

  static String timerRuns(String lapse, String what, long minutesLeft) {
    return lapse
        + (what.isEmpty() ? "" : ", " + what)
        + ": "
        + (minutesLeft == 1 ? "one minute" : ReadBackText.aloud((int) minutesLeft) + " minutes")
        + " left";
  }

  /** "open: a; b; c; and five more". */
  static String open(List<String> first, int more) {
    return "open: "
        + String.join("; ", first)
        + (more > 0 ? "; and " + ReadBackText.aloud(more) + " more" : "");
  }

  static String leftOn(String when, String by) {
    return "left on " + when + " by " + by;
  }

  static String last(String readBack) {
    return "last: " + readBack;
  }

  static String underWay(String step) {
    return "under way: " + step;
  }

  /** What a correction puts something in the place of. */
  static String instead(String was, String notedAt) {
    return "instead of " + was + (notedAt.isEmpty() ? "" : ", noted at " + notedAt);
  }

  /** What was taken back. */
  static String takenBack(String what, String notedAt) {
    return "taken back: " + what + (notedAt.isEmpty() ? "" : ", noted at " + notedAt);
  }

  /** "that would be seven of six belly pan bolts on." */
  static String tooMany(int number, int of, String label, String where) {
    return "that would be "
        + ReadBackText.aloud(number)
        + " of "
        + ReadBackText.aloud(of)
        + " "
        + label
        + (where.isEmpty() ? "." : " " + where + ".");
  }

  static String moreThanItHolds(Amount out, Amount capacity, String label) {
    return "that would be "
        + ReadBackText.aloud(out)
        + " out of the "
        + label
        + ", which holds "
        + ReadBackText.aloud(capacity)
        + ".";
  }

  static String beyondAnyWrench(Amount torque, Amount most) {
    return ReadBackText.aloud(torque)
        + " is beyond every wrench of the plan: the biggest goes to "
        + ReadBackText.aloud(most)
        + ".";
  }

  static String beyond(Amount value, String instrument, Amount from, Amount to) {
    return ReadBackText.aloud(value)
        + " is beyond the "
        + instrument
        + ", which goes from "
        + ReadBackText.aloud(from)
        + " to "
        + ReadBackText.aloud(to)
        + ".";
  }

  static String doneAlready(String step, String at) {
    return step + " was done already, at " + at + ".";
  }

  static String beforeTheJob(String then, String opened) {
    return "that would be at " + then + ", before the job was opened at " + opened + ".";
  }

  static String question(OpenQuestion question) {
    String why = question.why();
    if (question.doubtful()) {
      return "did you say \""
          + question.words()
          + "\"? "
          + (why.isEmpty() ? "" : why + " ")
          + "yes, no, or say it again";
    }
    if (!why.isEmpty() && !Amounts.lacksUnit(question.statement())) {
      return why + " Right? yes, no, or say it again";
    }
    if (!Amounts.lacksUnit(question.statement())) {
      return "at the wrench or at the bolt?";
    }
    String number =
        Amounts.of(question.statement()).map(Amount::value).map(Object::toString).orElse("");
    return number + " what? " + Texts.units(question.unitChoices());
  }

  /** What can be answered, in words that can be said as well. */
  static List<String> answers(OpenQuestion question) {
    if (question.doubtful()) {
      List<String> others =
          question.asked().readings().stream()
              .filter(reading -> !reading.equals(question.words()))
              .toList();
      return Stream.concat(Stream.of("yes", "no"), others.stream()).distinct().toList();
    }
    return Amounts.lacksUnit(question.statement())
        ? question.unitChoices().stream().limit(4).map(EntryGrammar::spoken).toList()
        : List.of("at the wrench", "at the bolt");
  }

  /** "newton metres, foot pounds or inch pounds", the usual ones first. */
  private static String units(List<Unit> choices) {
    List<String> names = choices.stream().limit(4).map(EntryGrammar::spoken).toList();
    if (names.isEmpty()) {
      return "say the number with its unit";
    }
    if (names.size() == 1) {
      return names.get(0) + "? say the unit";
    }
    return String.join(", ", names.subList(0, names.size() - 1))
        + " or "
        + names.get(names.size() - 1);
  }
}
