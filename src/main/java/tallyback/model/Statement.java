package tallyback.model;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What an entry means. Names of things ({@code item}, {@code place}, {@code vessel} ...) are ids of
 * the plan; null means that nothing was said. Most kinds are noted as they are; {@link SameAgain},
 * {@link Answer}, {@link ChangeLast} and {@link WasEarlier} are only ever spoken: the dialogue
 * turns them into a notable statement first.
 *
 * <p>To add a kind: a record here, its phrases in {@code grammars/}, its reading in {@code phrase},
 * its JSON name in {@code log}, and whatever the books and findings make of it. Tests over all
 * permitted kinds point at what is missing.
 */
public sealed interface Statement {

  /**
   * Stands for a place that was named by its side only ("on the left"): resolved before it is
   * noted.
   */
  String LEFT_SIDE = "@left";

  /** As {@link #LEFT_SIDE}. */
  String RIGHT_SIDE = "@right";

  /** The other of two places, the first of which was named before ("from the other side"). */
  String OTHER_SIDE = "@other";

  /** Stands for the last entry until its id is known. */
  String LAST_ENTRY = "@last";

  /** True when the statement may stand in the log. */
  default boolean notable() {
    return true;
  }

  /** Warmth of a fluid or machine as said, when no temperature was measured. */
  enum Warmth {
    /** At rest for long, at the temperature of the shop. */
    COLD,
    /** At running temperature. */
    HOT
  }

  /** What a fluid entry says happened. Each moves an amount between two accounts. */
  enum FluidMove {
    /** Drained: from the system into the pan. */
    OUT,
    /** Filled: from the can into the system. */
    IN,
    /** Spilled or run away: from the system, lost. */
    LOST,
    /** Caught fluid poured back: from the pan into the system. */
    PUT_BACK,
    /** From the pan to the waste drum. */
    TO_WASTE,
    /** Pushed out while bleeding: from the system into the pan. */
    BLED_OUT,
    /** Left in the part taken off: from the system, with the old part. */
    LEFT_IN_PART
  }

  /** In which form a fluid was poured. */
  enum FluidForm {
    /** Neat concentrate. */
    CONCENTRATE,
    /** Ready mixed. */
    PREMIX,
    /** Plain or distilled water. */
    WATER
  }

  /**
   * An amount of fluid moved.
   *
   * @param move what happened to it
   * @param amount how much; null when only the act was said ("drained the radiator")
   * @param about true when the speaker said "about": widens the reading
   * @param fluid plan id of the fluid, or null
   * @param form concentrate, premix or water as said, or null
   * @param system plan id of the system, or null
   * @param place plan id of the drain or fill point, or null
   * @param vessel plan id of the vessel it was read in, or null
   * @param warmth hot or cold as said, or null
   * @param temperature as measured, or null
   */
  record FluidMoved(
      FluidMove move,
      @Nullable Amount amount,
      boolean about,
      @Nullable String fluid,
      @Nullable FluidForm form,
      @Nullable String system,
      @Nullable String place,
      @Nullable String vessel,
      @Nullable Warmth warmth,
      @Nullable Amount temperature)
      implements Statement {}

  /** What happened to items. */
  enum ItemMove {
    /** From the machine into the tray. */
    OFF,
    /** From the tray onto the machine. */
    ON,
    /** A new one from stock onto the machine. */
    NEW_ON,
    /** From the tray to scrap. */
    SCRAPPED,
    /** Looked for and not there: from the tray, lost. */
    MISSING,
    /** Fell down: from the tray, lost until found. */
    DROPPED,
    /** Back from lost into the tray. */
    FOUND,
    /** Broke while coming off or going on: from the machine to scrap. */
    SHEARED
  }

  /** Where something fell. */
  enum FellWhere {
    /** On the floor. */
    FLOOR,
    /** Into the machine: a danger until it is found. */
    MACHINE
  }

  /** What sort of thing an item is. */
  enum Thing {
    /** Bolt or cap screw. */
    BOLT,
    /** Nut. */
    NUT,
    /** Machine or self-tapping screw. */
    SCREW,
    /** Stud. */
    STUD,
    /** Washer. */
    WASHER,
    /** Push or spring clip. */
    CLIP,
    /** Hose clamp. */
    CLAMP,
    /** Drain or filler plug. */
    PLUG,
    /** Locking or split pin. */
    PIN,
    /** Electrical connector or vacuum line. */
    CONNECTOR,
    /** Hose or pipe. */
    HOSE,
    /** Cover, guard, duct, bracket, belt, pump and any other part. */
    PART
  }

