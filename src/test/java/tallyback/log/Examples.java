package tallyback.log;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.*; // one of each
import tallyback.model.Unit;

/**
 * Statements of every kind, each once with everything said and, where it can, once with as little
 * as possible; all invented.
 */
public final class Examples {

  /** A plan's text; to the log it is only text. */
  public static final String PLAN = "machine: Orchard 4 \u00b7 coolant pump\nitems: [pump, belt]\n";

  private static final Instant MORNING = Instant.parse("2026-03-02T08:15:00.250Z");

  private Examples() {}

  public static JobOpened opening(String planText) {
    return new JobOpened("coolant pump", hash(planText), planText);
  }

  public static String hash(String text) {
    return SoundClip.hashOf(text.getBytes(StandardCharsets.UTF_8));
  }

  public static List<Statement> statements() {
    return List.of(
        opening(PLAN),
        new FluidMoved(
            FluidMove.OUT,
            Amount.of("2.10", Unit.LITRE),
            true,
            "coolant",
            FluidForm.PREMIX,
            "cooling",
            "block-plug",
            "white-jug",
            Warmth.COLD,
            Amount.of("-3.5", Unit.CELSIUS)),
        new FluidMoved(
            FluidMove.LEFT_IN_PART, null, false, null, null, null, null, null, null, null),
        new ItemsMoved(
            ItemMove.NEW_ON,
            "guard-bolts",
            Thing.BOLT,
            6,
            false,
            Amount.of("10", Unit.MILLIMETRE),
            "left-side",
            FellWhere.MACHINE),
        new ItemsMoved(ItemMove.OFF, null, null, null, true, null, null, null),
        new TemporaryMoved(true, "locking-pin", 1),
        new TemporaryMoved(false, "locking-pin", null),
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            "outlet",
            Thing.NUT,
            4,
            false,
            Amount.of("19", Unit.UNSAID),
            2,
            Amount.of("90", Unit.DEGREE),
            "small-wrench",
            TorqueAt.AT_BOLT,
            TighteningOrder.IN_SEQUENCE),
        new Tightened(
            TightnessState.BY_FEEL,
            null,
            null,
            null,
            null,
            true,
            null,
            null,
            null,
            null,
            null,
            null),
        new StepMarked("drain", StepMark.DONE),
        new Measured(
            Measure.LEVEL,
            Amount.of("0.5", Unit.INCH),
            Level.BELOW,
            "cold-mark",
            "cooling",
            Warmth.HOT,
            "rule"),
        new Measured(Measure.HOURS, null, null, null, null, null, null),
        new PartFitted("pump-gasket", PartCondition.CARRIED_OVER),
        new Aligned("crank-pulley", Amount.of("180", Unit.DEGREE)),
        new Aligned("crank-pulley", null),
        new StateSaid(MachineState.NO_LEAK, "lower-hose"),
        new StateSaid(MachineState.BATTERY_OFF, null),
        new SpeakerIs("second-mechanic"),
        new SecondCheck("second-mechanic", "outlet-nuts"),
        new SecondCheck(null, null),
        new ProblemSeen(Trouble.CRACKED, "upper-hose"),
        new ProblemSeen(Trouble.UNSPECIFIED, null),
        new Memo(),
        new Memo(4, null, "place-3"),
        new Statement.Written(Statement.About.EXTRA_WORK, "Heater hose cracked: renewed too"),
        new Statement.NotUnderstood(7),
        new Statement.NotUnderstood(null),
        new Statement.NotUnderstood(4, Statement.Hindrance.NOISE),
        new Statement.NotUnderstoodSettled(),
        new Statement.NotUnderstoodSettled("bench-1-0000123", "bench-1-0000456"),
        new Statement.CautionAnswered("drain", true),
        new Statement.CautionAnswered("drain", false),
        new Statement.TimerSet(Amount.of("10", Unit.MINUTE), "upper-hose", false),
        new Statement.TimerSet(Amount.of("0.5", Unit.HOUR), null, true),
        new Statement.TimersCancelled(),
        new Statement.LookAgain(2, Statement.Span.WEEKS, "outlet-nuts", false),
        new Statement.LookAgain(1, Statement.Span.DAYS, null, true),
        new Statement.FilmMark(3),
        new Statement.FilmMark(null),
        new Statement.Undone("id-7", "said twice"),
        new Statement.Corrected("id-7", new Statement.Paused(), "heard it again"),
        new Statement.Retimed("id-7", Instant.parse("2026-03-02T09:15:00Z"), "by the film"),
        new Statement.AddedLater(new Statement.TimersCancelled(), "forgotten in the rain"),
        new Statement.FindingAnswered(
            "torque-unsaid outlet-nuts",
            "0 of 3 said to be torqued",
            Statement.FindingEnd.FIXED,
            "Mira Tolvan",
            "torqued to the manual's value",
            null),
        new Statement.FindingAnswered(
            "fluid-short cooling",
            "short 0.62 L",
            Statement.FindingEnd.LOOK_AGAIN,
            "Mira Tolvan",
            "level next morning",
            LocalDate.of(2026, 3, 3)),
        new PhotoMarked("thermostat"),
        new PhotoMarked(null),
        new Statement.PictureTaken(
            "IMG_0412.jpg", "a".repeat(64), "2026-03-02T09:57:04.120", "PT1H2M3S", 4032, 3024, 3),
        new Statement.PictureTaken(
            "\u00fcbersicht <1>.png",
            "b".repeat(64),
            "2026-03-02T09:57:04+01:00",
            "PT0S",
            800,
            600,
            null),
        new Undone("bench-1-0000123"),
        new Undone(null),
        new Corrected(
            "bench-1-0000123",
            new Tightened(
                TightnessState.TORQUED,
                "outlet-nuts",
                null,
                null,
                null,
                false,
                Amount.of("16", Unit.NEWTON_METRE),
                null,
                null,
                null,
                null,
                null)),
        new Retimed("bench-1-0000123", Instant.parse("2026-03-02T07:55:00Z")),
        new Paused(),
        new Resumed(),
        new LeftForNight(),
        new JobClosed(),
        new VisitBegun("outlet nuts once more after 50 km"),
        new JobClosed(),
        new VisitBegun(null),
        new JobClosed());
  }

  /** An entry of the job "pump" that says this. */
  public static Entry entry(long seq, Statement statement, @Nullable String clip) {
    return draft("pump", "bench-1-" + seq, statement).noted(seq, clip);
  }

  public static Draft draft(String job, String id, Statement statement) {
    return new Draft(
        id,
        job,
        MORNING,
        MORNING.plusMillis(1),
        ZoneId.of("Europe/Dublin"),
        "una",
        "bench-1",
        Source.SPOKEN,
        Certainty.CONFIRMED,
        "as it was said \u00b0",
        statement);
  }

  /** A clip told from others by its number. */
  public static SoundClip clip(int number, int bytes) {
    byte[] sound = new byte[bytes];
    new java.util.Random(number).nextBytes(sound);
    return new SoundClip(sound);
  }
}
