package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.*;
import tallyback.model.Unit;

class StatementTextTest {

  private static final Instant NINE = Instant.parse("2026-03-02T08:00:00Z");

  @Test
  void saysWhatWasNotSaid() {
    assertMeans(
        "coolant: out amount not said, at block plug",
        new FluidMoved(
            FluidMove.OUT, null, false, "coolant", null, null, "block-plug", null, null, null));
    assertMeans(
        "outlet nuts: 2 torqued, 19 (unit not said)",
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            null,
            Thing.NUT,
            2,
            false,
            Amount.of("19", Unit.UNSAID),
            null,
            null,
            null,
            null,
            null));
    assertMeans(
        "pump bolts: back on, number not said",
        new ItemsMoved(ItemMove.ON, "pump-bolts", Thing.BOLT, null, false, null, null, null));
    assertMeans(
        "bolts, group not named: 5 off, heads 10 mm",
        new ItemsMoved(
            ItemMove.OFF,
            null,
            Thing.BOLT,
            5,
            false,
            Amount.of("10", Unit.MILLIMETRE),
            null,
            null));
    assertMeans(
        "pump bolts: 6 back on, said as a whole, not counted",
        new ItemsMoved(ItemMove.ON, "pump-bolts", Thing.BOLT, 6, true, null, null, null));
    assertMeans("thermostat: mark lined up, no angle said", new Aligned("thermostat", null));
  }

  @Test
  void keepsAmountsAsSpoken() {
    assertMeans(
        "coolant: in about 2.10 L, neat concentrate, read in big jug, hot, 86 °C",
        new FluidMoved(
            FluidMove.IN,
            Amount.of("2.10", Unit.LITRE),
            true,
            "coolant",
            FluidForm.CONCENTRATE,
            "cooling",
            null,
            "big-jug",
            Warmth.HOT,
            Amount.of("86", Unit.CELSIUS)));
    assertMeans(
        "pump bolts: 4 torqued, 24 N·m, pass 2, then 90° further, with small wrench",
        new Tightened(
            TightnessState.TORQUED,
            "pump-bolts",
            null,
            Thing.BOLT,
            4,
            false,
            Amount.of("24", Unit.NEWTON_METRE),
            2,
            Amount.of("90", Unit.DEGREE),
            "small-wrench",
            null,
            null));
    assertMeans("thermostat: mark at 0° from twelve o'clock", OrchardJob.jigglePinUp());
  }

  @Test
  void handTightNeverSoundsFinished() {
    assertMeans(
        "pump bolts: 6 hand tight, not finished",
        new Tightened(
            TightnessState.HAND_TIGHT,
            "pump-bolts",
            null,
            Thing.BOLT,
            6,
            false,
            null,
            null,
            null,
            null,
            null,
            null));
  }

  @Test
  void everyKindOfStatementHasAText() {
    List<Statement> all = everyKind();
    Set<String> covered = new TreeSet<>();
    for (Statement statement : all) {
      covered.add(statement.getClass().getSimpleName());
      assertFalse(text(statement).isBlank(), () -> "no text for " + statement);
    }
    Set<String> wanted = new TreeSet<>();
    for (Class<?> kind : Statement.class.getPermittedSubclasses()) {
      wanted.add(kind.getSimpleName());
    }
    assertEquals(wanted, covered);
  }

  private static List<Statement> everyKind() {
    List<Statement> all = new ArrayList<>();
    for (FluidMove move : FluidMove.values()) {
      all.add(new FluidMoved(move, null, false, null, null, null, null, null, null, null));
    }
    for (ItemMove move : ItemMove.values()) {
      all.add(new ItemsMoved(move, null, null, null, false, null, null, FellWhere.MACHINE));
    }
    for (TightnessState state : TightnessState.values()) {
      all.add(
          new Tightened(state, null, null, null, null, true, null, null, null, null, null, null));
    }
    for (Statement.About about : Statement.About.values()) {
      all.add(new Statement.Written(about, "as it stands"));
    }
    for (StepMark mark : StepMark.values()) {
      all.add(new StepMarked("drain", mark));
    }
    for (Measure measure : Measure.values()) {
      all.add(new Measured(measure, null, Level.AT, null, null, null, null));
    }
    for (PartCondition condition : PartCondition.values()) {
      all.add(new PartFitted("pump", condition));
    }
    for (MachineState state : MachineState.values()) {
      all.add(new StateSaid(state, null));
    }
    for (Trouble trouble : Trouble.values()) {
      all.add(new ProblemSeen(trouble, null));
    }
    all.addAll(
        List.of(
            new TemporaryMoved(false, "locking-pin", 1),
            new Aligned("thermostat", null),
            new SpeakerIs("vera"),
            new SecondCheck(null, null),
            new Memo(),
            new Statement.NotUnderstood(7),
            new Statement.NotUnderstoodSettled(),
            new Statement.CautionAnswered("drain", true),
            new Statement.TimerSet(Amount.of("10", Unit.MINUTE), null, true),
            new Statement.TimersCancelled(),
            new Statement.LookAgain(2, Statement.Span.WEEKS, "pump", false),
            new Statement.FilmMark(3),
            new Statement.CancelTimer(true),
            new PhotoMarked(null),
            new Statement.PictureTaken("a.jpg", "00", "2026-03-02T09:57:04", "PT0S", 4, 3, 1),
            new Undone(null),
            new Corrected("gone", new Memo()),
            new Retimed("gone", NINE),
            new Statement.AddedLater(new Paused(), "forgotten"),
            new Statement.FindingAnswered(
                "left-in-tray bolts",
                "2 in the tray",
                Statement.FindingEnd.FIXED,
                "Mira Tolvan",
                "both found",
                null),
            new Paused(),
            new Resumed(),
            new LeftForNight(),
            new JobOpened("plan", "00", "text"),
            new JobClosed(),
            new Statement.VisitBegun("to look again"),
            new SameAgain(null, null),
            new ChangeLast(null, null, null),
            new WasEarlier(Amount.of("20", Unit.MINUTE)),
            new Answer(true, null, null),
            new Statement.MoreOfSame(null, 2, null, null),
            new Statement.Named("radiator-drain"),
            new Statement.MeantAt(Statement.TorqueAt.AT_BOLT),
            new Statement.ChangeNamed("pump", Amount.of("5", Unit.UNSAID), null),
            new Statement.UndoNamed("pump"),
            new Statement.OtherReading(),
            new Statement.Fell(Statement.FellWhere.FLOOR),
            new Statement.PutOff(true),
            new Statement.Chosen(2)));
    return all;
  }

  private static void assertMeans(String expected, Statement statement) {
    assertEquals(expected, text(statement));
  }

  private static String text(Statement statement) {
    JobRecord job = OrchardJob.record();
    Entry entry =
        new Entry(
            "e",
            "j",
            1,
            NINE,
            NINE,
            ZoneId.of("Europe/Oslo"),
            "vera",
            "bench",
            Source.SPOKEN,
            Certainty.CONFIRMED,
            "words",
            null,
            statement);
    return new StatementText(job.plan(), Trail.of(List.of(entry)), ShopTime.of(job)).of(entry);
  }
}
