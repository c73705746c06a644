package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tallyback.reconcile.Judging.outcome;
import static tallyback.reconcile.Judging.plan;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Finding;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessStatus;

/**
 * Cases that one example of a kind does not show: what closes a finding, what outranks what, what
 * stays open.
 */
class ReconcilerTest {

  private static final Plan PUMP =
      plan(
          """
          items:
            - id: pump-bolts
              say: [pump bolts]
              thing: bolt
              count: 6
              torque: {value: 24 N·m, tolerance: ±2 N·m, tolerance-from: manual p. 41}
          instruments:
            - {say: [big wrench], kind: wrench, from: 20 N·m, to: 120 N·m, tolerance: 4 %}
          """);

  private static final Plan COOLING =
      plan(
          """
          fluids:
            - {id: coolant, say: [coolant], grade: blue}
          systems:
            - id: cooling
              say: [cooling system]
              fluid: coolant
              capacity: 6.4 L
              matters: 0.1 L
              marks:
                - {id: cold-mark, say: [cold mark], cold: true}
          instruments:
            - {say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}
            - {say: [other jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}
            - {say: [flask], kind: vessel, from: 50 mL, to: 500 mL, tolerance: ±10 mL}
          """);

  private static final Plan STEPS =
      plan(
          """
          steps:
            - {id: fit-belt, say: [fit belt], minutes: 20}
            - {id: fit-fan, say: [fit fan], needs: fit-belt}
          """);

  private static Finding only(Outcome outcome) {
    assertEquals(1, outcome.findings().size(), () -> FindingLines.of(outcome));
    return outcome.findings().get(0);
  }

  @Test
  void aJobOfWhichNothingWasSaidIsOpenAndSaysSo() {
    Outcome outcome = outcome(PUMP, "08:00 memo");
    assertEquals(new Verdict(Answer.OPEN, Answer.OPEN, Answer.OPEN), outcome.verdict());
    assertEquals(List.of("nothing was said about the machine yet"), outcome.unchecked());
  }

  @Test
  void whatIsNotConfirmedOpensAFinding() {
    Outcome outcome = outcome(PUMP, "09:00 items-moved move=off item=pump-bolts count=2 ?");
    assertEquals(List.of("entry-unconfirmed", "- left-in-tray", "- torque-unsaid"), kinds(outcome));
  }

  @Test
  void whatWasNotUnderstoodIsOneFindingWithAllOfItAsEvidence() {
    Finding finding =
        outcome(PUMP, "10:14 not-understood snrDb=9 ?\n10:20 not-understood ?").findings().get(0);
    assertEquals("2 things said were not understood: at 10:14, 10:20", finding.found());
    assertEquals(Weight.CHECK, finding.weight());
    assertEquals(List.of("e1", "e2"), finding.entries());
  }

  @Test
  void whatWasNotUnderstoodIsSettledUpToThere() {
    Finding finding =
        outcome(
                PUMP,
                """
                10:14 not-understood ?
                10:20 not-understood-settled
                10:30 not-understood ?
                """)
            .findings()
            .get(0);
    assertEquals("1 thing said was not understood: at 10:30", finding.found());
  }

  @Test
  void oneThingNotUnderstoodIsSettledByWhatSaidItAgain() {
    Finding finding =
        outcome(
                PUMP,
                """
                10:14 not-understood snrDb=3 ?
                10:20 not-understood snrDb=4 ?
                10:14<10:30 items-moved move=off item=pump-bolts count=6
                10:30 not-understood-settled target=e1 by=e3
                """)
            .findings()
            .stream()
            .filter(each -> each.kind().equals("not-understood"))
            .findFirst()
            .orElseThrow();
    assertEquals("1 thing said was not understood: at 10:20", finding.found());
  }

  @Test
  void whatSaidItAgainTakenBackSettlesNothing() {
    assertTrue(
        kinds(
                outcome(
                    PUMP,
                    """
                    10:14 not-understood snrDb=3 ?
                    10:14<10:30 items-moved move=off item=pump-bolts count=6
                    10:30 not-understood-settled target=e1 by=e2
                    10:31 undone target=e2
                    """))
            .contains("not-understood"));
  }

  @Test
  void whatWasNotUnderstoodIsNotSettledByADoubtfulWord() {
    assertEquals(
        "not-understood",
        outcome(PUMP, "10:14 not-understood ?\n10:20 not-understood-settled ?")
            .findings()
            .get(0)
            .kind());
  }

