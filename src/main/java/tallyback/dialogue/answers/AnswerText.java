package tallyback.dialogue.answers;

import java.time.Duration;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tallyback.model.Finding.Stage;
import tallyback.phrase.Question.OfListening;
import tallyback.plan.Plan.ThreadState;

/** All that answers say, but for what the plan, the entries and the findings say themselves. */
final class AnswerText {

  static final String NEXT = "next";
  static final String WHERE_YOU_WERE = "where you were";
  static final String LEFT = "left";
  static final String IN_THE_TRAY = "in the tray";
  static final String NOT_TIGHT = "not tight yet";
  static final String NOT_SAID = "not said";
  static final String TIME = "time";
  static final String YOU_CAN_SAY = "you can say";
  static final String AGAIN = "again";
  static final String LOUDER = "louder";
  static final String QUIETER = "quieter";
  static final String IT = "it";

  static final String NO_WORD = "there is no word to wait for; start with --attention and a word";
  static final String NOTHING_TO_HOLD = "there is no key or pedal here that could be held";
  static final String NOTHING_HEARD = "that is for what is heard; nothing changes here";
  static final String NOT_LIVE = "that is for listening live; nothing changes here";

  /** The topic of the phrase card that tells what may be said to the tool's questions. */
  static final String ANSWERS = "Answers";

  static final String NO = "no. ";
  static final String CANT_TELL = "can't tell: ";
  static final String NOTHING_AGAINST = "nothing against it in what you told me";
  static final String NOT_TOLD = ". Not said: ";
  static final String SILENCE = ". What you didn't tell me I can't know; your manual decides";
  static final String NOT_SAID_BESIDES = "not said besides: ";

  static final String NOTHING_NOTED = "nothing noted yet";
  static final String NOTHING_SAID_YET = "nothing was said yet";
  static final String NO_STEPS = "the plan has no steps";
  static final String ALL_STEPS_DONE = "no step is left, by what you told me";
  static final String NOTHING_LEFT = "nothing of what is in the plan, by what you told me";
  static final String TRAY_EMPTY = "nothing, by what you told me";
  static final String ALL_TIGHT = "nothing of what you loosened, by what you told me";
  static final String NOTHING_LOOSENED = "nothing was loosened, by what you told me";
  static final String NOTHING_UNSAID =
      "nothing that the plan asks for; what it doesn't ask for I can't know";
  static final String NO_CAUTIONS = "no cautions in the plan; your manual and local rules decide";
  static final String CAUTIONS = "cautions";
  static final String CAUTIONS_NO_STEP = "no step at hand; your manual and local rules decide";
  static final String MANUAL_DECIDES = "your manual decides";
  static final String NO_TIMES = "the plan gives no times";
  static final String CARD_HAS_THE_REST = "The phrase card has the rest";

  static final String NO_TORQUE = "no torque in the plan; see your manual";
  static final String NO_SIZE = "no size in the plan; measure it";
  static final String NO_SEQUENCE = "no sequence in the plan; see your manual";
  static final String SEQUENCE = "in the maker's sequence; see your manual";
  static final String NO_ALIGNMENT =
      "the plan doesn't say which way round; look for a mark, and see your manual";
  static final String NO_PLACE = "the plan doesn't say where; see your manual";
  static final String WHICH_ITEM = "I don't know which one you mean; say its name";
  static final String ONLY_FOR_THE_JOB = "only for the job, and out again";
  static final String NEW_EACH_TIME = "new each time";

  static final String NO_SYSTEM = "the plan has no fluid system";
  static final String NOT_IN_ANY_SYSTEM = "no system of the plan holds it";
  static final String NOTHING_SAID_OF_IT = "nothing said of it yet";
  static final String EVEN = "as much in as out, as far as the jugs can tell";
  static final String AMOUNT_UNSAID = "some of it was said without an amount and isn't counted";
  static final String READ_THE_LEVEL = "engine stopped and cold, then read the level";

  private AnswerText() {}

  /** Who speaks, and whose voice is expected; null for anybody's. */
  static String speaking(String actor, @Nullable String voice) {
    return "speaking: " + actor + ". " + listeningFor(voice);
  }

  /** What follows from an order to expect a voice. */
  static String expectsVoice(@Nullable String voice) {
    return "from now on " + listeningFor(voice);
  }

  private static String listeningFor(@Nullable String voice) {
    return "I listen for " + (voice == null ? "anybody's voice" : voice + "'s voice");
  }

  static String voiceNotTaught(String voice) {
    return voice + ": that voice was not taught; nothing changes";
  }

  /** What a way of listening means. */
  static String listens(OfListening way) {
    return switch (way) {
      case TO_EVERYTHING -> "listening to everything: all that sounds like an entry is noted";
      case AFTER_THE_WORD -> "waiting for the word: only what follows it is noted";
      case WHILE_HELD ->
          "only when held. With nothing held I hear nothing, so no voice can switch it back";
    };
  }

