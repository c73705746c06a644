package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tallyback.model.Finding;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.reconcile.Outcome.FluidSum;

/** Fluid put on a scale instead of into a jug. */
class WeighedFluidTest {

  private static final Plan PLAN =
      PlanReader.read(
              "test.yaml",
              """
              tallyback-plan: 1
              name: Flushing on the bench
              fluids:
                - {id: coolant, say: [coolant], grade: blue, form: premix, base: ethylene-glycol, strength: 50 %}
                - {id: oil, say: [gear oil], grade: thick, base: oil}
                - {id: known-oil, say: [pump oil], grade: thin, base: oil, litre-weighs: 870 g}
              systems:
                - {id: cooling, say: [cooling system], fluid: coolant}
                - {id: gearbox, say: [gearbox], fluid: oil}
                - {id: pump, say: [pump housing], fluid: known-oil}
              instruments:
                - {say: [platform scale], kind: vessel, from: 0 kg, to: 20 kg, tolerance: ±0.02 kg}
                - {say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}
              """)
          .plan()
          .orElseThrow();

  private static Outcome outcome(String job) {
    return Reconciler.reconcile(PLAN, JobText.read(job));
  }

  private static FluidSum sum(Outcome outcome, String system) {
    return outcome.fluids().stream()
        .filter(each -> each.system().equals(system))
        .findFirst()
        .orElseThrow();
  }

  /** ASHRAE 2001: a litre of half and half weighs 1.07335 kg at 20 degC, so 5.367 kg are 5.00 L. */
  @Test
  void coolantIsBroughtToLitresByItsMixture() {
    Outcome outcome =
        outcome(
            """
            09:00 fluid-moved move=out system=cooling amount="5.367 kg" vessel=platform-scale
            10:00 fluid-moved move=in system=cooling amount="5.367 kg" vessel=platform-scale
            """);
    assertEquals("5.00 L", sum(outcome, "cooling").out().toString());
    assertEquals("5.00 L", sum(outcome, "cooling").in().toString());
    assertTrue(outcome.findings().isEmpty(), () -> FindingLines.of(outcome));
  }

  /** Kell 1975: 0.998204 kg. */
  @Test
  void waterByItsOwn() {
    Outcome outcome =
        outcome(
            "09:00 fluid-moved move=in system=cooling form=water amount=\"3.00 kg\""
                + " vessel=platform-scale");
    assertEquals("3.01 L", sum(outcome, "cooling").in().toString());
  }

  @Test
  void oilByWhatThePlanSays() {
    Outcome outcome =
        outcome("09:00 fluid-moved move=out system=pump amount=\"1.74 kg\" vessel=platform-scale");
    assertEquals("2.00 L", sum(outcome, "pump").out().toString());
  }

  @Test
  void otherOilCannotBeConvertedAndTheFindingSaysWhatToDo() {
    Outcome outcome =
        outcome(
            "09:00 fluid-moved move=out system=gearbox amount=\"1.74 kg\" vessel=platform-scale");
    Finding finding =
        outcome.findings().stream()
            .filter(each -> each.kind().equals("amount-unusable"))
            .findFirst()
            .orElseThrow();
    assertTrue(
        finding.found().contains("nobody knows what a litre of it weighs: measure it in a jug"),
        finding::found);
    assertEquals("0.00 L", sum(outcome, "gearbox").out().toString());
  }

  /**
   * Weighed out 5.37 kg: half widths of scale 20 g and of the reading 5 g, over 1.07335 kg, and of
   * the strength nobody read: half of 50 % is 25 %, where a litre weighs 1.037465 kg, 3.34 % less.
   * Weighed in: scale (the same error, so it cancels) and reading. U = 2 / √3 × √((5.003 ×
   * 0.03344)² + 2 × (0.005 / 1.07335)²) = 0.19 L. (JCGM 100:2008, 4.3.7, 5.1.2 and 5.2.2.)
   */
  @Test
  void scaleAndDensityAreInTheSum() {
    FluidSum sum =
        sum(
            outcome(
                """
                09:00 fluid-moved move=out system=cooling amount="5.37 kg" vessel=platform-scale
                10:00 fluid-moved move=in system=cooling amount="5.37 kg" vessel=platform-scale
                """),
            "cooling");
    assertEquals("0.00 L", sum.shortage().toString());
    assertEquals("0.19 L", sum.uncertainty().toString());
  }

  @Test
  void whereItComesFromIsPrinted() {
    Finding shortage =
        outcome(
                """
                09:00 fluid-moved move=out system=pump amount="1.74 kg" vessel=platform-scale
                10:00 fluid-moved move=in system=pump amount="0.87 kg" vessel=platform-scale
                """)
            .findings()
            .get(0);
    assertEquals("fluid-short", shortage.kind());
    String tolerance = String.valueOf(shortage.tolerance());
    assertTrue(tolerance.contains("platform scale ±0.02 kg"), tolerance);
    assertTrue(tolerance.contains("weighed, a litre is 870 g (plan)"), tolerance);
  }

  /** Nobody reads kilograms off a jug: then the 5 % of a vessel that was not named hold. */
  @Test
  void aWeightReadInAJugIsTakenAsUnnamed() {
    Finding shortage =
        outcome(
                """
                09:00 fluid-moved move=out system=pump amount="1.74 kg" vessel=big-jug
                10:00 fluid-moved move=in system=pump amount="0.87 kg" vessel=big-jug
                """)
            .findings()
            .get(0);
    assertTrue(
        String.valueOf(shortage.tolerance()).contains("vessel not said"),
        () -> String.valueOf(shortage.tolerance()));
  }
}
