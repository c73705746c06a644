package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

class JobTimesTest {

  private static final Plan PLAN =
      PlanReader.read(
              "test.yaml",
              """
              tallyback-plan: 1
              name: test
              steps:
                - {id: fit-belt, say: [fit belt], minutes: 20}
                - {id: fit-fan, say: [fit fan]}
              """)
          .plan()
          .orElseThrow();

  private static final String JOB =
      """
      08:55 memo
      09:00 step-marked step=fit-belt mark=started
      09:10 paused
      09:40 resumed
      09:55 step-marked step=fit-belt mark=done
      10:00 paused
      10:30 step-marked step=fit-fan mark=done
      """;

  private static JobTimes times(List<PastJob> past) {
    return JobTimes.of(Reconciler.reconcile(PLAN, JobText.read(JOB)), past);
  }

  private static PastJob past(int day, int worked, int belt) {
    return new PastJob(
        "job-" + day,
        Instant.parse("2026-01-01T08:00:00Z").plus(Duration.ofDays(day)),
        Duration.ofMinutes(worked),
        Map.of("fit-belt", Duration.ofMinutes(belt)));
  }

  @Test
  void pausesAreTakenFromTheTotalAndFromTheStep() {
    JobTimes times = times(List.of());
    assertEquals(Duration.ofMinutes(90), times.total());
    assertEquals(Duration.ofMinutes(60), times.paused());
    assertEquals(Duration.ofMinutes(30), times.worked());
    assertEquals(Duration.ofMinutes(25), times.steps().get(0).took());
    assertNull(times.past());
  }

  @Test
  void onlyStepsThatHaveBothAreHeldAgainstThePlan() {
    JobTimes times = times(List.of());
    assertEquals(Duration.ofMinutes(20), times.planned());
    assertEquals(Duration.ofMinutes(25), times.againstPlan());
    assertNull(times.steps().get(1).took());
  }

  @Test
  void belowFiveEarlierJobsOnlyTheLastIsTold() {
    JobTimes times = times(List.of(past(2, 50, 22), past(1, 45, 30)));
    assertEquals(new JobTimes.Past(2, Duration.ofMinutes(22), null), times.steps().get(0).past());
    assertNull(times.steps().get(1).past());
  }

  @Test
  void fromFiveEarlierJobsOnTheirMedianIsTold() {
    List<PastJob> five =
        IntStream.rangeClosed(1, 5).mapToObj(day -> past(day, 40 + day, day * day)).toList();
    JobTimes times = times(five);
    assertEquals(
        new JobTimes.Past(5, Duration.ofMinutes(25), Duration.ofMinutes(9)),
        times.steps().get(0).past());
    assertEquals(
        new JobTimes.Past(5, Duration.ofMinutes(45), Duration.ofMinutes(43)), times.past());
  }

  @Test
  void aFinishedJobBecomesThePastOfTheNext() {
    Outcome outcome = Reconciler.reconcile(PLAN, JobText.read(JOB));
    PastJob past = PastJob.of("job", Instant.parse("2026-03-02T08:55:00Z"), outcome);
    assertEquals(Duration.ofMinutes(30), past.worked());
    assertEquals(Map.of("fit-belt", Duration.ofMinutes(25)), past.steps());
  }
}
