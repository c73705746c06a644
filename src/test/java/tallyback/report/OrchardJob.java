package tallyback.report;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Balance;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.Trouble;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.Warmth;
import tallyback.model.Unit;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.FluidLine;
import tallyback.reconcile.Outcome.FluidPart;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;

/**
 * A made-up job for the golden files: cooling work on an orchard tractor of a maker that does not
 * exist, 72 entries over three hours, twelve findings. The outcome is written out by hand, so that
 * these tests depend on nobody's arithmetic.
 */
public final class OrchardJob {

  private static final ZoneId ZONE = ZoneId.of("Europe/Oslo");
  private static final LocalDate DAY = LocalDate.of(2026, 3, 2);
  private static final List<Stage> ALL = List.of(Stage.values());
  private static final List<Stage> LATER = List.of(Stage.WORK, Stage.HAND_OVER);

  private final List<Entry> entries = new ArrayList<>();
  private final Set<String> gone = new HashSet<>();

  private OrchardJob() {}

  /** The job as it stood at noon. */
  public static JobRecord record() {
    OrchardJob job = new OrchardJob();
    Plan plan = plan();
    job.tell(plan);
    return new JobRecord(
        plan,
        new JobRecord.Heading("2026-03-02-row31", at("09:02"), null, at("12:20"), ZONE),
        job.outcome(),
        job.entries,
        new JobRecord.Heard(83, 66, 5, 12, Duration.ofSeconds(214)));
  }

  /** The same shape of job with other texts wherever somebody can put one. */
  public static JobRecord named(String hostile) {
    JobRecord fair = record();
    Plan plan = fair.plan();
    Plan named =
        new Plan(
            hostile,
            plan.text(),
            plan.hash(),
            new Plan.Machine(hostile, hostile, hostile),
            List.of(new Plan.Person("vera", List.of(hostile))),
            plan.fluids().stream()
                .map(
                    each ->
                        new Plan.Fluid(
                            each.id(), List.of(hostile), hostile, each.form(), null, null, null))
                .toList(),
            plan.systems(),
            plan.places().stream()
                .map(each -> new Plan.Place(each.id(), List.of(hostile)))
                .toList(),
            plan.items().stream().map(each -> named(each, hostile)).toList(),
            plan.steps().stream()
                .map(
                    each ->
                        new Plan.Step(
                            each.id(),
                            List.of(hostile),
                            List.of(),
                            List.of(),
                            List.of(),
                            List.of(),
                            null,
                            List.of(hostile)))
                .toList(),
            plan.instruments(),
            plan.limits(),
            plan.pronunciations());
    Outcome outcome = fair.outcome();
    Outcome told =
        new Outcome(
            outcome.verdict(),
            outcome.findings().stream().map(each -> named(each, hostile)).toList(),
            List.of(new Outcome.Unsaid(hostile, List.of(Stage.WORK))),
            outcome.balances().stream()
                .map(each -> new Balance(each.subject(), hostile, each.lines()))
                .toList(),
            outcome.fluids().stream()
                .map(
                    each ->
                        new FluidSum(
                            each.system(),
                            hostile,
                            each.capacity(),
                            each.out(),
                            each.lost(),
                            each.in(),
                            each.shortage(),
                            each.uncertainty(),
                            each.lines(),
                            hostile))
                .toList(),
            outcome.tightness().stream()
                .map(
                    each ->
                        new TightnessLine(
                            each.item(),
                            hostile,
                            each.count(),
                            hostile,
                            hostile,
                            hostile,
                            each.status(),
                            each.entries()))
                .toList(),
            outcome.steps().stream()
                .map(
                    each ->
                        new StepLine(
                            each.step(),
                            hostile,
                            each.status(),
                            each.startedAt(),
                            each.doneAt(),
                            each.took(),
                            each.expectedMinutes()))
                .toList(),
            outcome.standing());
    List<Entry> entries =
        fair.entries().stream()
            .map(
                each ->
                    new Entry(
                        each.id(),
                        hostile,
                        each.seq(),
                        each.happenedAt(),
                        each.recordedAt(),
                        each.zone(),
                        hostile,
                        hostile,
                        each.source(),
                        each.certainty(),
                        hostile,
                        null,
                        each.statement()))
            .toList();
    JobRecord.Heading heading = fair.heading();
    return new JobRecord(
        named,
        new JobRecord.Heading(hostile, heading.openedAt(), null, heading.madeAt(), heading.zone()),
        told,
        entries,
        fair.heard());
  }

