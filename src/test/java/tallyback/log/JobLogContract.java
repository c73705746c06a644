package tallyback.log;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.Statement;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.VisitBegun;

/** What every adapter of {@link JobLog} must do. */
public abstract class JobLogContract {

  /** A new, empty log. */
  protected abstract JobLog fresh();

  /** The same log again, closed and opened where the adapter keeps it beyond that. */
  protected abstract JobLog reopened(JobLog log);

  private @Nullable JobLog opened;

  @BeforeEach
  void start() {
    opened = fresh();
  }

  @AfterEach
  void end() {
    if (opened != null) {
      opened.close();
    }
  }

  private JobLog log() {
    if (opened == null) {
      throw new AssertionError("not started");
    }
    return opened;
  }

  private void reopen() {
    opened = reopened(log());
  }

  private Entry open(String job) {
    return log().openJob(Examples.draft(job, job + "-open", Examples.opening(Examples.PLAN)));
  }

  private Entry note(String job, String id, Statement statement) {
    return log().append(Examples.draft(job, id, statement), null);
  }

  private static String message(Runnable act) {
    return String.valueOf(assertThrows(LogRefused.class, act::run).getMessage());
  }

  @Test
  void anEmptyLogHoldsNothingAndIsSound() {
    assertEquals(List.of(), log().jobs());
    VerifyReport report = log().verify();
    assertTrue(report.sound(), report.toString());
    assertEquals(0, report.entryCount());
    assertEquals(
        "this log holds no job yet; note something first to open one",
        message(() -> log().choose(null)));
  }

  @Test
  void everyKindComesBackAsItWasNoted() {
    List<Entry> noted = new ArrayList<>();
    noted.add(open("pump"));
    for (Statement statement : Examples.statements()) {
      if (!(statement instanceof Statement.JobOpened)) {
        noted.add(note("pump", "id-" + noted.size(), statement));
      }
    }
    assertEquals(noted, log().entries("pump"));
    reopen();
    assertEquals(noted, log().entries("pump"));
    assertTrue(log().verify().sound(), log().verify().toString());
  }

  @Test
  void eachJobCountsItsEntriesFromOne() {
    open("pump");
    open("belt");
    note("pump", "a", new Memo());
    note("belt", "b", new Memo());
    note("pump", "c", new Memo());
    assertEquals(List.of(1L, 2L, 3L), log().entries("pump").stream().map(Entry::seq).toList());
    assertEquals(List.of(1L, 2L), log().entries("belt").stream().map(Entry::seq).toList());
  }

  @Test
  void theFrozenPlanComesBack() {
    open("pump");
    reopen();
    assertEquals(Optional.of(Examples.PLAN), log().planText("pump"));
    assertEquals(Examples.hash(Examples.PLAN), log().choose("pump").planHash());
  }

  @Test
  void aJobWithoutPlanHasNoPlanText() {
    log().openJob(Examples.draft("pump", "o", Examples.opening("")));
    assertEquals(Optional.empty(), log().planText("pump"));
  }

  @Test
  void openingAgainWithTheSamePlanCarriesOn() {
    Entry first = open("pump");
    note("pump", "a", new Memo());
    reopen();
    Draft again = Examples.draft("pump", "another-id", Examples.opening(Examples.PLAN));
    assertEquals(first, log().openJob(again));
    assertEquals(2, log().entries("pump").size());
  }

  @Test
  void aNewJobsNameCanBeSeenAndStandInAnAddress() {
    for (String name : List.of(".", "..", " ", "\u00a0\u2003", " pump", "pump ", "\u200bpump")) {
      String message = message(() -> open(name));
      assertTrue(message.endsWith("; give it another name"), message);
    }
    assertEquals(List.of(), log().jobs());
    for (String name : List.of("a/b", "...", "Traktor \u00c4 7", "\u6c34\u6cf5")) {
      assertEquals(name, open(name).job());
    }
  }

  @Test
  void anotherPlanForTheJobIsRefused() {
    open("pump");
    String message =
        message(
            () -> log().openJob(Examples.draft("pump", "b", Examples.opening("other: plan\n"))));
    assertTrue(
        message.startsWith("job pump: expected the plan it was opened with (coolant pump, hash "),
        message);
    assertTrue(
        message.endsWith(
            "; use that plan, or name the job that is meant ('jobs' lists them), or a new one"),
        message);
    assertEquals(1, log().entries("pump").size());
  }

  @Test
  void aPlanHashThatIsNotItsTextsIsRefused() {
    var wrong = new Statement.JobOpened("coolant pump", Examples.hash("x"), Examples.PLAN);
    assertTrue(
        message(() -> log().openJob(Examples.draft("pump", "a", wrong)))
            .contains("read the plan anew"));
    assertEquals(List.of(), log().jobs());
  }

