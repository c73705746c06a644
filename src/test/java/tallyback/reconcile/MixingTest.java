package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.books.Books;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** The share of a mixture against arithmetic by hand, its uncertainty against a simulation. */
class MixingTest {

  private static final long SEED = Long.getLong("seed", 20260302L);

  private static final Plan PLAN =
      PlanReader.read(
              "p",
              """
              tallyback-plan: 1
              name: Mixing
              fluids:
                - {id: coolant, say: [coolant], grade: blue, base: ethylene-glycol, strength: 40 %}
                - {id: neat, say: [concentrate], grade: blue, form: concentrate, base: ethylene-glycol, strength: 96 %}
                - {id: water, say: [water], grade: clear, form: water, base: water}
              systems:
                - {id: cooling, say: [cooling], fluid: coolant, capacity: 10.0 L, before: 10.0 L}
              instruments:
                - {say: [jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}
                - {say: [gauge], kind: gauge, from: 0 %, to: 100 %, tolerance: ±2 %}
              """)
          .plan()
          .orElseThrow();

  private static Mixing.Result strength(String job) {
    List<Entry> entries = JobText.read(job);
    JobView view = JobView.confirmed(PLAN, Books.of(PLAN, entries), List.of());
    return Mixture.strength(view, PLAN.systems().get(0)).orElseThrow().share();
  }

  private static final String HALF_CHANGED =
      """
      08:50 measured measure=strength amount="40 %" subject=cooling instrument=gauge
      09:00 fluid-moved move=out amount="5.0 L" system=cooling vessel=jug warmth=cold
      10:00 fluid-moved move=in amount="3.0 L" fluid=neat system=cooling vessel=jug
      10:10 fluid-moved move=in amount="2.0 L" fluid=water system=cooling vessel=jug
      """;

  @Test
  void theShareIsThatOfArithmeticByHand() {
    Mixing.Result result = strength(HALF_CHANGED);
    assertEquals(10.0, result.litres(), 1e-9);
    assertEquals((5 * 0.40 + 3 * 0.96) / 10, result.share(), 1e-9);
  }

  @Test
  void whatIsPouredBackIsAsStrongAsItCameOut() {
    Mixing.Result result =
        strength(
            """
            08:50 measured measure=strength amount="40 %" subject=cooling instrument=gauge
            09:00 fluid-moved move=out amount="5.0 L" system=cooling vessel=jug warmth=cold
            10:00 fluid-moved move=put-back amount="5.0 L" system=cooling vessel=jug
            """);
    assertEquals(0.40, result.share(), 1e-9);
  }

  @Test
  void moreOutThanWasInsideLeavesOnlyWhatWentIn() {
    Mixing.Result result =
        strength(
            """
            08:50 measured measure=strength amount="40 %" subject=cooling instrument=gauge
            09:00 fluid-moved move=out amount="12.0 L" system=cooling vessel=jug warmth=cold
            10:00 fluid-moved move=in amount="5.0 L" fluid=neat system=cooling vessel=jug
            """);
    assertEquals(0.96, result.share(), 1e-9);
  }

  /**
   * Every error drawn evenly between its limits: one for the jug, one for each reading and each
   * temperature, one for the strength before, the content before and the label. The spread of the
   * result is what the propagation says, within a tenth.
   */
  @Test
  void theUncertaintyIsThatOfASimulation() {
    Random random = new Random(SEED);
    int runs = 40_000;
    double sum = 0;
    double squares = 0;
    double shop = 0.0065; // from 5 to 35 °C the mixture grows by twice this share
    for (int run = 0; run < runs; run++) {
      double jug = 0.05 * even(random);
      double out = 5 * (1 + jug + shop * even(random)) + 0.05 * even(random);
      double neat = 3 * (1 + jug + shop * even(random)) + 0.05 * even(random);
      double water = 2 * (1 + jug + 0.0022 * even(random)) + 0.05 * even(random);
      double before = 10 + 0.05 * even(random);
      double strength = 0.40 * (1 + 0.02 * even(random));
      double label = 0.96 + 0.005 * even(random);
      double share = ((before - out) * strength + neat * label) / (before - out + neat + water);
      sum += share;
      squares += share * share;
    }
    double spread = Math.sqrt(squares / runs - Math.pow(sum / runs, 2));
    double expanded = strength(HALF_CHANGED).expanded();
    assertEquals(2 * spread, expanded, 0.1 * expanded, "seed " + SEED);
  }

  private static double even(Random random) {
    return 2 * random.nextDouble() - 1;
  }

  @Test
  void aFinerGaugeMakesTheResultSurer() {
    String unread = HALF_CHANGED.substring(HALF_CHANGED.indexOf('\n') + 1);
    assertTrue(strength(unread).expanded() > strength(HALF_CHANGED).expanded());
  }
}