  static String stage(Stage stage) {
    return switch (stage) {
      case START_FOR_TEST -> "starting it";
      case WORK -> "going to work";
      case HAND_OVER -> "handing it over";
    };
  }

  static String more(String number) {
    return "and " + number + " more";
  }

  /** "and three things not said". */
  static String thingsNotSaid(String number, boolean one) {
    return "Not said besides: " + number + (one ? " thing" : " things");
  }

  static String last(int entries, String number) {
    return entries == 1 ? "the last" : "the last " + number;
  }

  static String unconfirmed(String entry) {
    return "unconfirmed: " + entry;
  }

  static String notCounted(String number) {
    return "not confirmed and not counted: " + number;
  }

  static String finish(String step) {
    return "finish " + step;
  }

  static String begun(String step, String time) {
    return step + ", begun at " + time;
  }

  static String mind(String cautions) {
    return "Mind: " + cautions;
  }

  static String wants(String states) {
    return "say before it: " + states;
  }

  static String lastNoted(String entry, String time) {
    return "Last: " + entry + ", at " + time;
  }

  static String steps(String number, boolean one, String names) {
    return number + (one ? " step: " : " steps: ") + names;
  }

  static String stillOff(String names) {
    return "still off: " + names;
  }

  static String stillIn(String names) {
    return "still in, to come out: " + names;
  }

  static String untight(String names) {
    return "not tight: " + names;
  }

  static String bothOf(String label) {
    return "both " + label;
  }

  static String allOf(String number, String label) {
    return "all " + number + " " + label;
  }

  static String oneOf(String label) {
    return "one of the " + label;
  }

  static String oldOnes(String what) {
    return "the old " + what;
  }

  static String off(String label, String number) {
    return label + ", " + number + " off";
  }

  static String nothingToldOf(String label) {
    return label + ", nothing said";
  }

  static String outsideThePlan(String label, String told) {
    return label + ", " + told + ", not what the plan says";
  }

  static String notFinished(String label, String told) {
    return label + ", " + told + ", not all or not finished";
  }

  static String planSays(String figure) {
    return figure + ", the plan says; " + MANUAL_DECIDES;
  }

  static String passes(String number) {
    return "in " + number + " passes";
  }

  static String turn(String angle) {
    return "then " + angle;
  }

  static String threads(ThreadState threads) {
    return switch (threads) {
      case DRY -> "threads dry";
      case OILED -> "threads oiled";
      case THREAD_LOCK -> "with thread-lock";
    };
  }

  static String head(String size) {
    return "head " + size;
  }

  static String thread(String thread) {
    return "thread " + thread;
  }

  static String length(String length) {
    return "length " + length;
  }

  static String mark(String pointing) {
    return "mark " + pointing;
  }

  static String giveOrTake(String tolerance) {
    return "give or take " + tolerance;
  }

  static String at(String place) {
    return "at the " + place;
  }

  static String goesOnIn(String step) {
    return "goes on in " + step;
  }

  static String toldSoFar(String told) {
    return "told so far: " + (told.isEmpty() ? "nothing" : told);
  }

  static String out(String system) {
    return system + ", out";
  }

  static String in(String system) {
    return system + ", in";
  }

  static String missing(String system) {
    return system + ", short";
  }

  static String toPour(String system) {
    return system + ", to pour";
  }

  static String spilled(String amount) {
    return "and " + amount + " spilled";
  }

  static String tooMuch(String amount) {
    return "nothing, " + amount + " more in than out";
  }

  static String pour(String amount) {
    return amount + " by the jugs; " + READ_THE_LEVEL;
  }

  static String pourTooMuch(String amount, String capacity) {
    return amount
        + " by the jugs, but it holds "
        + capacity
        + " by the plan, so some amount is wrong: fill to the mark and no further; "
        + READ_THE_LEVEL;
  }

  static String pourNothing(String why) {
    return why + "; " + READ_THE_LEVEL;
  }

  static String worked(String time) {
    return time + " of work told";
  }

  static String paused(String time) {
    return time + " of breaks";
  }

  static String expects(String time) {
    return "the plan expects " + time + " for all its steps";
  }

  static String stepTook(String step, String took, String expected) {
    return step + ": " + took + expected;
  }

  static String expected(String time) {
    return " (plan " + time + ")";
  }

  static String forExample(String examples) {
    return "for example: " + examples + ". " + CARD_HAS_THE_REST;
  }

  /** "2 h 05 min", for the eye. */
  static String shown(Duration time) {
    long minutes = time.toMinutes();
    return minutes < 60
        ? minutes + " min"
        : String.format(Locale.ROOT, "%d h %02d min", minutes / 60, minutes % 60);
  }
}