  @Test
  void aJobIsOpenedOnlyByOpeningIt() {
    message(() -> note("pump", "a", Examples.opening(Examples.PLAN)));
    message(() -> log().openJob(Examples.draft("pump", "a", new Memo())));
    assertEquals(List.of(), log().jobs());
  }

  @Test
  void theSameIdAgainNotesNothingTwice() {
    open("pump");
    Draft draft = Examples.draft("pump", "a", new Memo());
    Entry first = log().append(draft, Examples.clip(1, 500));
    note("pump", "b", new Memo());
    reopen();
    Draft later =
        new Draft(
            draft.id(),
            draft.job(),
            draft.happenedAt(),
            draft.recordedAt().plus(Duration.ofMinutes(5)),
            draft.zone(),
            draft.actor(),
            draft.device(),
            draft.source(),
            draft.certainty(),
            draft.words(),
            draft.statement(),
            new HowHeard(List.of("heard otherwise"), List.of()));
    assertEquals(first, log().append(later, Examples.clip(1, 500)));
    assertEquals(3, log().entries("pump").size());
  }

  @Test
  void theSameIdWithOtherContentIsRefused() {
    open("pump");
    open("belt");
    note("pump", "a", new Memo());
    String message = message(() -> note("pump", "a", new Paused()));
    assertEquals(
        "id a: something else is noted under it already, entry 2 of job pump;"
            + " give each entry an id of its own",
        message);
    message(() -> note("belt", "a", new Memo()));
    message(() -> log().append(Examples.draft("pump", "a", new Memo()), Examples.clip(1, 10)));
    message(() -> note("pump", "pump-open", new Memo()));
    message(() -> log().openJob(Examples.draft("new", "a", Examples.opening(Examples.PLAN))));
    assertEquals(2, log().entries("pump").size());
    assertEquals(1, log().entries("belt").size());
    assertEquals(2, log().jobs().size());
  }

  @Test
  void anUnknownJobIsRefusedNamingThoseThereAre() {
    assertEquals(
        "no job \"pump\" in this data file; it holds none yet",
        message(() -> note("pump", "a", new Memo())));
    open("belt");
    String expected = "no job \"pump\" in this data file; it holds: belt";
    assertEquals(expected, message(() -> note("pump", "a", new Memo())));
    assertEquals(expected, message(() -> log().entries("pump")));
    assertEquals(expected, message(() -> log().planText("pump")));
    assertEquals(expected, message(() -> log().choose("pump")));
  }

  @Test
  void aClosedJobTakesNothingMore() {
    open("pump");
    Entry closing = note("pump", "z", new JobClosed());
    String expected =
        "job pump: is closed, nothing more is noted in it; begin a visit to it, or start another job"
            + " under a new name";
    assertEquals(expected, message(() -> note("pump", "a", new Memo())));
    assertEquals(expected, message(() -> open("pump")));
    assertTrue(log().choose("pump").closed());
    assertEquals(closing, note("pump", "z", new JobClosed()), "a retry of the closing itself");
    assertEquals(2, log().entries("pump").size());
  }

  @Test
  void aVisitGoesOnWithAClosedJobAndLeavesItsSealGood() {
    open("pump");
    assertEquals(
        "job pump: is open, so that no visit begins in it; note as usual, or close it first",
        message(() -> note("pump", "v", new VisitBegun("too early"))));
    note("pump", "a", new Memo());
    note("pump", "z", new JobClosed());
    Seal seal = log().seals("pump").get(0);
    assertEquals(3, seal.seq());

    note("pump", "v", new VisitBegun("outlet nuts again"));
    assertFalse(log().choose("pump").closed());
    note("pump", "b", new Memo());
    note("pump", "y", new JobClosed());

    assertEquals(List.of(3L, 6L), log().seals("pump").stream().map(Seal::seq).toList());
    assertTrue(seal.fits(log().hashOf("pump", 3).orElseThrow()));
    assertFalse(seal.fits(log().hashOf("pump", 6).orElseThrow()));
    assertEquals(Optional.empty(), log().hashOf("pump", 7));
    assertEquals(seal, Seal.read("seal " + seal));
    assertEquals(List.of(), log().verify().problems());
  }

  @Test
  void whatOnlyAnswersIsRefused() {
    open("pump");
    String message =
        message(() -> Examples.draft("pump", "a", new Statement.Answer(true, null, null)));
    assertTrue(message.contains("expected something that can be noted, found Answer"), message);
  }

  @Test
  void allFaultsOfADraftAreNamedAtOnce() {
    String message = message(() -> Examples.draft("", "two\nlines", new Memo()));
    assertEquals(
        "this can't be noted: id: expected one line of text, found a line break or control"
            + " character; job: expected 1 to 100 characters, found 0",
        message);
  }

