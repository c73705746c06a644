package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.app.LoadedPlan;
import tallyback.app.TypedJob;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

class PastJobsTest {

  private static final String TEXT =
      """
      tallyback-plan: 1
      name: oil service
      fluids:
        - {say: [engine oil], grade: as the manual says}
      systems:
        - id: oil
          say: [oil system]
          fluid: engine-oil
          drains:
            - {id: sump, say: [sump drain]}
      items:
        - {say: [sump bolts], thing: bolt, count: 4, head: 17 mm}
        - id: cover-nuts
          say: [cover nuts]
          thing: nut
          count: 2
          torque: {value: 20 N·m, tolerance: ±2 N·m, tolerance-from: manual p. 4}
      steps:
        - {say: [drain oil], off: [sump-bolts], on: [sump-bolts], minutes: 5}
        - {say: [close cover], on: [cover-nuts]}
      instruments:
        - {say: [big jug], kind: vessel, from: 0.1 L, to: 6 L, tolerance: 5 %}
      """;

  private static final LoadedPlan PLAN = LoadedPlan.of("oil.yaml", TEXT);

  /** One line a minute, so the step takes as many minutes as there are lines after its start. */
  private static PastJobs.Told job(String id, int minutes, String litres, String more) {
    StringBuilder lines = new StringBuilder("starting drain oil\n");
    lines.append(
        "drained " + litres + " litres from the sump drain into the big jug\n" + more + "\n");
    long there = lines.toString().lines().filter(line -> !line.isBlank()).count();
    for (long line = there; line < minutes; line++) {
      lines.append("engine cold\n");
    }
    lines.append("drain oil done\n");
    return new PastJobs.Told(
        id,
        Instant.parse("2026-03-02T09:00:00Z"),
        PLAN.plan(),
        TypedJob.of(PLAN, lines.toString()));
  }

  private static PastJobs five() {
    return PastJobs.of(
        PLAN.plan(),
        List.of(
            job("a", 10, "three point one", "sump bolts seized"),
            job("b", 12, "three point three", "four sump bolts off"),
            job("c", 15, "three point two", "sump bolts seized"),
            job("d", 20, "three", "torqued the cover nuts to eighty newton metres"),
            job("e", 40, "three point four", "poured in three litres of engine oil")));
  }

  @Test
  void medianSpreadAndNumberOfJobsAreTold() {
    List<String> lines = LearnedText.lines(five());
    assertTrue(
        lines.contains(
            "  drain oil                     median 15 min of 5 jobs, interquartile range 11 to 30"),
        String.join("\n", lines));
    assertTrue(
        lines.contains(
            "  sump drain                    median 3.20 L of 5 jobs, interquartile range 3.05 to"
                + " 3.35"),
        String.join("\n", lines));
    assertTrue(
        lines.contains("  close cover                   never told from start to end"),
        String.join("\n", lines));
    assertTrue(lines.contains("  engine oil                    3.00 L in 1 job"));
    assertTrue(lines.contains("  big jug                       in 5 of 5"));
    assertTrue(lines.contains("  17 mm                         in 1 of 5"));
    assertTrue(lines.contains("  sump bolts                    in 2 of 5"));
  }

  @Test
  void ofFewJobsEachValueIsShown() {
    List<PastJobs.Told> two = List.of(job("a", 10, "three", ""), job("b", 12, "four", ""));
    List<String> lines = LearnedText.lines(PastJobs.of(PLAN.plan(), two));
    assertTrue(
        lines.contains("  drain oil                     median 11 min of 2 jobs: 10, 12"),
        String.join("\n", lines));
  }

  @Test
  void thePlanLearnsMinutesAndSharesAndNeverATorque() {
    String text = five().text();
    Plan learned = PlanReader.read("learned.yaml", text).plan().orElseThrow();
    assertEquals(Integer.valueOf(15), learned.step("drain-oil").orElseThrow().minutes());
    assertEquals("3.20 L", String.valueOf(learned.systems().get(0).drains().get(0).share()));
    assertEquals(PLAN.plan().items(), learned.items());
    assertEquals(PLAN.plan().limits(), learned.limits());
    assertTrue(
        text.contains("# minutes: median 15 min of 5 jobs, interquartile range 11 to 30\n"), text);
    assertTrue(text.contains("# stuck, stripped or broken in 2 of 5\n"), text);
  }

  @Test
  void theOrderOfTheJobsChangesNothing() {
    List<PastJobs.Told> told =
        new ArrayList<>(List.of(job("a", 10, "three", ""), job("b", 12, "four", "")));
    PastJobs forward = PastJobs.of(PLAN.plan(), told);
    java.util.Collections.reverse(told);
    assertEquals(forward.minutes(), PastJobs.of(PLAN.plan(), told).minutes());
    assertEquals(forward.drained(), PastJobs.of(PLAN.plan(), told).drained());
  }
}
