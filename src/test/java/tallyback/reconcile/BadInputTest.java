package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tallyback.reconcile.Judging.finding;
import static tallyback.reconcile.Judging.outcome;
import static tallyback.reconcile.Judging.plan;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Finding;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.plan.Plan;

/** What makes no sense is defined and explained, and never an exception. */
class BadInputTest {

  private static final Plan NAME_ONLY = plan("");

  private static final Plan COOLING =
      plan(
          """
          fluids:
            - {id: coolant, say: [coolant], grade: blue}
          systems:
            - {id: cooling, say: [cooling system], fluid: coolant}
          items:
            - {id: clips, say: [clips], thing: clip, count: 4}
          steps:
            - {id: fit-belt, say: [fit belt]}
            - {id: fit-fan, say: [fit fan], needs: fit-belt}
          instruments:
            - {say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}
          """);

  @Test
  void anAmountOfNoughtOrLessIsExplained() {
    for (String amount : List.of("0 L", "-2.1 L")) {
      Outcome outcome =
          outcome(COOLING, "09:00 fluid-moved move=out system=cooling amount=\"" + amount + "\"");
      assertTrue(
          finding(outcome, "amount-unusable").found().endsWith("must be more than 0"), amount);
      assertEquals(List.of(), outcome.balances().stream().filter(BadInputTest::fluid).toList());
    }
  }

  private static boolean fluid(tallyback.model.Balance balance) {
    return balance.subject().equals("cooling");
  }

  @Test
  void anAmountLargerThanAnyMachineHoldsIsTakenAsSaid() {
    Outcome outcome =
        outcome(
            COOLING,
            "09:00 fluid-moved move=out system=cooling amount=\"1000000000000 L\" vessel=big-jug");
    assertEquals("1000000000000.00 L", outcome.fluids().get(0).out().toString());
  }

  @Test
  void aCountOfNoughtIsExplainedAndMovesNothing() {
    Outcome outcome = outcome(COOLING, "09:00 items-moved move=off item=clips count=0");
    assertTrue(finding(outcome, "amount-unusable").found().endsWith("a count must be 1 or more"));
  }

  @Test
  void aMissingCapacityIsNamedAndTheSumIsStillMade() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            09:00 fluid-moved move=out system=cooling amount="5.0 L" vessel=big-jug
            11:00 fluid-moved move=in system=cooling amount="3.0 L" vessel=big-jug
            """);
    assertTrue(
        outcome.unchecked().contains("cooling system: sum against capacity (the plan gives none)"));
    assertTrue(
        String.valueOf(finding(outcome, "fluid-short").difference()).startsWith("short 2.00 L ± "));
  }

  @Test
  void aFluidThatIsNotInThePlanIsReportedAndNeverCountedAsTheRightOne() {
    Outcome outcome =
        outcome(
            NAME_ONLY, "09:00 fluid-moved move=in fluid=gear-oil amount=\"2.0 L\" vessel=big-jug");
    assertEquals("gear-oil (not in the plan)", finding(outcome, "not-in-plan").subject());
    Outcome poured =
        outcome(
            COOLING, "09:00 fluid-moved move=in fluid=gear-oil amount=\"2.0 L\" vessel=big-jug");
    assertEquals(Answer.STOP, poured.verdict().startForTest(), () -> FindingLines.of(poured));
  }

  @Test
  void unitSystemsMayBeMixed() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            09:00 fluid-moved move=out system=cooling amount="5.0 US qt" vessel=big-jug
            11:00 fluid-moved move=in system=cooling amount="4.7 L" vessel=big-jug
            """);
    assertEquals("4.73 L", outcome.fluids().get(0).out().toString());
    assertTrue(
        outcome.findings().stream().noneMatch(each -> each.kind().startsWith("fluid")),
        () -> FindingLines.of(outcome));
  }

  @Test
  void entriesOutOfTimeOrderAreJudgedByWhenThingsHappened() {
    Outcome late =
        outcome(
            COOLING,
            """
            10:00 step-marked step=fit-fan mark=done
            09:30<10:10 step-marked step=fit-belt mark=done
            """);
    assertEquals(List.of(), late.findings());
  }

  @Test
  void aClockSetBackIsReportedAndTheOrderItUpsetsHangsUnderIt() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            10:00 step-marked step=fit-belt mark=done
            09:10 step-marked step=fit-fan mark=done
            """);
    Finding clock = finding(outcome, "clock-set-back");
    assertEquals("50 min back", clock.difference());
    assertEquals(
        List.of("step-before-need"), clock.followers().stream().map(Finding::kind).toList());
  }

  @Test
  void anUndoOfAnUndoBringsTheEntryBackHoweverOften() {
    StringBuilder job = new StringBuilder("09:00 items-moved move=off item=clips count=4\n");
    for (int undo = 1; undo <= 12_000; undo++) {
      job.append("09:01 undone target=e").append(undo).append('\n');
    }
    Outcome outcome = outcome(COOLING, job.toString());
    assertEquals("left-in-tray", outcome.findings().get(0).kind());
    assertTrue(
        outcome(COOLING, job + "09:02 undone target=e12001\n").findings().isEmpty(),
        "an odd number of them takes it back");
  }

  @Test
  void aCorrectionOfAWithdrawnEntryDoesNotCountAndSaysSo() {
    Outcome outcome =
        outcome(
            COOLING,
            """
            09:00 items-moved move=off item=clips count=4
            09:01 undone target=e1
            09:02 corrected target=e1 now: items-moved move=off item=clips count=3
            """);
    assertTrue(
        finding(outcome, "edit-without-effect").found().endsWith("the new value does not count"));
    assertEquals(1, outcome.findings().size());
  }

  @Test
  void aPlanWithNothingButANameTakesEveryEntry() {
    Outcome outcome =
        outcome(
            NAME_ONLY,
            """
            09:00 items-moved move=off thing=bolt count=6
            09:10 tightened state=torqued torque="24 N·m"
            09:20 step-marked step=no-such-step mark=done
            09:30 measured measure=pressure amount="80 kPa"
            """);
    assertEquals(
        List.of("not-in-plan", "not-in-plan"),
        outcome.findings().stream().map(Finding::kind).toList());
    assertEquals(Answer.OPEN, outcome.verdict().startForTest());
  }

  @Test
  void aPlanWithNothingButANameAndNoEntriesIsOpen() {
    assertEquals(
        new Verdict(Answer.OPEN, Answer.OPEN, Answer.OPEN),
        Reconciler.reconcile(NAME_ONLY, List.of()).verdict());
  }
}