  /**
   * Things came off, went on, were lost or found.
   *
   * @param move what happened
   * @param item plan id of the group or part, or null until resolved
   * @param thing the noun said ("bolts"), or null
   * @param count how many; null when no number was said
   * @param lump true for a sweeping statement ("all six back"): said, not counted
   * @param headSize head size as said, or null
   * @param place plan id of where from or where to, or null
   * @param where for dropped and found: floor or machine, or null
   */
  record ItemsMoved(
      ItemMove move,
      @Nullable String item,
      @Nullable Thing thing,
      @Nullable Integer count,
      boolean lump,
      @Nullable Amount headSize,
      @Nullable String place,
      @Nullable FellWhere where)
      implements Statement {}

  /**
   * A temporary thing (locking pin, blanking plug, clamp pliers, rag) went in or came out again.
   *
   * @param in true when it went in
   * @param item plan id of the temporary item
   * @param count how many; null when no number was said
   */
  record TemporaryMoved(boolean in, String item, @Nullable Integer count) implements Statement {}

  /** Tightness of a fastener, from loose to proved. */
  enum TightnessState {
    /** Threads started by hand. */
    STARTED,
    /** Hand tight: not finished. */
    HAND_TIGHT,
    /** Tight by feel, no wrench reading. */
    BY_FEEL,
    /** Torqued with a wrench. */
    TORQUED,
    /** Turned through the angle after torque. */
    ANGLE_DONE,
    /** Checked after the fact. */
    CHECKED
  }

  /** Where a torque is meant when an adapter lengthens the wrench. */
  enum TorqueAt {
    /** What the wrench shows. */
    AT_WRENCH,
    /** What reaches the bolt. */
    AT_BOLT
  }

  /** In which order the fasteners of a group were tightened. */
  enum TighteningOrder {
    /** In the maker's sequence. */
    IN_SEQUENCE,
    /** Crosswise. */
    CROSSWISE
  }

  /**
   * Fasteners were tightened.
   *
   * @param state how tight
   * @param item plan id of the group, or null until resolved
   * @param place plan id of the place named instead of the group, or null
   * @param thing the noun said, or null
   * @param count how many; null when no number was said
   * @param lump true when "all" was said without a number
   * @param torque the value, unit possibly {@link Unit#UNSAID}, or null
   * @param pass which pass (1 = first), or null
   * @param angle further turn in degrees, or null
   * @param wrench plan id of the wrench, or null
   * @param torqueAt where the torque is meant, or null when it wasn't said
   * @param order in which order, or null when it wasn't said
   */
  record Tightened(
      TightnessState state,
      @Nullable String item,
      @Nullable String place,
      @Nullable Thing thing,
      @Nullable Integer count,
      boolean lump,
      @Nullable Amount torque,
      @Nullable Integer pass,
      @Nullable Amount angle,
      @Nullable String wrench,
      @Nullable TorqueAt torqueAt,
      @Nullable TighteningOrder order)
      implements Statement {}

  /** How far a step is. */
  enum StepMark {
    /** Begun. */
    STARTED,
    /** Finished. */
    DONE,
    /** Left out on purpose. */
    SKIPPED,
    /** Done once more. */
    REDONE
  }

  /**
   * A step was started, done, skipped or redone.
   *
   * @param step plan id of the step
   * @param mark how far it is
   */
  record StepMarked(String step, StepMark mark) implements Statement {}

  /** What was measured. */
  enum Measure {
    /** Coolant, oil or shop temperature. */
    TEMPERATURE,
    /** Fluid level against a mark. */
    LEVEL,
    /** Pressure over the surrounding air. */
    PRESSURE,
    /** Gap. */
    GAP,
    /** Thickness. */
    THICKNESS,
    /** Voltage. */
    VOLTAGE,
    /** Current. */
    CURRENT,
    /** Resistance. */
    RESISTANCE,
    /** Engine speed. */
    SPEED,
    /** Hour meter. */
    HOURS,
    /** Distance driven. */
    DISTANCE,
    /** Freeze protection by refractometer, as a temperature or a share. */
    STRENGTH
  }

