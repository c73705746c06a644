package tallyback.history;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.history.Comparison.Fluid;
import tallyback.history.Comparison.In;
import tallyback.history.Comparison.Side;
import tallyback.history.Comparison.Tells;
import tallyback.history.Trends.Series;
import tallyback.history.Trends.What;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.Measure;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.reconcile.Reconciler;
import tallyback.trade.ControlCharts;

/** Two jobs held against each other, and one machine followed, by small jobs told here. */
class HistoryTest {

  private static final String PLAN =
      """
      tallyback-plan: 1
      name: Oil of the mill gear
      machine: {name: Corven Grist 7, serial: CG-0071, sides: seen from the hopper}
      fluids:
        - {id: oil, say: [gear oil], grade: any, base: oil}
      systems:
        - id: gear
          say: [mill gear]
          fluid: oil
          capacity: 4 L
          drains: [{id: sump, say: [sump plug]}]
          fills: [{id: neck, say: [filler neck]}]
      items:
        - id: lid-bolts
          say: [lid bolts]
          thing: bolt
          count: 4
          torque: {value: 20 N·m, tolerance: ±2 N·m, tolerance-from: manual p. 3}
        - {id: lid-seal, say: [lid seal], renew: true}
      steps:
        - {id: drain, say: [drain it]}
        - {id: fill, say: [fill it]}
      instruments:
        - {id: jug, say: [jug], kind: vessel, from: 0.1 L, to: 5 L, tolerance: 5 %}
        - {id: gauge, say: [gauge], kind: gauge, from: 0 kPa, to: 500 kPa, tolerance: ±5 kPa}
      limits:
        - {subject: gear, measure: pressure, from: 90 kPa, to: 110 kPa}
      """;

  /** A job being told, a minute from one entry to the next. */
  private static final class Job {
    private final String id;
    private final Plan plan;
    private final Instant begin;
    private final List<Entry> entries = new ArrayList<>();

    Job(String id, String text, String day) {
      this.id = id;
      this.plan = PlanReader.read("plan", text).plan().orElseThrow();
      this.begin = Instant.parse(day + "T08:00:00Z");
      say(new Statement.JobOpened(plan.name(), plan.hash(), text));
    }

    Job say(Statement statement) {
      Instant at = begin.plusSeconds(60L * entries.size());
      entries.add(
          new Entry(
              id + "-" + entries.size(),
              id,
              entries.size() + 1L,
              at,
              at,
              ZoneOffset.UTC,
              "anna",
              "page",
              Source.TYPED,
              Certainty.CONFIRMED,
              "",
              null,
              statement));
      return this;
    }

    Job fluid(FluidMove move, @Nullable String litres) {
      return say(
          new Statement.FluidMoved(
              move,
              litres == null ? null : Amount.of(litres, Unit.LITRE),
              false,
              "oil",
              null,
              "gear",
              move == FluidMove.OUT ? "sump" : "neck",
              "jug",
              null,
              null));
    }

    Job read(Measure measure, String value, Unit unit, @Nullable String instrument) {
      return say(
          new Statement.Measured(
              measure,
              Amount.of(value, unit),
              null,
              null,
              measure == Measure.HOURS ? null : "gear",
              null,
              instrument));
    }

    Job step(String step) {
      say(new Statement.StepMarked(step, Statement.StepMark.STARTED));
      return say(new Statement.StepMarked(step, Statement.StepMark.DONE));
    }

    ToldJob told() {
      return ToldJob.of(id, plan, entries, Reconciler.reconcile(plan, entries));
    }
  }

  private static Job job(String id, String day) {
    return new Job(id, PLAN, day);
  }