  @Test
  void timesAreKeptToTheMillisecond() {
    open("pump");
    Instant fine = Instant.parse("2026-03-02T08:15:00.123456789Z");
    Entry noted = note("pump", "a", new Retimed("pump-open", fine));
    assertEquals(
        new Retimed("pump-open", Instant.parse("2026-03-02T08:15:00.123Z")), noted.statement());
    assertEquals(List.of(noted), log().entries("pump").subList(1, 2));
    assertEquals(noted, note("pump", "a", new Retimed("pump-open", fine)), "a retry");
  }

  @Test
  void soundLiesWithItsEntryAndTwoEntriesMayShareIt() {
    open("pump");
    SoundClip clip = Examples.clip(1, 64_000);
    Entry first = log().append(Examples.draft("pump", "a", new Memo()), clip);
    Entry second = log().append(Examples.draft("pump", "b", new Paused()), clip);
    assertEquals(clip.hash(), first.clip());
    assertEquals(clip.hash(), second.clip());
    reopen();
    assertArrayEquals(clip.bytes(), log().clip(clip.hash()).orElseThrow());
    assertEquals(1, log().verify().clipCount());
  }

  @Test
  void removedSoundLeavesItsEntriesAndANotice() {
    open("pump");
    SoundClip clip = Examples.clip(1, 1000);
    Entry entry = log().append(Examples.draft("pump", "a", new Memo()), clip);
    assertTrue(log().removeClip(clip.hash()));
    assertFalse(log().removeClip(clip.hash()));
    assertEquals(Optional.empty(), log().clip(clip.hash()));
    assertEquals(entry, log().entries("pump").get(1));
    VerifyReport report = log().verify();
    assertTrue(report.sound(), report.toString());
    assertEquals(
        List.of("sound clip " + clip.hash() + ": removed; its entries are still there"),
        report.notices());
  }

  @Test
  void aJobIsListedWithItsEnd() {
    Entry opening = open("pump");
    JobSummary before = log().choose(null);
    note("pump", "a", new Memo());
    JobSummary after = log().choose(null);
    assertEquals(opening.happenedAt(), after.openedAt());
    assertEquals("coolant pump", after.planName());
    assertEquals(2, after.entryCount());
    assertEquals(2, after.lastSeq());
    assertFalse(after.closed());
    assertNotEquals(before.lastHash(), after.lastHash());
    reopen();
    assertEquals(List.of(after), log().jobs());
  }

  private void open(String job, String at) {
    Draft draft = Examples.draft(job, job + "-open", Examples.opening(Examples.PLAN));
    log()
        .openJob(
            new Draft(
                draft.id(),
                job,
                Instant.parse(at),
                draft.recordedAt(),
                draft.zone(),
                draft.actor(),
                draft.device(),
                draft.source(),
                draft.certainty(),
                draft.words(),
                draft.statement()));
  }

  @Test
  void theJobMeantIsTheNamedOneElseTheOnlyOpenOneElseTheNewest() {
    open("middle", "2026-02-01T08:00:00Z");
    open("newest", "2026-03-01T08:00:00Z");
    open("oldest", "2026-01-01T08:00:00Z");
    assertEquals("oldest", log().choose("oldest").id());
    assertEquals("newest", log().choose(null).id(), "three open");
    note("newest", "x", new JobClosed());
    assertEquals("newest", log().choose(null).id(), "two open");
    note("oldest", "y", new JobClosed());
    assertEquals("middle", log().choose(null).id(), "one open");
    note("middle", "z", new JobClosed());
    assertEquals("newest", log().choose(null).id(), "none open");
    assertEquals(
        List.of("oldest", "middle", "newest"), log().jobs().stream().map(JobSummary::id).toList());
  }

  @Test
  void severalThreadsTakeTurns() throws Exception {
    open("pump");
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try {
      List<Callable<Entry>> notes = new ArrayList<>();
      for (int i = 0; i < 40; i++) {
        String id = "t" + i;
        notes.add(() -> note("pump", id, new Memo()));
      }
      for (var done : threads.invokeAll(notes)) {
        done.get();
      }
    } finally {
      threads.shutdown();
    }
    assertEquals(
        LongStream.rangeClosed(1, 41).boxed().toList(),
        log().entries("pump").stream().map(Entry::seq).toList());
    assertTrue(log().verify().sound(), log().verify().toString());
  }

  @Test
  void aClosedLogIsNotUsed() {
    log().close();
    log().close();
    assertThrows(IllegalStateException.class, () -> log().jobs());
    assertThrows(IllegalStateException.class, () -> note("pump", "a", new Memo()));
  }
}