  /** A level against its mark. */
  enum Level {
    /** Below the mark. */
    BELOW,
    /** At the mark. */
    AT,
    /** Above the mark. */
    ABOVE
  }

  /**
   * Something was measured.
   *
   * @param measure what
   * @param amount the value, unit possibly {@link Unit#UNSAID}; null for a level said in words
   * @param level for levels: where it stands, or null
   * @param mark plan id of the mark it was held against, or null
   * @param subject plan id of the system, place or item, or null
   * @param warmth hot or cold as said, or null
   * @param instrument plan id of the gauge, or null
   */
  record Measured(
      Measure measure,
      @Nullable Amount amount,
      @Nullable Level level,
      @Nullable String mark,
      @Nullable String subject,
      @Nullable Warmth warmth,
      @Nullable String instrument)
      implements Statement {}

  /** In what condition a part went in. */
  enum PartCondition {
    /** New. */
    NEW,
    /** The old one put back. */
    OLD,
    /** Moved over from the old part. */
    CARRIED_OVER
  }

  /**
   * A part went in new, old, or carried over from the old assembly.
   *
   * @param item plan id of the part
   * @param condition new, old or carried over
   */
  record PartFitted(String item, PartCondition condition) implements Statement {}

  /**
   * An alignment mark was set or checked.
   *
   * @param item plan id of the item that carries the mark
   * @param angle degrees from twelve o'clock, clockwise, or null when said as "lined up"
   */
  record Aligned(String item, @Nullable Amount angle) implements Statement {}

  /** State of the machine as said. */
  enum MachineState {
    /** Engine cold. */
    COLD,
    /** Engine hot. */
    HOT,
    /** Battery earth lead off. */
    BATTERY_OFF,
    /** Battery earth lead back on. */
    BATTERY_ON,
    /** On stands. */
    ON_STANDS,
    /** Down on its wheels. */
    ON_WHEELS,
    /** Wheels chocked. */
    CHOCKED,
    /** Key out. */
    KEY_OUT,
    /** Implement lowered. */
    IMPLEMENT_DOWN,
    /** Pressure let off. */
    PRESSURE_OFF,
    /** Cap opened. */
    CAP_OPEN,
    /** Cap closed. */
    CAP_CLOSED,
    /** Guards on. */
    GUARDS_ON,
    /** Guards off. */
    GUARDS_OFF,
    /** Turned over by hand, runs free. */
    TURNED_BY_HAND,
    /** Engine running. */
    RUNNING,
    /** Engine stopped. */
    STOPPED,
    /** Heater on full. */
    HEATER_ON,
    /** A leak was seen. */
    LEAK,
    /** Looked for leaks, none. */
    NO_LEAK,
    /** Warning lamps out. */
    LAMPS_OUT,
    /** Tools, pins and rags out of the bay. */
    TOOLS_OUT,
    /** Bled, no more bubbles. */
    BLED,
    /** Eye protection on. */
    EYES_COVERED,
    /** Doors open or extraction on. */
    VENTILATED
  }

  /**
   * The machine was made safe, changed state, or was checked.
   *
   * @param state what was said
   * @param place plan id of where, or null
   */
  record StateSaid(MachineState state, @Nullable String place) implements Statement {}

  /**
   * Somebody else speaks from here on.
   *
   * @param person plan id of the person
   */
  record SpeakerIs(String person) implements Statement {}

  /**
   * A second person checked something.
   *
   * @param person plan id of the person, or null
   * @param subject plan id of an item or step, or null
   */
  record SecondCheck(@Nullable String person, @Nullable String subject) implements Statement {}

  /** What was wrong. */
  enum Trouble {
    /** Broken. */
    BROKEN,
    /** Cracked. */
    CRACKED,
    /** Worn. */
    WORN,
    /** Thread stripped. */
    STRIPPED,
    /** Seized or baked on. */
    SEIZED,
    /** Corroded. */
    CORRODED,
    /** Damaged. */
    DAMAGED,
    /** Leaking. */
    LEAKING,
    /** Not said. */
    UNSPECIFIED
  }

