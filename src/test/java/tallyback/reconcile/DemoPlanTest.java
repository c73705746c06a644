package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
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
}