  private static Fluid fluid(Comparison comparison, Side side) {
    return comparison.fluids().stream()
        .filter(each -> each.side() == side)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void aDifferenceWithinWhatTheJugsCanTellIsNone() {
    Job one = job("one", "2026-01-05").fluid(FluidMove.OUT, "3.00").fluid(FluidMove.IN, "3.00");
    Job other = job("other", "2026-02-05").fluid(FluidMove.OUT, "3.10").fluid(FluidMove.IN, "2.00");
    Comparison comparison = Comparison.of(one.told(), other.told());
    // 5 % rectangular: 2 * 0.15 / sqrt 3 = 0.173 and 0.179, the root of their squares 0.249.
    Fluid out = fluid(comparison, Side.OUT);
    assertEquals(Tells.WITHIN, out.tells());
    assertNotNull(out.difference());
    assertEquals(0.10, out.difference().value().toDouble(), 1e-9);
    assertEquals(0.25, out.difference().mayBeOff().toDouble(), 0.01);
    assertEquals(Tells.DIFFERS, fluid(comparison, Side.IN).tells());
  }

  @Test
  void ofWhatIsMissingTheUncertaintiesAddUp() {
    Job one = job("one", "2026-01-05").fluid(FluidMove.OUT, "3.00").fluid(FluidMove.IN, "2.00");
    Job other = job("other", "2026-02-05").fluid(FluidMove.OUT, "2.00").fluid(FluidMove.IN, "3.00");
    Fluid missing = fluid(Comparison.of(one.told(), other.told()), Side.MISSING);
    assertNotNull(missing.one());
    assertNotNull(missing.other());
    assertNotNull(missing.difference());
    assertEquals(
        missing.one().mayBeOff().plus(missing.other().mayBeOff()), missing.difference().mayBeOff());
    assertEquals(-2, missing.difference().value().toDouble(), 1e-9);
    assertEquals(Tells.DIFFERS, missing.tells());
  }

  @Test
  void anAmountThatNobodySaidIsNoDifference() {
    Job one = job("one", "2026-01-05").fluid(FluidMove.OUT, "3.00");
    Job other = job("other", "2026-02-05").fluid(FluidMove.OUT, null);
    Fluid out = fluid(Comparison.of(one.told(), other.told()), Side.OUT);
    assertEquals(Tells.UNTOLD, out.tells());
    assertNull(out.difference());
  }

  @Test
  void stepsTorquesPartsReadingsAndFindingsStandSideBySide() {
    Job one =
        job("one", "2026-01-05")
            .step("drain")
            .say(new Statement.PartFitted("lid-seal", Statement.PartCondition.NEW))
            .read(Measure.PRESSURE, "100", Unit.KILOPASCAL, "gauge");
    Job other =
        job("other", "2026-02-05")
            .step("drain")
            .step("fill")
            .say(new Statement.PartFitted("lid-seal", Statement.PartCondition.OLD))
            .say(
                new Statement.Tightened(
                    Statement.TightnessState.TORQUED,
                    "lid-bolts",
                    null,
                    null,
                    4,
                    false,
                    Amount.of("20", Unit.NEWTON_METRE),
                    null,
                    null,
                    null,
                    null,
                    null));
    Comparison comparison = Comparison.of(one.told(), other.told());
    assertTrue(comparison.samePlan());
    assertEquals(
        List.of("drain it PT1M PT1M", "fill it null PT1M"),
        comparison.steps().stream()
            .map(step -> step.label() + " " + step.one() + " " + step.other())
            .toList());
    assertNull(comparison.steps().get(1).longer());
    assertEquals("", comparison.torques().get(0).one().told());
    assertTrue(comparison.torques().get(0).other().told().contains("20 N·m"));
    assertEquals(List.of(new Comparison.Renewed("lid seal", In.ONE)), comparison.renewed());
    assertEquals(1, comparison.readings().size());
    assertNull(comparison.readings().get(0).other());
    assertTrue(
        comparison.findings().stream()
            .anyMatch(each -> each.in() == In.ONE && each.any().subject().equals("fill it")),
        comparison.findings().toString());
    assertTrue(
        comparison.findings().stream()
            .anyMatch(each -> each.in() == In.OTHER && each.any().subject().equals("lid seal")),
        comparison.findings().toString());
  }

  @Test
  void twoFindingsOfOneKindAboutOneThingAreBothShown() {
    Job one = job("one", "2026-01-05").say(withoutUnit("3.5")).say(withoutUnit("2.5"));
    Job other = job("other", "2026-02-05").say(withoutUnit("4.5"));
    assertEquals(
        List.of("ONE \"\": 2.5 of what?", "BOTH \"\": 3.5 of what?"),
        Comparison.of(one.told(), other.told()).findings().stream()
            .filter(each -> each.any().kind().equals("unit-unsaid"))
            .map(each -> each.in() + " " + each.any().found())
            .toList());
  }

  private static Statement withoutUnit(String value) {
    return new Statement.FluidMoved(
        FluidMove.OUT,
        Amount.of(value, Unit.UNSAID),
        false,
        "oil",
        null,
        "gear",
        "sump",
        "jug",
        null,
        null);
  }

  @Test
  void ofDifferentPlansOnlyWhatBothNameIsHeldAgainstEachOther() {
    String another =
        PLAN.replace("Oil of the mill gear", "Mill gear opened")
            .replace("id: drain", "id: empty-it")
            .replace("say: [fill it]", "say: [pour it in]");
    Job one = job("one", "2026-01-05").step("drain").step("fill");
    Job other = new Job("other", another, "2026-02-05").step("empty-it").step("fill");
    Comparison comparison = Comparison.of(one.told(), other.told());
    assertEquals(false, comparison.samePlan());
    assertEquals(
        List.of("drain it"), comparison.steps().stream().map(Comparison.Step::label).toList());
  }

  private static List<ToldJob> months(int many) {
    List<ToldJob> jobs = new ArrayList<>();
    for (int month = 1; month <= many; month++) {
      jobs.add(
          0,
          job("job-" + month, "2026-0" + month + "-05")
              .read(Measure.HOURS, String.valueOf(100 * month), Unit.HOUR, null)
              .fluid(FluidMove.OUT, "3.0" + month)
              .fluid(FluidMove.IN, "3.00")
              .read(Measure.PRESSURE, String.valueOf(94 + 3 * month), Unit.KILOPASCAL, "gauge")
              .told());
    }
    return jobs;
  }

  private static Series series(Trends trends, What what) {
    return trends.series().stream().filter(each -> each.what() == what).findFirst().orElseThrow();
  }

  @Test
  void pointsFollowTheJobsOldestFirstWithHowFarTheyMayBeOff() {
    Trends trends = Trends.of(months(3));
    Series missing = series(trends, What.MISSING);
    assertEquals(
        List.of("job-1", "job-2", "job-3"),
        missing.points().stream().map(Trends.Point::job).toList());
    assertEquals(0.03, missing.points().get(2).value(), 1e-9);
    assertNotNull(missing.points().get(2).mayBeOff());
    assertEquals(300, series(trends, What.METER).points().get(2).value(), 1e-9);
    assertEquals(4 / 60.0, series(trends, What.WORKED).points().get(0).value() + 1 / 60.0, 1e-9);
    Series pressure = series(trends, What.READING);
    assertEquals(90.0, pressure.low());
    assertEquals(110.0, pressure.high());
    assertEquals(5.0, pressure.points().get(0).mayBeOff());
    assertNull(pressure.control(), "three jobs say nothing of what is usual");
  }

  @Test
  void fromSixJobsOnTheFirstOnesAreTheMeasure() {
    assertNull(series(Trends.of(months(5)), What.READING).control());
    Series pressure = series(Trends.of(months(6)), What.READING);
    double[] before = {97, 100, 103, 106, 109};
    ControlCharts.Individuals chart = ControlCharts.individuals(before);
    assertNotNull(pressure.control());
    assertEquals(5, pressure.control().jobs());
    assertEquals(chart.mean(), pressure.control().mean(), 1e-9);
    assertEquals(Math.max(chart.upper(), 103 + 7.5), pressure.control().upper(), 1e-9);
    assertNull(series(Trends.of(months(6)), What.METER).control(), "a meter goes up by itself");
    Series drained = series(Trends.of(months(6)), What.DRAINED);
    assertNotNull(drained.control());
    assertTrue(drained.control().byJugs(), "the litres lie closer than the jug can tell");
  }

  @Test
  void aTorqueFoundAtCheckingIsFollowedWithItsLimits() {
    List<ToldJob> jobs = new ArrayList<>();
    for (int month = 1; month <= 2; month++) {
      jobs.add(
          job("job-" + month, "2026-0" + month + "-05")
              .say(
                  new Statement.Tightened(
                      Statement.TightnessState.CHECKED,
                      "lid-bolts",
                      null,
                      null,
                      4,
                      false,
                      Amount.of(month == 1 ? "20" : "16", Unit.NEWTON_METRE),
                      null,
                      null,
                      null,
                      null,
                      null))
              .told());
    }
    Series found = series(Trends.of(jobs), What.TORQUE_FOUND);
    assertEquals("lid bolts", found.subject());
    assertEquals(18.0, found.low());
    assertEquals(22.0, found.high());
    assertEquals(16.0, found.points().get(1).value());
  }

  @Test
  void oneJobIsNoTrendAndNoneIsEmpty() {
    assertEquals(List.of(), Trends.of(List.of()).series());
    assertEquals(1, series(Trends.of(months(1)), What.METER).points().size());
  }
}