  /**
   * Something was found wrong.
   *
   * @param trouble what
   * @param subject plan id of the item or place, or null
   */
  record ProblemSeen(Trouble trouble, @Nullable String subject) implements Statement {}

  /**
   * A memo. Of a spoken one the sound is what counts, of a typed one the text.
   *
   * @param seconds how long the sound is, at least 1; null when nobody measured it
   * @param text what was typed; null for a spoken one
   * @param subject plan id of the place or item that it gives a name to, or null
   */
  record Memo(@Nullable Integer seconds, @Nullable String text, @Nullable String subject)
      implements Statement {

    /** One that names nothing. */
    public Memo(@Nullable Integer seconds, @Nullable String text) {
      this(seconds, text, null);
    }

    /** One of which nothing more is known. */
    public Memo() {
      this(null, null, null);
    }
  }

  /** What words for the owner of the machine are about. */
  enum About {
    /** Whose machine it is. */
    OWNER,
    /** What the owner complains of. */
    COMPLAINT,
    /** In what condition it came in. */
    ARRIVAL,
    /** What was behind the complaint. */
    CAUSE,
    /** What turned out to be needed besides. */
    EXTRA_WORK,
    /** What was agreed, with whom and how. */
    AGREED,
    /** What to watch, and when to look again. */
    ADVICE,
    /** What became of the old parts. */
    OLD_PARTS,
    /** Where old fluid and other waste went. */
    WASTE,
    /** Who answers for the work. */
    SIGNED;

