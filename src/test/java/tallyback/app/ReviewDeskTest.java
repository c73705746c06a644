package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.Proxy;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tallyback.app.ReviewDesk.Manner;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.LogFailed;
import tallyback.log.Seal;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.FindingEnd;
import tallyback.model.Verdict;
import tallyback.model.Weight;
import tallyback.reconcile.Outcome;
import tallyback.report.ReviewText;
import tallyback.review.Act;
import tallyback.review.Doubt;
import tallyback.review.Proposal;
import tallyback.review.ReviewRefused;

/** Reviews of a job in a real data file. */
class ReviewDeskTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final String JOB = "pump";

  private static LoadedPlan plan;

  @TempDir private Path folder;
  private Instant now = NINE;
  private int acts;
  private final ReviewDesk desk = new ReviewDesk();

  @BeforeAll
  static void load() {
    plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
  }

  private Path data() {
    return folder.resolve("jobs.tallyback");
  }

  private JobDesk.Setting setting() {
    return new JobDesk.Setting("keyboard", "mechanic", ZoneOffset.UTC, () -> now);
  }

  private void told(String... lines) {
    try (JobDesk at = JobDesk.open(data(), plan, JOB, NINE, setting())) {
      TypedLines typed = new TypedLines(at);
      for (String line : lines) {
        now = now.plusSeconds(60);
        TypedLines.Told told = typed.enter(line);
        assertTrue(told.line().startsWith("noted"), told.line());
      }
    }
  }

  /** Notes what can't be typed. */
  private void noted(String id, Statement statement, Certainty certainty) {
    now = now.plusSeconds(60);
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      Entry unused =
          log.append(
              new Draft(
                  id,
                  JOB,
                  now,
                  now,
                  ZoneOffset.UTC,
                  "mechanic",
                  "test",
                  Source.SPOKEN,
                  certainty,
                  "",
                  statement),
              null);
    }
  }

  private ReviewDesk.Done act(Act act) {
    return act(act, Manner.NOTE, "review-" + ++acts);
  }

  private ReviewDesk.Done act(Act act, Manner manner, String id) {
    now = now.plusSeconds(60);
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      return desk.act(
          log, JOB, act, new ReviewDesk.Reviewer("Mira Tolvan", "page", () -> now), manner, id);
    }
  }

  private String refused(Act act) {
    int before = entries().size();
    String message = String.valueOf(assertThrows(ReviewRefused.class, () -> act(act)).getMessage());
    assertEquals(before, entries().size(), "nothing is noted of what is refused");
    return message;
  }

  private List<Entry> entries() {
    return CheckedJob.read(data(), JOB).entries();
  }

  private Outcome outcome() {
    return CheckedJob.read(data(), JOB).outcome();
  }

  private List<Doubt> doubts() {
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      return desk.review(log, JOB).doubts();
    }
  }

  private long seqOf(String words) {
    return entries().stream()
        .filter(entry -> entry.words().equals(words))
        .mapToLong(Entry::seq)
        .findFirst()
        .orElseThrow();
  }

  private @Nullable Finding finding(String kind, String subject) {
    return outcome().findings().stream()
        .flatMap(each -> Stream.concat(Stream.of(each), each.followers().stream()))
        .filter(each -> each.kind().equals(kind) && each.subject().equals(subject))
        .findFirst()
        .orElse(null);
  }

  private Finding standing(String kind, String subject) {
    Finding finding = finding(kind, subject);
    assertNotNull(finding, () -> kind + " " + subject + " in " + outcome().findings());
    return finding;
  }

  private static Act.Answer answer(Finding finding, FindingEnd end, @Nullable LocalDate again) {
    return new Act.Answer(finding.id(), finding.says(), end, "Orrin Vale", "by agreement", again);
  }

  private String placeOf(String subject) {
    return outcome().balances().stream()
        .filter(balance -> balance.label().equals(subject))
        .map(
            balance ->
                balance.lines().stream()
                    .map(l -> l.account() + " " + l.count())
                    .toList()
                    .toString())
        .findFirst()
        .orElse("nowhere");
  }

  // ---- entries

  @Test
  void aChangeHoldsAtTheTimeOfWhatItChanges() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    assertEquals("[MACHINE 4, TRAY 2]", placeOf("splash guard bolts"));
    long seq = seqOf("four splash guard bolts back on");

    ReviewDesk.Done done = act(new Act.Change(seq, "six splash guard bolts back on", "heard it"));

    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
    Entry noted = done.noted().get(0);
    assertEquals("Mira Tolvan", noted.actor());
    assertEquals(
        new Statement.Corrected(
            entries().get((int) seq - 1).id(),
            ((Statement.Corrected) noted.statement()).now(),
            "heard it"),
        noted.statement());
    assertEquals("four splash guard bolts back on", entries().get((int) seq - 1).words());
    assertEquals(
        List.of(
            new ReviewText.Line(
                "splash guard bolts", "4 on the machine, 2 in the tray", "6 on the machine")),
        ReviewText.lines(proposed(done).change(), plan.plan()).stream()
            .filter(line -> line.before().startsWith("4 on"))
            .toList());
  }

  private static Proposal proposed(ReviewDesk.Done done) {
    Proposal proposal = done.proposal();
    assertNotNull(proposal);
    return proposal;
  }

  @Test
  void whatWasForgottenCountsAtItsTimeAndSaysThatItCameLater() {
    told("six splash guard bolts off", "engine stopped");
    Instant then = NINE.plusSeconds(90);
    Entry added =
        act(new Act.Add("six splash guard bolts back on", then, "forgotten in the rain"))
            .noted()
            .get(0);
    assertEquals(then, added.happenedAt());
    assertTrue(added.recordedAt().isAfter(then));
    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
    assertTrue(added.statement() instanceof Statement.AddedLater);
    assertEquals(
        List.of("six splash guard bolts off", "six splash guard bolts back on", "engine stopped"),
        outcome().standing().stream().map(Entry::words).skip(1).toList());
  }

  @Test
  void aCheckOfTheReviewersOwnIsAnEntryLikeAnyOther() {
    told("outlet nuts off");
    Entry own =
        act(new Act.Add("torqued the outlet nuts to nineteen newton metres", null, ""))
            .noted()
            .get(0);
    assertTrue(own.statement() instanceof Statement.Tightened, own.toString());
    assertEquals("Mira Tolvan", own.actor());
    assertEquals(own.recordedAt(), own.happenedAt());
  }

  @Test
  void whatIsWithdrawnDoesNotCountUntilThatIsWithdrawn() {
    told("six splash guard bolts off", "six splash guard bolts back on");
    long seq = seqOf("six splash guard bolts back on");
    Entry undo = act(new Act.Withdraw(seq, "said of another machine")).noted().get(0);
    assertEquals("[TRAY 6]", placeOf("splash guard bolts"));
    assertTrue(
        refused(new Act.Change(seq, "engine stopped", "x"))
            .contains("was withdrawn by no. " + undo.seq()));
    act(new Act.Withdraw(undo.seq(), "it was this machine"));
    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
  }

  @Test
  void whatWasInDoubtIsConfirmedAsItStands() {
    told("six splash guard bolts off");
    String id =
        plan.plan().items().stream()
            .filter(item -> item.label().equals("splash guard bolts"))
            .findFirst()
            .orElseThrow()
            .id();
    noted(
        "doubtful-1",
        new Statement.ItemsMoved(Statement.ItemMove.ON, id, null, 6, false, null, null, null),
        Certainty.UNCONFIRMED);
    assertEquals(List.of(Doubt.Why.UNCONFIRMED), doubts().stream().map(Doubt::why).toList());
    assertEquals("[TRAY 6]", placeOf("splash guard bolts"));
    act(new Act.Confirm(doubts().get(0).entry().seq(), "listened to it"));
    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
    assertEquals(List.of(), doubts());
  }

  @Test
  void whatWasNotUnderstoodComesFirstAndIsSettledWithWordsOrWithout() {
    told("six splash guard bolts off");
    noted("lost-1", new Statement.NotUnderstood(12), Certainty.UNCONFIRMED);
    noted("lost-2", new Statement.NotUnderstood(9), Certainty.UNCONFIRMED);
    List<Doubt> doubts = doubts();
    assertEquals(
        List.of(Doubt.Why.NOT_UNDERSTOOD, Doubt.Why.NOT_UNDERSTOOD),
        doubts.stream().map(Doubt::why).toList());
    Entry first = doubts.get(0).entry();

    List<Entry> two =
        act(new Act.Settle(first.seq(), "six splash guard bolts back on", "listened")).noted();
    assertEquals(2, two.size());
    assertEquals(first.happenedAt(), two.get(0).happenedAt());
    assertEquals(
        new Statement.NotUnderstoodSettled(first.id(), two.get(0).id()), two.get(1).statement());
    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
    act(new Act.Settle(doubts.get(1).entry().seq(), null, "somebody talked to the dog"));
    assertEquals(List.of(), doubts());
    assertTrue(refused(new Act.Settle(first.seq(), null, "again")).contains("nothing that waits"));

    // What was put in its place is withdrawn: then it waits again.
    act(new Act.Withdraw(two.get(0).seq(), "no, it was something else"));
    assertEquals(List.of(first.seq()), doubts().stream().map(each -> each.entry().seq()).toList());
  }

  @Test
  void anEntryIsMovedToAnotherTimeButNotBeforeTheJob() {
    told("six splash guard bolts off", "engine stopped");
    long seq = seqOf("engine stopped");
    act(new Act.Retime(seq, NINE.plusSeconds(30), "by the film"));
    assertEquals("engine stopped", outcome().standing().get(1).words());
    ReviewDesk.Done early =
        act(new Act.Retime(seq, NINE.minus(Duration.ofHours(3)), "by the film"));
    assertEquals(List.of(), early.noted());
    assertTrue(proposed(early).doubt().contains("opened"), proposed(early).doubt());
    assertTrue(
        refused(new Act.Retime(seq, now.plusSeconds(9000), "x"))
            .startsWith("that time is still to come"));
  }

  @Test
  void whatCanHardlyBeIsNotedOnlyWhenItIsSaidToBeSo() {
    told("six splash guard bolts off", "six splash guard bolts back on");
    Act seventh = new Act.Add("one splash guard bolt back on", NINE.plusSeconds(150), "found it");
    ReviewDesk.Done doubted = act(seventh);
    assertEquals(List.of(), doubted.noted());
    assertFalse(proposed(doubted).doubt().isEmpty());
    assertEquals(1, act(seventh, Manner.NOTE_ALL_THE_SAME, "review-s").noted().size());
  }

  @Test
  void lookingNotesNothing() {
    told("six splash guard bolts off");
    int before = entries().size();
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      Proposal looked =
          desk.look(
              log,
              JOB,
              new Act.Add("six splash guard bolts back on", NINE.plusSeconds(30), "x"),
              new ReviewDesk.Reviewer("Mira Tolvan", "page", () -> now));
      assertFalse(looked.change().isNothing());
    }
    assertEquals(before, entries().size());
  }

  @Test
  void aRetryNotesNothingTwice() {
    told("six splash guard bolts off");
    Act act = new Act.Add("six splash guard bolts back on", NINE.plusSeconds(90), "forgotten");
    List<Entry> first = act(act, Manner.NOTE, "review-r").noted();
    assertEquals(first, act(act, Manner.NOTE, "review-r").noted());
    assertEquals(3, entries().size());
  }

  @Test
  void aRetryGoesOnWhereTheLogFailed() {
    told("six splash guard bolts off");
    noted("lost-1", new Statement.NotUnderstood(12), Certainty.UNCONFIRMED);
    Act act =
        new Act.Settle(doubts().get(0).entry().seq(), "six splash guard bolts back on", "listened");
    now = now.plusSeconds(60);
    ReviewDesk.Reviewer reviewer = new ReviewDesk.Reviewer("Mira Tolvan", "page", () -> now);
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      assertThrows(
          LogFailed.class,
          () -> desk.act(fullAfter(1, log), JOB, act, reviewer, Manner.NOTE, "review-r"));
    }
    assertEquals(1, doubts().size(), "half of it was noted");

    List<Entry> both = act(act, Manner.NOTE, "review-r").noted();
    assertEquals(2, both.size());
    assertEquals(List.of(), doubts());
    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
    assertEquals(both, act(act, Manner.NOTE, "review-r").noted());
    assertEquals(5, entries().size());
  }

  /** A log on a disk that is full once so many entries were noted. */
  private static JobLog fullAfter(int many, JobLog log) {
    AtomicInteger left = new AtomicInteger(many);
    return (JobLog)
        Proxy.newProxyInstance(
            JobLog.class.getClassLoader(),
            new Class<?>[] {JobLog.class},
            (proxy, method, given) -> {
              if (method.getName().equals("append") && left.getAndDecrement() == 0) {
                throw new LogFailed("the disk is full", new IOException("full"));
              }
              return method.invoke(log, given);
            });
  }

  @Test
  void somethingElseUnderTheSameIdIsNotTakenForNoted() {
    told("six splash guard bolts off");
    act(
        new Act.Add("five splash guard bolts back on", NINE.plusSeconds(90), "forgotten"),
        Manner.NOTE,
        "review-r");
    String message =
        String.valueOf(
            assertThrows(
                    ReviewRefused.class,
                    () ->
                        act(
                            new Act.Add(
                                "six splash guard bolts back on",
                                NINE.plusSeconds(90),
                                "forgotten"),
                            Manner.NOTE,
                            "review-r"))
                .getMessage());
    assertTrue(message.contains("noted before as no. 3"), message);
    assertEquals(3, entries().size());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          torqued the outlet nuts to nineteen    | write it too
          two more                               | no entry by itself
          same again                             | no entry by itself
          scratch that                           | no entry by itself
          yes                                    | no entry by itself
          may it be started                      | no entry by itself
          outlet nuts off twenty minutes ago     | give the time by itself
          pleased to meet you                    | not understood
          """)
  void wordsMustSayEverythingByThemselves(String words, String remedy) {
    told("six splash guard bolts off");
    String message = refused(new Act.Add(words, NINE.plusSeconds(90), "forgotten"));
    assertTrue(message.contains(remedy) || message.contains("did you mean"), message);
  }

  @Test
  void whoAndWhyAreNeeded() {
    told("engine stopped");
    long seq = seqOf("engine stopped");
    assertTrue(refused(new Act.Withdraw(seq, " ")).contains("the reason is missing"));
    assertTrue(refused(new Act.Withdraw(seq, "a\nb")).contains("write one line"));
    assertTrue(refused(new Act.Withdraw(seq, "x".repeat(401))).contains("longer than 400"));
    assertTrue(refused(new Act.Withdraw(1, "x")).contains("stays"));
    assertTrue(refused(new Act.Withdraw(77, "x")).contains("there is no entry no. 77"));
  }

  // ---- findings

  @Test
  void nobodyCanAgreeToAStop() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Finding stop = standing("left-in-tray", "splash guard bolts");
    assertEquals(Weight.STOP, stop.weight());
    assertTrue(
        refused(answer(stop, FindingEnd.ACCEPTED, null)).contains("nobody can agree to a stop"));
    act(answer(stop, FindingEnd.FIXED, null));
    assertEquals(null, finding("left-in-tray", "splash guard bolts"));
    assertEquals(stop.id(), outcome().settled().get(0).answer().finding());
  }

  @Test
  void anAgreementEntersTheLogByHandAndStillDoesNotEndAStop() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Finding stop = standing("left-in-tray", "splash guard bolts");
    noted(
        "by-hand",
        new Statement.FindingAnswered(
            stop.id(), stop.says(), FindingEnd.ACCEPTED, "somebody", "whatever", null),
        Certainty.CONFIRMED);
    assertEquals(stop.says(), standing("left-in-tray", "splash guard bolts").says());
    assertEquals(
        List.of(false), outcome().answers().stream().map(Outcome.Answered::settles).toList());
  }

  @Test
  void anAnswerHoldsOnlyWhileTheFindingReadsAsItDid() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    act(answer(standing("left-in-tray", "splash guard bolts"), FindingEnd.FIXED, null));
    assertEquals(1, outcome().settled().size());

    told("one splash guard bolt off");
    Finding again = standing("left-in-tray", "splash guard bolts");
    assertTrue(again.says().contains("3 in the tray"), again.says());
    Outcome.Answered lapsed = outcome().answerTo(again);
    assertNotNull(lapsed);
    assertFalse(lapsed.holds());
  }

  @Test
  void theSameWrongOnceMoreIsNotAnsweredByAnAnswerGivenBefore() {
    told("outlet nuts off", "outlet nuts on");
    told("torqued the outlet nuts to twenty five newton metres");
    act(answer(standing("torque-outside", "outlet nuts"), FindingEnd.FIXED, null));
    assertEquals(null, finding("torque-outside", "outlet nuts"));
    told("engine stopped");
    assertEquals(null, finding("torque-outside", "outlet nuts"), "nothing more was told of it");

    told("torqued the outlet nuts to twenty five newton metres");
    Finding again = standing("torque-outside", "outlet nuts");
    assertEquals(outcome().answers().get(0).answer().read(), again.says());
    Outcome.Answered lapsed = outcome().answerTo(again);
    assertNotNull(lapsed);
    assertFalse(lapsed.holds());
    assertTrue(
        ReviewText.answer(lapsed).startsWith("no longer holds, as more was told of it since"),
        ReviewText.answer(lapsed));

    act(answer(again, FindingEnd.FIXED, null));
    assertEquals(null, finding("torque-outside", "outlet nuts"));
  }

  @Test
  void anAnswerToWhatWasReadBeforeItChangedIsRefused() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Finding read = standing("left-in-tray", "splash guard bolts");
    told("one splash guard bolt off");
    assertTrue(refused(answer(read, FindingEnd.FIXED, null)).contains("reads otherwise by now"));
  }

  @Test
  void anAnswerThatIsWithdrawnLetsTheFindingStandAgain() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Entry answer =
        act(answer(standing("left-in-tray", "splash guard bolts"), FindingEnd.FIXED, null))
            .noted()
            .get(0);
    assertEquals(null, finding("left-in-tray", "splash guard bolts"));
    act(new Act.Withdraw(answer.seq(), "it came loose again"));
    assertNotNull(finding("left-in-tray", "splash guard bolts"));
    assertEquals(List.of(), outcome().answers());
  }

  @Test
  void whatMustBeLookedAtAgainStandsUntilThen() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Verdict before = outcome().verdict();
    Finding stop = standing("left-in-tray", "splash guard bolts");
    assertTrue(refused(answer(stop, FindingEnd.LOOK_AGAIN, null)).contains("on which day"));
    assertTrue(
        refused(answer(stop, FindingEnd.LOOK_AGAIN, LocalDate.of(2026, 3, 1))).contains("is over"));
    act(answer(stop, FindingEnd.LOOK_AGAIN, LocalDate.of(2026, 3, 3)));
    assertEquals(before, outcome().verdict());
    assertNotNull(outcome().answerTo(standing("left-in-tray", "splash guard bolts")));
  }

  @Test
  void anAnswerEndsTheOneFindingAndNothingThatFollowsFromIt() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Finding step =
        outcome().findings().stream()
            .filter(
                each -> each.followers().stream().anyMatch(f -> f.kind().equals("left-in-tray")))
            .findFirst()
            .orElseThrow();
    act(answer(step, FindingEnd.FIXED, null));
    Finding bolts = standing("left-in-tray", "splash guard bolts");
    assertEquals(Weight.STOP, bolts.weight());
    act(answer(bolts, FindingEnd.FIXED, null));
    assertEquals(null, finding("left-in-tray", "splash guard bolts"));
    assertEquals(2, outcome().settled().size());
  }

  // ---- a job that was closed

  @Test
  void aClosedJobIsGoneBackToAndItsSealStaysGood() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Seal seal = JobDesk.closeJob(data(), JOB, setting());
    ReviewDesk.Done done =
        act(
            new Act.Change(
                seqOf("four splash guard bolts back on"),
                "six splash guard bolts back on",
                "heard it"));
    assertTrue(done.visit());
    assertEquals("[MACHINE 6]", placeOf("splash guard bolts"));
    assertFalse(act(new Act.Withdraw(seqOf("six splash guard bolts off"), "x")).visit());
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      Seal second = desk.close(log, JOB, new ReviewDesk.Reviewer("Mira Tolvan", "page", () -> now));
      assertEquals(List.of(seal, second), log.seals(JOB));
      assertTrue(log.verify().sound());
      assertTrue(seal.fits(log.hashOf(JOB, seal.seq()).orElse("")));
    }
  }

  @Test
  void aJobThatNeverWasClosedIsNotClosedHere() {
    told("six splash guard bolts off");
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      ReviewDesk.Reviewer mira = new ReviewDesk.Reviewer("Mira Tolvan", "page", () -> now);
      ReviewRefused refused = assertThrows(ReviewRefused.class, () -> desk.close(log, JOB, mira));
      assertTrue(String.valueOf(refused.getMessage()).contains("never was closed"));
      assertEquals(List.of(), log.seals(JOB));
    }
  }

  @Test
  void whatAnActHasChangedCanBeSeenLater() {
    told("six splash guard bolts off", "four splash guard bolts back on");
    Entry noted =
        act(new Act.Change(
                seqOf("four splash guard bolts back on"),
                "six splash guard bolts back on",
                "heard it"))
            .noted()
            .get(0);
    told("engine stopped");
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      List<ReviewText.Line> lines =
          ReviewText.lines(desk.review(log, JOB).changedBy(noted.seq()), plan.plan());
      assertTrue(
          lines.contains(
              new ReviewText.Line(
                  "splash guard bolts", "4 on the machine, 2 in the tray", "6 on the machine")),
          lines.toString());
    }
  }
}
