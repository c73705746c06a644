package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** The demo plan, done as a careful mechanic would. */
class DemoPlanTest {

  @Test
  void aPerfectRunOfTheDemoPlanHasNothingAgainstIt() throws IOException {
    Plan plan = PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    Telling job = PerfectJob.of(plan, new Random(1));
    assertEquals(
        "verdict: start for test CLEAR, work CLEAR, hand over CLEAR\n",
        FindingLines.of(Reconciler.reconcile(plan, job.entries())));
  }

  @Test
  void tenFaultsInOneRunAreTenRootFindings() throws IOException {
    Plan plan = PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    Telling job = PerfectJob.of(plan, new Random(1));
    fourOfSixBack(job, "splash-guard-bolts");
    inFootPounds(job, "outlet-nuts");
    job.remove(each -> each instanceof Tightened told && "elbow-nuts".equals(told.item()));
    job.remove(each -> each instanceof StepMarked marked && marked.step().equals("pressure-test"));
    beganBefore(job, "fit-belt", "fit-pump");
    job.change(
        job.findLast(each -> concerns(each, "pump-gasket")),
        each -> new PartFitted("pump-gasket", PartCondition.OLD));
    job.remove(
        each ->
            each instanceof TemporaryMoved moved
                && !moved.in()
                && moved.item().equals("locking-pin"));
    job.change(job.find(DemoPlanTest::filled), each -> less((FluidMoved) each));
    job.change(job.findLast(DemoPlanTest::level), DemoPlanTest::below);
    job.told().get(job.find(each -> torqued(each, "fan-nuts"))).certainty = Certainty.UNCONFIRMED;
    Outcome outcome = Reconciler.reconcile(plan, job.entries());
    List<String> roots =
        outcome.findings().stream()
            .map(each -> each.kind() + " " + each.subject())
            .sorted()
            .toList();
    assertEquals(
        List.of(
            "entry-unconfirmed entry of",
            "fluid-short cooling system",
            "left-in-tray splash guard bolts",
            "level-below-mark cooling system",
            "old-put-back pump gasket",
            "step-before-need fit belt",
            "step-not-done pressure test",
            "temporary-still-in locking pin",
            "torque-unsaid elbow nuts",
            "unit-slip outlet nuts"),
        roots.stream().map(each -> each.replaceAll(" \\d\\d:\\d\\d$", "")).toList(),
        () -> FindingLines.of(outcome));
  }

  private static boolean concerns(Statement statement, String item) {
    return (statement instanceof ItemsMoved moved && item.equals(moved.item()))
        || (statement instanceof PartFitted fitted && fitted.item().equals(item));
  }

  private static boolean torqued(Statement statement, String item) {
    return statement instanceof Tightened told && item.equals(told.item()) && told.torque() != null;
  }

  private static boolean filled(Statement statement) {
    return statement instanceof FluidMoved moved && moved.move() == FluidMove.IN;
  }

  private static boolean level(Statement statement) {
    return statement instanceof Measured measured && measured.measure() == Measure.LEVEL;
  }

  private static void fourOfSixBack(Telling job, String item) {
    job.change(
        job.findLast(each -> concerns(each, item)),
        each -> new ItemsMoved(ItemMove.ON, item, null, 4, false, null, null, null));
  }

  private static void inFootPounds(Telling job, String item) {
    job.change(
        job.findLast(each -> torqued(each, item)),
        each ->
            new Tightened(
                TightnessState.TORQUED,
                item,
                null,
                null,
                null,
                false,
                Amount.of("19", Unit.POUND_FOOT),
                null,
                null,
                "big-wrench",
                null,
                null));
  }

  private static void beganBefore(Telling job, String step, String need) {
    Telling.Told done =
        job.told()
            .get(
                job.findLast(
                    each -> each instanceof StepMarked marked && marked.step().equals(need)));
    job.told()
            .get(job.find(each -> each instanceof StepMarked marked && marked.step().equals(step)))
            .happenedBefore =
        done;
  }

  private static Statement less(FluidMoved told) {
    return new FluidMoved(
        told.move(),
        Amount.of("1.6", Unit.LITRE),
        false,
        told.fluid(),
        null,
        told.system(),
        null,
        told.vessel(),
        null,
        null);
  }

  private static Statement below(Statement statement) {
    Measured told = (Measured) statement;
    return new Measured(
        told.measure(), null, Level.BELOW, told.mark(), told.subject(), told.warmth(), null);
  }
}