    /** What they are about, in words. */
    public String words() {
      return this == ARRIVAL
          ? "condition on arrival"
          : name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /**
   * Words for the owner of the machine. They are written and not spoken: they move nothing, are
   * held against nothing, and are shown as they stand.
   *
   * @param about what they are about
   * @param text the words, not empty
   */
  record Written(About about, String text) implements Statement {}

  /**
   * Something was called out to the log and not understood: the sound is all there is of it. It
   * moves nothing and closes nothing, and stands until {@link NotUnderstoodSettled}.
   *
   * @param snrDb speech to noise of the sound in whole dB, 0 or more; null when not measured
   * @param hindrance why its words were not taken; null when they just were not understood
   */
  record NotUnderstood(@Nullable Integer snrDb, @Nullable Hindrance hindrance)
      implements Statement {

    /** It was listened to, and not understood. */
    public NotUnderstood(@Nullable Integer snrDb) {
      this(snrDb, null);
    }

    /** Whether it was too noisy to listen to it. */
    public boolean inNoise() {
      return hindrance == Hindrance.NOISE;
    }
  }

  /** What kept words from being taken. */
  enum Hindrance {
    /** It was too noisy to trust what was heard. */
    NOISE
  }

  /**
   * What was not understood was said again, or is not wanted any more.
   *
   * @param target id of the one thing not understood that is settled; null for everything so far
   * @param by id of the entry by which it was said again: withdrawn, it settles nothing any more;
   *     null when it was not
   */
  record NotUnderstoodSettled(@Nullable String target, @Nullable String by) implements Statement {

    /** Everything so far is settled. */
    public NotUnderstoodSettled() {
      this(null, null);
    }
  }

  /**
   * What was said or not said to the cautions of a step: they are to be understood before it.
   *
   * @param step plan id of the step
   * @param understood true when the speaker said so; false when work went on without
   */
  record CautionAnswered(String step, boolean understood) implements Statement {}

  /**
   * Somebody asked to be reminded.
   *
   * @param after how long after the entry happened
   * @param subject plan id of what is to be looked at then, or null
   * @param level true when it is a level
   */
  record TimerSet(Amount after, @Nullable String subject, boolean level) implements Statement {}

  /** No reminder asked for so far is wanted any more. */
  record TimersCancelled() implements Statement {}

  /**
   * A photo was taken here.
   *
   * @param subject plan id of the item or place, or null
   * @param number which photo of the job it is, from 1; null before it is noted
   */
  record PhotoMarked(@Nullable String subject, @Nullable Integer number) implements Statement {

    /** One without a number. */
    public PhotoMarked(@Nullable String subject) {
      this(subject, null);
    }
  }

  /**
   * A photo of the job, kept with the log as a reduced copy: the entry's clip. When it was taken,
   * by the camera's clock put right, is when the entry happened. Made by the tool, never said.
   *
   * @param file name of the original, on one line
   * @param originalHash SHA-256 (hex) of the original
   * @param cameraTime when it was taken as the camera wrote it: ISO 8601, with an offset where the
   *     camera wrote one, else in the entry's zone
   * @param clockOffset what was added to that, as an ISO 8601 duration such as {@code PT1H2M3S}
   * @param widthPixels width of the original, upright
   * @param heightPixels height of the original, upright
   * @param photo the number of the {@link PhotoMarked} it belongs to, or null
   */
  record PictureTaken(
      String file,
      String originalHash,
      String cameraTime,
      String clockOffset,
      Integer widthPixels,
      Integer heightPixels,
      @Nullable Integer photo)
      implements Statement {}

  /** What time until something is looked at again is counted in. */
  enum Span {
    /** Hours from the moment it was said. */
    HOURS,
    /** Days of the calendar. */
    DAYS,
    /** Weeks of the calendar. */
    WEEKS,
    /** Months of the calendar. */
    MONTHS
  }

  /**
   * Something is to be looked at again when the job is long over.
   *
   * @param count how many of the span, at least 1
   * @param span hours, days, weeks or months
   * @param subject plan id of what is to be looked at, or null
   * @param level true when it is a level
   */
  record LookAgain(Integer count, Span span, @Nullable String subject, boolean level)
      implements Statement {

    /** The day of the calendar on which it is due, when it was said at a time in a zone. */
    public LocalDate dueOn(Instant said, ZoneId zone) {
      LocalDate day = said.atZone(zone).toLocalDate();
      return switch (span) {
        case HOURS -> said.plus(count, ChronoUnit.HOURS).atZone(zone).toLocalDate();
        case DAYS -> day.plusDays(count);
        case WEEKS -> day.plusWeeks(count);
        case MONTHS -> day.plusMonths(count);
      };
    }
  }

  /**
   * A mark that a camera's microphone heard as well: by it a film is laid beside the job.
   *
   * @param number which mark it is, from 1; null before it is noted
   */
  record FilmMark(@Nullable Integer number) implements Statement {}

  /**
   * An earlier entry is withdrawn.
   *
   * @param target id of the entry; null means the last one, until resolved
   * @param why in the words of whoever reviewed the job; null when nobody said
   */
  record Undone(@Nullable String target, @Nullable String why) implements Statement {

    /** One without a reason. */
    public Undone(@Nullable String target) {
      this(target, null);
    }
  }

  /**
   * An earlier entry is replaced.
   *
   * @param target id of the entry replaced
   * @param now what holds instead
   * @param why in the words of whoever reviewed the job; null when nobody said
   */
  record Corrected(String target, Statement now, @Nullable String why) implements Statement {

    /** One without a reason. */
    public Corrected(String target, Statement now) {
      this(target, now, null);
    }
  }

  /**
   * An earlier entry happened at another time.
   *
   * @param target id of the entry
   * @param happenedAt when it happened
   * @param why in the words of whoever reviewed the job; null when nobody said
   */
  record Retimed(String target, Instant happenedAt, @Nullable String why) implements Statement {

    /** One without a reason. */
    public Retimed(String target, Instant happenedAt) {
      this(target, happenedAt, null);
    }
  }

  /**
   * Something that nobody said while it was done, added when the job was reviewed. It counts as if
   * it had been said at its time; when it was noted tells it from what was.
   *
   * @param now what holds
   * @param why in the words of whoever reviewed the job
   */
  record AddedLater(Statement now, String why) implements Statement {}

  /** What became of a finding, by the word of whoever answers for it. */
  enum FindingEnd {
    /** It was put right on the machine. */
    FIXED,
    /** It stays as it is, and somebody agreed to that. */
    ACCEPTED,
    /** It stands until it is looked at again. */
    LOOK_AGAIN
  }

  /**
   * A finding is answered. The answer holds for the finding as it read then: once the job tells
   * something else of it, or the same once more, it doesn't any more.
   *
   * @param finding {@link Finding#id()}
   * @param read what the finding said, {@link Finding#says()}
   * @param end what became of it
   * @param by who put it right, agreed to it, or is to look again
   * @param why what was done, or why it may stay so
   * @param again the day on which it is to be looked at; null for none
   */
  record FindingAnswered(
      String finding, String read, FindingEnd end, String by, String why, @Nullable LocalDate again)
      implements Statement {}

  /** Work pauses. */
  record Paused() implements Statement {}

  /** Work goes on. */
  record Resumed() implements Statement {}

  /** The job is left for the night, possibly half open. */
  record LeftForNight() implements Statement {}

  /**
   * A job begins; the plan's text is frozen with it.
   *
   * @param planName name of the plan
   * @param planHash SHA-256 (hex) of its text
   * @param planText the text itself
   */
  record JobOpened(String planName, String planHash, String planText) implements Statement {}

  /** The job is closed; nothing more is noted, but on a visit. */
  record JobClosed() implements Statement {}

  /**
   * Somebody comes back to a job that was closed: to look again, to tighten again, to put right
   * what is written. What was closed stays as it was; entries follow it until it is closed once
   * more.
   *
   * @param why what for, in words as written; null when nobody said
   */
  record VisitBegun(@Nullable String why) implements Statement {}

  /**
   * "Same again on the left": the last entry once more, elsewhere.
   *
   * @param item plan id of the group or part it holds for, or null
   * @param place plan id of the place it holds for, or null
   */
  record SameAgain(@Nullable String item, @Nullable String place) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * "Scratch that, sixteen not sixty": one value of the last entry changes.
   *
   * @param value the new value, unit possibly {@link Unit#UNSAID} (then the old unit holds), or
   *     null
   * @param item another item, or null
   * @param place another place, or null
   */
  record ChangeLast(@Nullable Amount value, @Nullable String item, @Nullable String place)
      implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * "The belly pan was five, not six": one value of an earlier entry changes, which is found by
   * what it is about.
   *
   * @param subject plan id of the item, place, point or system named
   * @param value the new value, unit possibly {@link Unit#UNSAID} (then the old unit holds)
   * @param was the number that stands there now, without unit, or null when it wasn't said
   */
  record ChangeNamed(String subject, Amount value, @Nullable Amount was) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * "Cancel the timer": the one that runs, or all.
   *
   * @param all true when all are meant
   */
  record CancelTimer(boolean all) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * "Scratch the belly pan": the last entry about it is withdrawn.
   *
   * @param subject plan id of the item, place, point or system named
   */
  record UndoNamed(String subject) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /** "The other reading": the last entry was heard wrong, and what else it may have been holds. */
  record OtherReading() implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * "That was twenty minutes ago": the last entry happened earlier.
   *
   * @param ago how long before now
   */
  record WasEarlier(Amount ago) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * An answer to a question of the tool's.
   *
   * @param yes true for yes, false for no, null when the answer is a value
   * @param value a number with or without unit, or a bare unit with the value null in {@code unit}
   * @param unit a bare unit ("newton metres"), or null
   */
  record Answer(@Nullable Boolean yes, @Nullable Amount value, @Nullable Unit unit)
      implements Statement {

    /** True for a plain yes, and nothing else with it. */
    public boolean isYes() {
      return Boolean.TRUE.equals(yes) && value == null && unit == null;
    }

    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * "And nine fifty mils from the other side", "and two more": the last entry once more with
   * another amount or count.
   *
   * @param amount how much, unit possibly {@link Unit#UNSAID}, or null
   * @param count how many, or null
   * @param item plan id of the group or part it holds for, or null for the same
   * @param place plan id of the place or a side, or null for the same
   */
  record MoreOfSame(
      @Nullable Amount amount,
      @Nullable Integer count,
      @Nullable String item,
      @Nullable String place)
      implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * A name as an answer: "the block plug".
   *
   * @param id plan id of what was named, or a side
   */
  record Named(String id) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * Where a torque is meant, as an answer: "at the bolt".
   *
   * @param at where
   */
  record MeantAt(TorqueAt at) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * Where something fell, as an answer: "on the floor".
   *
   * @param where where
   */
  record Fell(FellWhere where) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * What was to be said again is not said now.
   *
   * @param later true when it is to be asked for once more; false when not
   */
  record PutOff(boolean later) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }

  /**
   * One of several readings that were offered: "the second one".
   *
   * @param number which, from 1
   */
  record Chosen(int number) implements Statement {
    @Override
    public boolean notable() {
      return false;
    }
  }
}
