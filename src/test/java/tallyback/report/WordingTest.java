package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Account;
import tallyback.model.Balance;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.model.Weight;
import tallyback.reconcile.Outcome;

/** What is called out of place, what a stage of the verdict rests on, and what is summed up. */
class WordingTest {

  private static boolean outOfPlace(Balance.Line... lines) {
    return Wording.outOfPlace(
        new Balance("gasket", "gasket", Arrays.asList(lines)), OrchardJob.plan());
  }

  private static Balance.Line line(Account account, int count) {
    return new Balance.Line(account, count, null, account == Account.STOCK);
  }

  @Test
  void anOldPartInTheTrayIsWhereItBelongsOnceANewOneWentIn() {
    assertFalse(
        outOfPlace(line(Account.MACHINE, 1), line(Account.TRAY, 1), line(Account.STOCK, -1)));
    assertFalse(
        outOfPlace(line(Account.MACHINE, 1), line(Account.SCRAP, 1), line(Account.STOCK, -1)));
  }

  @Test
  void whatIsLeftOverBeyondWhatWasRenewedIsOutOfPlace() {
    assertTrue(
        outOfPlace(line(Account.MACHINE, 5), line(Account.TRAY, 2), line(Account.STOCK, -1)));
    assertTrue(outOfPlace(line(Account.TRAY, 1)));
    assertTrue(outOfPlace(line(Account.MACHINE, 1), line(Account.LOST, 1)));
  }

  private static Outcome outcome(
      Answer answer, List<Finding> findings, List<Outcome.Unsaid> unsaid) {
    return new Outcome(
        new Verdict(answer, answer, answer),
        findings,
        unsaid,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  private static Finding finding(String subject, List<Stage> stages, List<Finding> followers) {
    return new Finding(
        "torque-unsaid",
        Weight.CHECK,
        stages,
        subject,
        "torqued",
        "never said",
        null,
        null,
        List.of(),
        "Machine stopped: torque it.",
        followers);
  }

  @Test
  void aStageNamesItsOwnFindingsAndItsOwnSilence() {
    Outcome outcome =
        outcome(
            Answer.STOP,
            List.of(
                finding("cover", List.of(Stage.values()), List.of()),
                finding("owner's note", List.of(Stage.HAND_OVER), List.of()),
                finding(
                    "root", List.of(), List.of(finding("late", List.of(Stage.WORK), List.of())))),
            List.of(
                new Outcome.Unsaid("tools out", List.of(Stage.values())),
                new Outcome.Unsaid("a test run", List.of(Stage.WORK, Stage.HAND_OVER)),
                new Outcome.Unsaid("with which wrench", List.of())));
    assertEquals(
        "Finding 1 stands against it. Not said: tools out.",
        Wording.reason(outcome, Stage.START_FOR_TEST));
    assertEquals(
        "Findings 1 and 3 stand against it. Not said besides: a test run.",
        Wording.reason(outcome, Stage.WORK));
    assertEquals(
        "Findings 1 and 2 stand against it. What was not said above is missing here too.",
        Wording.reason(outcome, Stage.HAND_OVER));
  }

  @Test
  void aStageThatIsClearOrOpenSaysWhatItDoesNotKnow() {
    List<Outcome.Unsaid> unsaid =
        List.of(
            new Outcome.Unsaid("one", List.of(Stage.WORK)),
            new Outcome.Unsaid("two", List.of(Stage.WORK)),
            new Outcome.Unsaid("three", List.of(Stage.WORK)),
            new Outcome.Unsaid("four", List.of(Stage.WORK)));
    assertEquals(
        "Not enough was said to judge. Not said: one; two; three; and 1 more, listed below.",
        Wording.reason(outcome(Answer.OPEN, List.of(), unsaid), Stage.WORK));
    assertEquals(
        "Nothing against it in what you told me; not said: 4 things that this doesn't hang on,"
            + " listed below.",
        Wording.reason(outcome(Answer.CLEAR, List.of(), unsaid), Stage.START_FOR_TEST));
  }

  @Test
  void manyFollowersAreSummedUpInOneLine() {
    List<Finding> followers = new ArrayList<>();
    for (int number = 0; number < 50; number++) {
      followers.add(finding("group " + number % 20, List.of(Stage.values()), List.of()));
    }
    Instant noon = Instant.parse("2026-03-02T11:00:00Z");
    String console =
        TextTables.of(
                new JobRecord(
                    OrchardJob.plan(),
                    new JobRecord.Heading("quiet", noon, noon, noon, ZoneId.of("Europe/Oslo")),
                    outcome(
                        Answer.STOP,
                        List.of(finding("first step", List.of(Stage.values()), followers)),
                        List.of()),
                    List.of(),
                    null),
                TextTables.Paint.PLAIN)
            .findings();
    String flat = console.replaceAll("\\s+", " ");
    assertTrue(flat.contains("so also 50 more about 20 things, which only"), console);
    assertFalse(console.contains("group 7"), console);
  }
}
