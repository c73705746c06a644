package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Finding.Stage;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.reconcile.Outcome.FluidLine;
import tallyback.reconcile.Outcome.FluidSum;

/** What a fluid sum is made up of, as far as it was told; and what each stage is judged by. */
class FluidSumLinesTest {

  private static final Plan PLAN =
      PlanReader.read(
              "test.yaml",
              """
              tallyback-plan: 1
              name: Radiator of the bench engine
              fluids:
                - {id: coolant, say: [coolant], grade: blue, form: premix}
              systems:
                - id: cooling
                  say: [cooling system]
                  fluid: coolant
                  capacity: 8 L
                  before: 7.5 L
                  dry-parts: 0.5 L
                  drains: [{id: tap, say: [tap]}]
              instruments:
                - {say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 0 %}
              """)
          .plan()
          .orElseThrow();

  private static Outcome outcome(String job) {
    return Reconciler.reconcile(PLAN, JobText.read(job));
  }

  private static List<String> lines(FluidSum sum) {
    return sum.lines().stream().map(FluidSumLinesTest::line).toList();
  }

  private static String line(FluidLine line) {
    return line.part() + " " + line.amount();
  }

  @Test
  void everyWayOutAndInHasItsLine() {
    FluidSum sum =
        outcome(
                """
                09:00 fluid-moved move=out place=tap amount="5.0 L" vessel=big-jug
                09:10 fluid-moved move=left-in-part system=cooling amount="0.3 L" vessel=big-jug
                10:00 fluid-moved move=put-back system=cooling amount="1.0 L" vessel=big-jug
                10:05 fluid-moved move=in system=cooling amount="4.9 L" vessel=big-jug
                10:30 fluid-moved move=bled-out system=cooling amount="0.1 L" vessel=big-jug
                """)
            .fluids()
            .get(0);
    assertEquals(
        List.of(
            "DRAINED 5.00 L",
            "LEFT_IN_PART 0.30 L",
            "BLED_OUT 0.10 L",
            "DRY_PARTS 0.50 L",
            "FILLED 4.90 L",
            "PUT_BACK 1.00 L"),
        lines(sum));
    assertTrue(
        sum.says()
            .contains(
                "It held 7.50 L before by the plan; by what was said it holds 8.00 L ± 0.00 L of 8"
                    + " L now."),
        sum::says);
  }

  /**
   * Repeated replacement: 7.5 L, 5 L out, 5 L water in, 5 L out, 5 L coolant in. Of the 5 L water a
   * third stays: 7.5 - 5 = 2.5 of 7.5 L.
   */
  @Test
  void flushWaterThatStayedIsNamed() {
    FluidSum sum =
        outcome(
                """
                09:00 fluid-moved move=out place=tap amount="5.0 L" vessel=big-jug
                09:10 fluid-moved move=in system=cooling form=water amount="5.0 L" vessel=big-jug
                09:20 fluid-moved move=out place=tap amount="5.0 L" vessel=big-jug
                09:30 fluid-moved move=in system=cooling form=premix amount="5.0 L" vessel=big-jug
                """)
            .fluids()
            .get(0);
    assertTrue(sum.says().contains("About 1.67 L ± "), sum::says);
    assertTrue(sum.says().endsWith("of it is flush water that stayed inside."), sum::says);
  }

  @Test
  void waterThatWasNotFlushedOutIsNoFlushWater() {
    FluidSum sum =
        outcome(
                """
                09:00 fluid-moved move=out place=tap amount="5.0 L" vessel=big-jug
                09:10 fluid-moved move=in system=cooling form=water amount="5.0 L" vessel=big-jug
                """)
            .fluids()
            .get(0);
    assertFalse(sum.says().contains("flush water"), sum::says);
  }

  @Test
  void eachStageHasItsOwnFindingsAndItsOwnSilence() {
    Outcome outcome =
        outcome(
            """
            09:00 fluid-moved move=out place=tap amount="5.0 L" vessel=big-jug
            10:05 fluid-moved move=in system=cooling amount="5.5 L" vessel=big-jug
            """);
    assertEquals(
        List.of("tools, pins and rags out of the bay"), outcome.unsaidFor(Stage.START_FOR_TEST));
    assertTrue(outcome.unsaidFor(Stage.WORK).size() > 1, () -> "" + outcome.unsaid());
    assertEquals(List.of(), outcome.against(Stage.HAND_OVER));
  }
}
