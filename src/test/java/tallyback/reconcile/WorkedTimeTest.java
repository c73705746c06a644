package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import tallyback.app.LoadedPlan;
import tallyback.app.TypedJob;

class WorkedTimeTest {

  private static final LoadedPlan DEMO = LoadedPlan.of(Path.of("demo-data/plan.yaml"));

  private static WorkedTime of(String lines) {
    return WorkedTime.of(
        Reconciler.reconcile(TypedJob.WITHOUT_PLAN.plan(), TypedJob.withoutPlan(lines)));
  }

  @Test
  void nothingToldIsNoTime() {
    assertEquals(new WorkedTime(Duration.ZERO, false), of(""));
  }

  @Test
  void fromTheFirstThingToTheLast() {
    assertEquals(
        new WorkedTime(Duration.ofMinutes(50), false),
        of(
            """
            memo before the work
            @2026-03-02T10:00:00Z belly pan off
            @2026-03-02T10:20:00Z five bolts off the belly pan
            @2026-03-02T10:50:00Z belly pan back on
            @2026-03-02T18:50:00Z memo written in the evening
            """));
  }

  @Test
  void pausesNightsAndHoursWithoutAWordAreNotInIt() {
    assertEquals(
        new WorkedTime(Duration.ofMinutes(40), true),
        of(
            """
            @2026-03-02T10:00:00Z belly pan off
            @2026-03-02T10:10:00Z pause the job
            @2026-03-02T11:10:00Z carry on
            @2026-03-02T11:20:00Z fan shroud off
            @2026-03-02T11:25:00Z leaving for the night
            @2026-03-03T08:00:00Z carry on
            @2026-03-03T08:05:00Z fan shroud back on
            @2026-03-03T12:05:00Z belly pan back on
            @2026-03-03T12:15:00Z engine running
            """));
  }

  /** A plan, since without one no step is ever marked. */
  @Test
  void whatIsDoneOverIsNotInIt() {
    assertEquals(
        Duration.ofMinutes(30),
        WorkedTime.of(
                Reconciler.reconcile(
                    DEMO.plan(),
                    TypedJob.of(
                        DEMO,
                        """
                        @2026-03-02T10:00:00Z starting clean faces
                        @2026-03-02T10:10:00Z clean faces done
                        @2026-03-02T10:20:00Z starting clean faces
                        @2026-03-02T10:30:00Z key out
                        @2026-03-02T10:45:00Z clean faces done again
                        @2026-03-02T10:55:00Z engine running
                        """)))
            .counted());
  }
}