  private static Finding named(Finding finding, String hostile) {
    return new Finding(
        finding.kind(),
        finding.weight(),
        finding.stages(),
        hostile,
        hostile,
        hostile,
        hostile,
        hostile,
        List.of(finding.entries().isEmpty() ? hostile : finding.entries().get(0)),
        hostile,
        finding.followers().stream().map(each -> named(each, hostile)).toList());
  }

  private static Plan.Item named(Plan.Item item, String hostile) {
    return item(item.id(), hostile, item.thing(), item.count(), item.temporary());
  }

  private void tell(Plan plan) {
    note("09:02", Source.TOOL, "job opened", new JobOpened(plan.name(), plan.hash(), plan.text()));
    say(
        "09:03",
        "hour meter two thousand one hundred and forty point five hours",
        measured(Measure.HOURS, "2140.5", Unit.HOUR, null));
    say("09:04", "engine is cold", state(MachineState.COLD));
    say("09:05", "wheels are chocked", state(MachineState.CHOCKED));
    say("09:06", "key is out", state(MachineState.KEY_OUT));
    say("09:07", "battery earth is off", state(MachineState.BATTERY_OFF));
    say("09:08", "make safe done", step("make-safe", StepMark.DONE));
    say("09:10", "started draining", step("drain", StepMark.STARTED));
    say("09:11", "cap is open", state(MachineState.CAP_OPEN));
    say(
        "09:14",
        "two point six litres out of the radiator drain into the big jug",
        out("2.6", "radiator-drain", "big-jug"));
    say(
        "09:19",
        "nine fifty mils out of the block plug",
        out(Amount.of("950", Unit.MILLILITRE), "block-plug", "small-jug"));
    say("09:21", "spilled about two hundred mils", spilled("200"));
    say("09:22", "draining done", step("drain", StepMark.DONE));
    say(
        "09:26",
        "six bolts ten millimetre off the splash guard",
        off("splash-guard-bolts", 6, "10"));
    say("09:28", "splash guard off", off("splash-guard", 1, null));
    say("09:31", "four bolts off the fan shroud all tens", off("shroud-bolts", 4, "10"));
    say("09:34", "fan off", off("fan", 1, null));
    say("09:35", "locking pin in", new TemporaryMoved(true, "locking-pin", 1));
    say("09:38", "belt off", off("belt", 1, null));
    say("09:40", "strip front done", step("strip-front", StepMark.DONE));
    say("09:44", "upper hose off", off("upper-hose", 1, null));
    say("09:47", "lower hose baked on", new ProblemSeen(Trouble.SEIZED, "lower-hose"));
    say("09:55", "lower hose off", off("lower-hose", 1, null));
    say("09:57", "photo of the lower hose", new PhotoMarked("lower-hose"));
    say("09:59", "six pump bolts off", off("pump-bolts", 6, null));
    say("10:01", "pump off", off("pump", 1, null));
    say("10:02", "four hundred mils left in the old pump", leftIn("400"));
    say("10:03", "temperature connector off", off("sender-plug", 1, null));
    say("10:04", "pump off done", step("pump-off", StepMark.DONE));
    say("10:06", "three bolts off the thermostat cover", off("cover-bolts", 3, "8"));
    say("10:07", "thermostat out", off("thermostat", 1, null));
    say("10:09", "pausing", new Paused());
    say("10:24", "carry on", new Resumed());
    say("10:26", "new pump on", new PartFitted("pump", PartCondition.NEW));
    say("10:27", "old gasket back in", new PartFitted("pump-gasket", PartCondition.OLD));
    say("10:30", "four pump bolts back on", on("pump-bolts", 4));
    say(
        "10:33",
        "four pump bolts first pass ten newton metres small wrench",
        torqued("pump-bolts", 4, "10", 1, "small-wrench"));
    say(
        "10:36",
        "four pump bolts twenty four newton metres small wrench",
        torqued("pump-bolts", 4, "24", 2, "small-wrench"));
    say(
        "10:38",
        "bracket carried over",
        new PartFitted("sender-bracket", PartCondition.CARRIED_OVER));
    say("10:39", "pump on done", step("pump-on", StepMark.DONE));
    say("10:42", "new thermostat in", new PartFitted("thermostat", PartCondition.NEW));
    say("10:43", "cover bolts three back on", on("cover-bolts", 3));
    say("10:47", "upper hose back on", on("upper-hose", 1));
    say(
        "10:49",
        "new lower hose on",
        new ItemsMoved(ItemMove.NEW_ON, "lower-hose", Thing.HOSE, 1, false, null, null, null));
    say("10:52", "outlet nuts sixty newton metres", torqued("outlet-nuts", 2, "60", null, null));
    say("10:53", "scratch that", new Undone(null));
    gone.add("outlet nuts sixty newton metres");
    say(
        "10:53",
        "outlet nuts nineteen foot pounds big wrench",
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            null,
            Thing.NUT,
            2,
            false,
            Amount.of("19", Unit.POUND_FOOT),
            null,
            null,
            "big-wrench",
            null,
            null));
    say("10:57", "new belt on", new PartFitted("belt", PartCondition.NEW));
    say("10:59", "belt on done", step("belt-on", StepMark.DONE));
    unsure(
        "11:01",
        "tensioner bolt forty five newton metres",
        torqued("tensioner-bolt", 1, "45", null, "big-wrench"));
    say("11:04", "fan on", on("fan", 1));
    say("11:06", "four shroud bolts back on", on("shroud-bolts", 4));
    say(
        "11:08",
        "shroud bolts nine newton metres small wrench",
        torqued("shroud-bolts", 4, "9", null, "small-wrench"));
    say("11:10", "temperature connector back on", on("sender-plug", 1));
    say("11:12", "fan on done", step("fan-on", StepMark.DONE));
    say(
        "11:15",
        "block plug twenty newton metres small wrench",
        torqued("block-drain-plug", 1, "20", null, "small-wrench"));
    gone.add("four hundred and fifty mils in");
    late(
        "11:20", "11:13", "block plug cleaned and in seven minutes ago", on("block-drain-plug", 1));
    say("11:24", "three litres of coolant in", in("3"));
    say("11:28", "four hundred and fifty mils in", in(Amount.of("450", Unit.MILLILITRE)));
    say(
        "11:29",
        "correction three hundred and fifty mils in",
        new Corrected(
            said("four hundred and fifty mils in"), in(Amount.of("350", Unit.MILLILITRE))));
    say("11:31", "battery earth is on", state(MachineState.BATTERY_ON));
    say("11:33", "engine is running", state(MachineState.RUNNING));
    say("11:34", "heater on full", state(MachineState.HEATER_ON));
    say(
        "11:42",
        "eighty six degrees celsius",
        measured(Measure.TEMPERATURE, "86", Unit.CELSIUS, Warmth.HOT));
    say("11:46", "no leaks", state(MachineState.NO_LEAK));
    say("11:48", "engine stopped", state(MachineState.STOPPED));
    say("11:50", "memo", new Memo());
    say("11:52", "splash guard back on", on("splash-guard", 1));
    say(
        "11:54",
        "all six splash guard bolts back",
        new ItemsMoved(ItemMove.ON, "splash-guard-bolts", Thing.BOLT, 6, true, null, null, null));
    say(
        "11:57",
        "splash guard bolts hand tight",
        new Tightened(
            TightnessState.HAND_TIGHT,
            "splash-guard-bolts",
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
    say(
        "12:14",
        "level below the cold mark",
        new Measured(Measure.LEVEL, null, Level.BELOW, "cold-mark", "cooling", Warmth.COLD, null));
    say("12:15", "filling started", step("fill", StepMark.STARTED));
  }

  private Outcome outcome() {
    return new Outcome(
        new Verdict(Answer.STOP, Answer.STOP, Answer.STOP),
        findings(),
        List.of(
            new Outcome.Unsaid(
                "hose clamps: whether the clamps of the upper and lower hose are tight",
                List.of(Stage.values())),
            new Outcome.Unsaid(
                "thermostat: where its jiggle pin points", List.of(Stage.WORK, Stage.HAND_OVER)),
            new Outcome.Unsaid(
                "pressure test: nobody said that the system held pressure",
                List.of(Stage.WORK, Stage.HAND_OVER)),
            new Outcome.Unsaid(
                "radiator drain: that it was closed again", List.of(Stage.HAND_OVER)),
            new Outcome.Unsaid(
                "tools, pins and rags out of the engine bay", List.of(Stage.values())),
            new Outcome.Unsaid(
                "which wrench the drain plug of the radiator was closed with", List.of())),
        balances(),
        List.of(
            new FluidSum(
                "cooling",
                "coolant",
                litres("5.80"),
                litres("3.95"),
                litres("0.20"),
                litres("3.35"),
                litres("0.80"),
                litres("0.31"),
                List.of(
                    new FluidLine(FluidPart.DRAINED, litres("3.95")),
                    new FluidLine(FluidPart.SPILLED, litres("0.20")),
                    new FluidLine(FluidPart.FILLED, litres("3.35"))),
                "0.80 L more came out than went in, and the jugs can tell that much: air may still be inside.")),
        List.of(
            new TightnessLine(
                "pump-bolts",
                "pump bolts",
                6,
                "24 N·m ± 2 N·m in 2 passes, workshop manual p. 61",
                "4 of 6: 10 N·m, then 24 N·m",
                "small wrench",
                TightnessStatus.PARTLY,
                List.of(
                    said("four pump bolts first pass ten newton metres small wrench"),
                    said("four pump bolts twenty four newton metres small wrench"))),
            new TightnessLine(
                "outlet-nuts",
                "outlet nuts",
                2,
                "19 N·m ± 2 N·m, workshop manual p. 62",
                "19 lbf·ft (25.8 N·m)",
                "big wrench",
                TightnessStatus.WRONG,
                List.of(said("outlet nuts nineteen foot pounds big wrench"))),
            new TightnessLine(
                "cover-bolts",
                "thermostat cover bolts",
                3,
                "10 N·m ± 1 N·m, workshop manual p. 58",
                "",
                null,
                TightnessStatus.UNSAID,
                List.of()),
            new TightnessLine(
                "tensioner-bolt",
                "tensioner bolt",
                1,
                "45 N·m ± 4 N·m, workshop manual p. 66",
                "45 N·m, unconfirmed",
                "big wrench",
                TightnessStatus.PARTLY,
                List.of(said("tensioner bolt forty five newton metres"))),
            new TightnessLine(
                "shroud-bolts",
                "fan shroud bolts",
                4,
                "9 N·m ± 1 N·m, workshop manual p. 66",
                "9 N·m",
                "small wrench",
                TightnessStatus.RIGHT,
                List.of(said("shroud bolts nine newton metres small wrench"))),
            new TightnessLine(
                "block-drain-plug",
                "block drain plug",
                1,
                "20 N·m ± 2 N·m, workshop manual p. 57",
                "20 N·m",
                "small wrench",
                TightnessStatus.RIGHT,
                List.of(said("block plug twenty newton metres small wrench"))),
            new TightnessLine(
                "splash-guard-bolts",
                "splash guard bolts",
                6,
                "8 N·m ± 1 N·m, workshop manual p. 55",
                "hand tight",
                null,
                TightnessStatus.PARTLY,
                List.of(said("splash guard bolts hand tight")))),
        List.of(
            new StepLine(
                "make-safe",
                "make safe",
                StepStatus.DONE,
                at("09:04"),
                at("09:08"),
                Duration.ofMinutes(4),
                10),
            new StepLine(
                "drain",
                "drain the coolant",
                StepStatus.DONE,
                at("09:10"),
                at("09:22"),
                Duration.ofMinutes(12),
                20),
            new StepLine(
                "strip-front",
                "strip the front",
                StepStatus.DONE,
                at("09:26"),
                at("09:40"),
                Duration.ofMinutes(14),
                25),
            new StepLine(
                "pump-off",
                "take the pump off",
                StepStatus.DONE,
                at("09:44"),
                at("10:04"),
                Duration.ofMinutes(20),
                20),
            new StepLine(
                "pump-on",
                "put the new pump on",
                StepStatus.DONE,
                at("10:26"),
                at("10:39"),
                Duration.ofMinutes(13),
                25),
            new StepLine(
                "belt-on", "put the new belt on", StepStatus.DONE, null, at("10:59"), null, 10),
            new StepLine(
                "fan-on",
                "put fan and shroud back on",
                StepStatus.DONE,
                at("11:04"),
                at("11:12"),
                Duration.ofMinutes(8),
                15),
            new StepLine("fill", "fill and bleed", StepStatus.STARTED, at("11:24"), null, null, 30),
            new StepLine("pressure-test", "pressure test", StepStatus.UNSAID, null, null, null, 15),
            new StepLine("close-up", "close up", StepStatus.SKIPPED, at("11:52"), null, null, 10)),
        standing());
  }

  private List<Entry> standing() {
    return entries.stream()
        .filter(entry -> !gone.contains(entry.words()) && !(entry.statement() instanceof Undone))
        .toList();
  }

  private List<Finding> findings() {
    return List.of(
        new Finding(
            "temporary-still-in",
            Weight.STOP,
            ALL,
            "locking pin",
            "out again before anything turns",
            "in since 09:35, never said to be out",
            null,
            null,
            List.of(said("locking pin in"), said("engine is running")),
            "Leave the engine stopped and the key out, take the pin out and look the pulley and its housing over: the engine was run with it by what was said.",
            List.of()),
        new Finding(
            "level-below-mark",
            Weight.STOP,
            ALL,
            "coolant level",
            "at the cold mark after the test run",
            "below the cold mark, cold",
            null,
            "held against the mark itself, no tolerance",
            List.of(said("level below the cold mark")),
            "With the engine stopped and cold and the pressure off, find where it went, then fill to the mark and bleed again as the maker's manual says.",
            List.of()),
        new Finding(
            "item-left-in-tray",
            Weight.STOP,
            ALL,
            "pump bolts",
            "6 back on the machine",
            "4 back on, 2 in the tray",
            "2 too few on the machine",
            null,
            List.of(said("six pump bolts off"), said("four pump bolts back on")),
            "With the engine stopped and cold, put the two bolts in and tighten all six as the maker's manual says.",
            List.of(
                new Finding(
                    "tightness-partly",
                    Weight.STOP,
                    ALL,
                    "pump bolts",
                    "6 torqued to 24 N·m",
                    "4 torqued to 24 N·m",
                    "2 not torqued",
                    "± 2 N·m, workshop manual p. 61",
                    List.of(said("four pump bolts twenty four newton metres small wrench")),
                    "Torque all six in the maker's order once the two are in.",
                    List.of()))),
        new Finding(
            "torque-unit-slip",
            Weight.STOP,
            ALL,
            "outlet nuts",
            "19 N·m",
            "19 lbf·ft, which is 25.8 N·m",
            "6.8 N·m too tight",
            "± 2 N·m, workshop manual p. 62; wrench ± 4 %",
            List.of(said("outlet nuts nineteen foot pounds big wrench")),
            "With the engine stopped and cold, ask which scale was read; if it really was foot pounds, inspect studs and threads before anything else and renew what is stretched.",
            List.of()),
        new Finding(
            "single-use-put-back",
            Weight.CHECK,
            LATER,
            "pump gasket",
            "new each time",
            "the old one put back",
            null,
            null,
            List.of(said("old gasket back in")),
            "With the engine stopped, cold and drained, fit a new gasket.",
            List.of()),
        new Finding(
            "fluid-short",
            Weight.CHECK,
            LATER,
            "coolant",
            "3.35 L or more back in the system",
            "3.95 L out and 0.20 L spilled, 3.35 L in",
            "short 0.80 L ± 0.31 L",
            "± 5 % of each jug, named in the plan; 'about' ± 15 %; k = 2",
            List.of(
                said("two point six litres out of the radiator drain into the big jug"),
                said("nine fifty mils out of the block plug"),
                said("spilled about two hundred mils"),
                said("three litres of coolant in"),
                said("correction three hundred and fifty mils in")),
            "Let it cool, take the pressure off, then bleed and fill again.",
            List.of()),
        new Finding(
            "tightness-unsaid",
            Weight.CHECK,
            ALL,
            "thermostat cover bolts",
            "3 torqued to 10 N·m",
            "on since 10:43, no tightness said",
            null,
            "± 1 N·m, workshop manual p. 58",
            List.of(said("cover bolts three back on")),
            "With the engine stopped and cold, torque them or say that they are.",
            List.of()),
        new Finding(
            "step-before-need",
            Weight.CHECK,
            LATER,
            "put the new belt on",
            "after the pulley was turned by hand",
            "done at 10:59, never turned by hand",
            null,
            null,
            List.of(said("belt on done")),
            "Battery earth off, pin out, then turn the engine over by hand and see that it runs free.",
            List.of()),
        new Finding(
            "step-never-done",
            Weight.CHECK,
            LATER,
            "pressure test",
            "done before it goes to work",
            "never mentioned",
            null,
            null,
            List.of(),
            "With the engine cold, pressure test it as the maker's manual says.",
            List.of()),
        new Finding(
            "value-unconfirmed",
            Weight.CHECK,
            LATER,
            "tensioner bolt",
            "a value that was read back and stood",
            "45 N·m, asked about and not answered",
            null,
            null,
            List.of(said("tensioner bolt forty five newton metres")),
            "With the engine stopped, check the bolt with the wrench and say it again.",
            List.of()),
        new Finding(
            "tightness-not-finished",
            Weight.CHECK,
            LATER,
            "splash guard bolts",
            "6 torqued to 8 N·m",
            "hand tight; said as a whole, not counted",
            null,
            "± 1 N·m, workshop manual p. 55",
            List.of(said("all six splash guard bolts back"), said("splash guard bolts hand tight")),
            "With the engine stopped, count and torque them.",
            List.of()),
        new Finding(
            "drain-gave-little",
            Weight.NOTE,
            List.of(),
            "block plug",
            "about 2 L, as the plan has it",
            "0.95 L",
            "1.05 L less",
            "± 5 %, small jug, named in the plan",
            List.of(said("nine fifty mils out of the block plug")),
            "See next time whether the plug hole is blocked before it is filled.",
            List.of()));
  }

  private static List<Balance> balances() {
    return List.of(
        items("pump-bolts", "pump bolts", line(Account.MACHINE, 4), line(Account.TRAY, 2)),
        items("thermostat", "thermostat", line(Account.MACHINE, 1), line(Account.TRAY, 1)),
        items("locking-pin", "locking pin", line(Account.MACHINE, 1)),
        items("splash-guard-bolts", "splash guard bolts", line(Account.MACHINE, 6)),
        items("splash-guard", "splash guard", line(Account.MACHINE, 1)),
        items("shroud-bolts", "fan shroud bolts", line(Account.MACHINE, 4)),
        items("cover-bolts", "thermostat cover bolts", line(Account.MACHINE, 3)),
        items("outlet-nuts", "outlet nuts", line(Account.MACHINE, 2)),
        items(
            "lower-hose",
            "lower hose",
            line(Account.MACHINE, 1),
            line(Account.SCRAP, 1),
            line(Account.STOCK, -1)),
        items("sender-plug", "temperature connector", line(Account.MACHINE, 1)),
        new Balance(
            "cooling",
            "coolant",
            List.of(
                new Balance.Line(Account.SYSTEM, null, Amount.of("-0.80", Unit.LITRE), true),
                new Balance.Line(Account.PAN, null, litres("3.55"), false),
                new Balance.Line(Account.OLD_PART, null, litres("0.40"), false),
                new Balance.Line(Account.LOST, null, litres("0.20"), false),
                new Balance.Line(Account.CAN, null, litres("-3.35"), true))));
  }

  private static Balance items(String subject, String label, Balance.Line... lines) {
    return new Balance(subject, label, List.of(lines));
  }

  private static Balance.Line line(Account account, int count) {
    return new Balance.Line(account, count, null, false);
  }

  private void say(String clock, String words, Statement statement) {
    note(clock, Source.SPOKEN, words, statement);
  }

  private void note(String clock, Source source, String words, Statement statement) {
    add(clock, clock, source, Certainty.CONFIRMED, words, statement);
  }

  private void unsure(String clock, String words, Statement statement) {
    add(clock, clock, Source.SPOKEN, Certainty.UNCONFIRMED, words, statement);
  }

  private void late(String said, String happened, String words, Statement statement) {
    add(said, happened, Source.SPOKEN, Certainty.CONFIRMED, words, statement);
  }

  private void add(
      String said,
      String happened,
      Source source,
      Certainty certainty,
      String words,
      Statement statement) {
    int seq = entries.size() + 1;
    entries.add(
        new Entry(
            id(seq),
            "2026-03-02-row31",
            seq,
            at(happened),
            at(said),
            ZONE,
            "vera",
            "bench",
            source,
            certainty,
            words,
            null,
            statement));
  }

  private String said(String words) {
    return entries.stream()
        .filter(entry -> entry.words().equals(words))
        .findFirst()
        .orElseThrow()
        .id();
  }

  private static String id(int seq) {
    return "bench-" + seq;
  }

  private static Instant at(String clock) {
    return DAY.atTime(LocalTime.parse(clock)).atZone(ZONE).toInstant();
  }

  private static Amount litres(String value) {
    return Amount.of(value, Unit.LITRE);
  }

  private static Statement state(MachineState state) {
    return new StateSaid(state, null);
  }

  private static Statement step(String step, StepMark mark) {
    return new StepMarked(step, mark);
  }

  private static Statement out(String litres, String place, String vessel) {
    return out(litres(litres), place, vessel);
  }

  private static Statement out(Amount amount, String place, String vessel) {
    return new FluidMoved(
        FluidMove.OUT, amount, false, "coolant", null, "cooling", place, vessel, Warmth.COLD, null);
  }

  private static Statement in(String litres) {
    return in(litres(litres));
  }

  private static Statement in(Amount amount) {
    return new FluidMoved(
        FluidMove.IN,
        amount,
        false,
        "coolant",
        FluidForm.PREMIX,
        "cooling",
        null,
        "big-jug",
        null,
        null);
  }

  private static Statement spilled(String millilitres) {
    return new FluidMoved(
        FluidMove.LOST,
        Amount.of(millilitres, Unit.MILLILITRE),
        true,
        "coolant",
        null,
        "cooling",
        null,
        null,
        null,
        null);
  }

  private static Statement leftIn(String millilitres) {
    return new FluidMoved(
        FluidMove.LEFT_IN_PART,
        Amount.of(millilitres, Unit.MILLILITRE),
        false,
        "coolant",
        null,
        "cooling",
        null,
        null,
        null,
        null);
  }

  private static Statement off(String item, int count, @Nullable String headMillimetres) {
    return new ItemsMoved(
        ItemMove.OFF,
        item,
        Thing.BOLT,
        count,
        false,
        headMillimetres == null ? null : Amount.of(headMillimetres, Unit.MILLIMETRE),
        null,
        null);
  }

  private static Statement on(String item, int count) {
    return new ItemsMoved(ItemMove.ON, item, Thing.BOLT, count, false, null, null, null);
  }

  private static Statement torqued(
      String item,
      int count,
      String newtonMetres,
      @Nullable Integer pass,
      @Nullable String wrench) {
    return new Tightened(
        TightnessState.TORQUED,
        item,
        null,
        Thing.BOLT,
        count,
        false,
        Amount.of(newtonMetres, Unit.NEWTON_METRE),
        pass,
        null,
        wrench,
        null,
        null);
  }

  private static Statement measured(
      Measure measure, String value, Unit unit, @Nullable Warmth warmth) {
    return new Measured(measure, Amount.of(value, unit), null, null, null, warmth, null);
  }

  /** The mark on the thermostat, for tests of single texts. */
  static Statement jigglePinUp() {
    return new Aligned("thermostat", Amount.of("0", Unit.DEGREE));
  }

  /** The plan of the job. */
  static Plan plan() {
    return new Plan(
        "Coolant pump, belt, thermostat and lower hose",
        "tallyback-plan: 1",
        "00",
        new Plan.Machine(
            "Quillfern Row 31 orchard tractor",
            "QF31-0412",
            "as seen from the seat, looking forward"),
        List.of(new Plan.Person("vera", List.of("Vera"))),
        List.of(
            new Plan.Fluid(
                "coolant",
                List.of("coolant"),
                "QF blue, ready mixed",
                FluidForm.PREMIX,
                null,
                null,
                null)),
        List.of(
            new Plan.FluidSystem(
                "cooling",
                List.of("cooling system"),
                "coolant",
                litres("5.80"),
                null,
                null,
                null,
                null,
                List.of(
                    new Plan.Point("radiator-drain", List.of("radiator drain"), null, null),
                    new Plan.Point(
                        "block-plug", List.of("block plug"), litres("2"), "block-drain-plug")),
                List.of(),
                List.of(new Plan.LevelMark("cold-mark", List.of("cold mark"), true)))),
        List.of(),
        List.of(
            item("splash-guard", "splash guard", Thing.PART, 1, false),
            item("splash-guard-bolts", "splash guard bolts", Thing.BOLT, 6, false),
            item("shroud-bolts", "fan shroud bolts", Thing.BOLT, 4, false),
            item("fan", "fan", Thing.PART, 1, false),
            item("belt", "belt", Thing.PART, 1, false),
            item("upper-hose", "upper hose", Thing.HOSE, 1, false),
            item("lower-hose", "lower hose", Thing.HOSE, 1, false),
            item("pump", "coolant pump", Thing.PART, 1, false),
            item("pump-bolts", "pump bolts", Thing.BOLT, 6, false),
            item("pump-gasket", "pump gasket", Thing.PART, 1, false),
            item("sender-plug", "temperature connector", Thing.CONNECTOR, 1, false),
            item("sender-bracket", "sender bracket", Thing.PART, 1, false),
            item("cover-bolts", "thermostat cover bolts", Thing.BOLT, 3, false),
            item("thermostat", "thermostat", Thing.PART, 1, false),
            item("outlet-nuts", "outlet nuts", Thing.NUT, 2, false),
            item("tensioner-bolt", "tensioner bolt", Thing.BOLT, 1, false),
            item("block-drain-plug", "block drain plug", Thing.PLUG, 1, false),
            item("locking-pin", "locking pin", Thing.PIN, 1, true)),
        List.of(
            step("make-safe", "make safe"),
            step(
                "drain",
                "drain the coolant",
                "Open the cap only with the engine cold: a hot system under pressure scalds.",
                "Coolant is poisonous and tastes sweet: keep animals and children away and catch all of it."),
            step(
                "strip-front",
                "strip the front",
                "Battery earth side off first: a fan may start by itself."),
            step("pump-off", "take the pump off"),
            step("pump-on", "put the new pump on"),
            step(
                "belt-on",
                "put the new belt on",
                "Keep sleeves, cords and gloves away from belt and fan."),
            step("fan-on", "put fan and shroud back on"),
            step(
                "fill",
                "fill and bleed",
                "Run the engine only with the doors open or the exhaust led outside."),
            step("pressure-test", "pressure test"),
            step("close-up", "close up")),
        List.of(
            vessel("big-jug", "big jug", "3.00"),
            vessel("small-jug", "small jug", "1.00"),
            wrench("small-wrench", "small wrench", "5", "25"),
            wrench("big-wrench", "big wrench", "20", "100")),
        List.of(),
        Map.of());
  }

  private static Plan.Item item(String id, String say, Thing thing, int count, boolean temporary) {
    return new Plan.Item(
        id,
        List.of(say),
        thing,
        count,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        false,
        false,
        false,
        temporary,
        null);
  }

  private static Plan.Step step(String id, String say, String... cautions) {
    return new Plan.Step(
        id, List.of(say), List.of(), List.of(), List.of(), List.of(), null, List.of(cautions));
  }

  private static Plan.Instrument vessel(String id, String say, String litres) {
    return new Plan.Instrument(
        id,
        List.of(say),
        Plan.InstrumentKind.VESSEL,
        Unit.LITRE,
        litres("0"),
        litres(litres),
        new BigDecimal("5"),
        null,
        null,
        null);
  }

  private static Plan.Instrument wrench(String id, String say, String from, String to) {
    return new Plan.Instrument(
        id,
        List.of(say),
        Plan.InstrumentKind.WRENCH,
        Unit.NEWTON_METRE,
        Amount.of(from, Unit.NEWTON_METRE),
        Amount.of(to, Unit.NEWTON_METRE),
        new BigDecimal("4"),
        null,
        "2025-11-14",
        null);
  }
}