  @Test
  void whatWasNotUnderstoodLeavesTheJobLeftForTheNight() {
    List<String> kinds =
        kinds(
            outcome(
                PUMP,
                """
                09:00 items-moved move=off item=pump-bolts count=6
                17:00 left-for-night
                17:05 not-understood ?
                """));
    assertTrue(kinds.contains("left-half-open"), kinds.toString());
  }

  @Test
  void whatIsNotConfirmedNeverClosesAFinding() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            09:00 items-moved move=off item=pump-bolts count=6
            10:00 items-moved move=on item=pump-bolts count=6 ?
            10:05 tightened state=torqued item=pump-bolts torque="24 N·m"
            """);
    assertEquals(List.of("entry-unconfirmed", "- left-in-tray", "- torque-partly"), kinds(outcome));
    assertEquals(Answer.STOP, outcome.verdict().startForTest());
  }

  @Test
  void aTorqueTooLowIsPutRightByTheRightOne() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            10:00 tightened state=torqued item=pump-bolts torque="12 N·m"
            10:05 tightened state=torqued item=pump-bolts torque="24 N·m"
            """);
    assertEquals(List.of(), kinds(outcome));
  }

  @Test
  void aTorqueTooHighLeavesTheBoltsSuspectEvenAfterTheRightOne() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            10:00 tightened state=torqued item=pump-bolts torque="24 lbf·ft"
            10:05 tightened state=torqued item=pump-bolts torque="24 N·m"
            """);
    assertEquals(List.of("unit-slip"), kinds(outcome));
    assertEquals(TightnessStatus.WRONG, outcome.tightness().get(0).status());
  }

  @Test
  void aSecondPersonWhoLookedClearsTheSuspectBolts() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            10:00 tightened state=torqued item=pump-bolts torque="24 lbf·ft"
            10:05 tightened state=torqued item=pump-bolts torque="24 N·m"
            10:10 second-check person=tobias subject=pump-bolts
            """);
    assertEquals(List.of(), kinds(outcome));
  }

  @Test
  void aMisspokenUnitIsClearedByCorrectingIt() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            10:00 tightened state=torqued item=pump-bolts torque="24 lbf·ft"
            10:01 corrected target=e1 now: tightened state=torqued item=pump-bolts torque="24 N·m"
            """);
    assertEquals(List.of(), kinds(outcome));
    assertEquals(List.of("e1", "e2"), outcome.tightness().get(0).entries());
  }

  @Test
  void boltsTakenOffAgainAreNoLongerTight() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            09:00 items-moved move=off item=pump-bolts count=6
            10:00 items-moved move=on item=pump-bolts count=6
            10:05 tightened state=torqued item=pump-bolts torque="24 N·m"
            11:00 items-moved move=off item=pump-bolts count=6
            11:30 items-moved move=on item=pump-bolts count=6
            """);
    assertEquals(List.of("torque-unsaid"), kinds(outcome));
    assertEquals(TightnessStatus.UNSAID, outcome.tightness().get(0).status());
  }

  @Test
  void torquedWithBoltsStillInTheTrayIsNoPass() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            09:00 items-moved move=off item=pump-bolts count=6
            10:00 items-moved move=on item=pump-bolts count=4
            10:05 tightened state=torqued item=pump-bolts lump=true torque="24 N·m"
            """);
    assertEquals(List.of("left-in-tray", "- torque-partly"), kinds(outcome));
    assertEquals(TightnessStatus.PARTLY, outcome.tightness().get(0).status());
  }

  /**
   * 5.0 L out of one jug, 4.9 L in by another: 2 x root(2 x 0.25^2 / 3 + 2 x 0.05^2 / 3), by hand
   * 0.42 L.
   */
  @Test
  void aDifferenceThatTwoJugsCannotTellIsNoFinding() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            09:00 fluid-moved move=out system=cooling amount="5.0 L" vessel=big-jug
            11:00 fluid-moved move=in system=cooling amount="4.8 L" vessel=other-jug
            """);
    assertEquals(List.of(), kinds(outcome));
    assertEquals("0.41 L", outcome.fluids().get(0).uncertainty().toString());
    assertEquals(
        "The jugs can't tell: their tolerance is wider than what matters; the level at the cold"
            + " mark decides. Sum 0.20 L ± 0.41 L.",
        outcome.fluids().get(0).says());
    assertTrue(
        outcome.unchecked().contains("cooling system: whether it is full (the jugs can't tell)"));
  }

  /** The same amounts by one jug: its scale error nearly cancels and the difference shows. */
  @Test
  void theSameDifferenceByOneJugIsTold() {
    Finding finding =
        only(
            outcome(
                COOLING,
                """
                09:00 fluid-moved move=out system=cooling amount="5.0 L" vessel=big-jug
                11:00 fluid-moved move=in system=cooling amount="4.8 L" vessel=big-jug
                """));
    assertEquals("fluid-short", finding.kind());
    assertEquals("short 0.20 L ± 0.08 L", finding.difference());
  }

  @Test
  void aboutWidensTheReading() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            09:00 fluid-moved move=out system=cooling amount="5.0 L" about=true vessel=big-jug
            11:00 fluid-moved move=in system=cooling amount="4.8 L" vessel=big-jug
            """);
    assertEquals(List.of(), kinds(outcome));
    assertEquals("0.87 L", outcome.fluids().get(0).uncertainty().toString());
  }

  @Test
  void whatIsSmallerThanWhatMattersIsNoFinding() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            09:00 fluid-moved move=out system=cooling amount="450 mL" vessel=flask
            11:00 fluid-moved move=in system=cooling amount="400 mL" vessel=flask
            """);
    assertEquals(List.of(), kinds(outcome));
  }

  @Test
  void aSettledLevelAtTheColdMarkOutranksTheJugs() {
    String job =
        """
        09:00 fluid-moved move=out system=cooling amount="5.0 L" vessel=big-jug
        11:00 fluid-moved move=in system=cooling amount="4.0 L" vessel=big-jug
        13:00 measured measure=level level=at mark=cold-mark warmth=cold
        15:00 measured measure=level level=at mark=cold-mark warmth=%s
        """;
    assertEquals(List.of(), kinds(outcome(COOLING, job.formatted("cold"))));
    assertEquals(
        List.of("fluid-short", "level-read-hot"), kinds(outcome(COOLING, job.formatted("hot"))));
  }

  @Test
  void aStepOnlySaidBeforeWhatItNeedsIsACheck() {
    Finding finding =
        only(
            outcome(
                STEPS,
                "10:00 step-marked step=fit-fan mark=done\n"
                    + "10:05 step-marked step=fit-belt mark=done"));
    assertEquals("step-before-need", finding.kind());
    assertEquals(Weight.CHECK, finding.weight());
  }

  @Test
  void aStepKnownToHaveHappenedBeforeWhatItNeedsIsAStop() {
    Finding finding =
        only(
            outcome(
                STEPS,
                """
                10:00 step-marked step=fit-fan mark=done
                10:01 step-marked step=fit-belt mark=started
                10:05 step-marked step=fit-belt mark=done
                """));
    assertEquals(Weight.STOP, finding.weight());
  }

  @Test
  void aStepToldLateWithItsTimeIsInOrder() {
    assertEquals(
        List.of(),
        kinds(
            outcome(
                STEPS,
                """
                10:00 step-marked step=fit-fan mark=done
                09:40<10:05 step-marked step=fit-belt mark=done
                """)));
  }

  @Test
  void pausesDoNotCountAsWork() {
    Outcome outcome =
        outcome(
            STEPS,
            """
            10:00 step-marked step=fit-belt mark=started
            10:10 paused
            10:40 resumed
            10:55 step-marked step=fit-belt mark=done
            """);
    assertEquals(Duration.ofMinutes(25), outcome.steps().get(0).took());
    assertEquals(StepStatus.DONE, outcome.steps().get(0).status());
    assertEquals(StepStatus.UNSAID, outcome.steps().get(1).status());
  }

  @Test
  void aLeakLookedForAgainAndNotFoundIsNoFinding() {
    Outcome outcome =
        outcome(
            PUMP,
            """
            10:00 state-said state=leak
            10:30 state-said state=no-leak
            """);
    assertEquals(List.of(), kinds(outcome));
  }

  @Test
  void aRunWithoutGuardsThatIsOverIsOnlyANote() {
    Finding finding =
        only(
            outcome(
                PUMP,
                """
                10:00 state-said state=guards-off
                10:10 state-said state=running
                10:15 state-said state=stopped
                """));
    assertEquals(Weight.NOTE, finding.weight());
    assertEquals(List.of(), finding.stages());
  }

  @Test
  void bracesInWhatWasSaidStayAsTheyAre() {
    Finding finding =
        only(outcome(PUMP, "10:00 second-check subject=pump-bolts ? \"looked {at} {words}\""));
    assertEquals("\"looked {at} {words}\": not confirmed", finding.found());
  }

  private static List<String> kinds(Outcome outcome) {
    List<String> kinds = new ArrayList<>();
    for (Finding finding : outcome.findings()) {
      kinds.add(finding.kind());
      finding.followers().forEach(follower -> kinds.add("- " + follower.kind()));
    }
    return kinds;
  }
}
