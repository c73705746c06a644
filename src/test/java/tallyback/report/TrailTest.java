package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.books.Books;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;

class TrailTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  @Test
  void anUndoStrikesItsTarget() {
    List<Entry> entries = entries(new Memo(), new Undone("e1"));
    assertEquals(List.of("withdrawn by no. 2"), Trail.of(entries).fate(entries.get(0)));
    assertTrue(Trail.of(entries).struck(entries.get(0)));
  }

  @Test
  void anUndoWithoutATargetStrikesTheEntryBefore() {
    List<Entry> entries = entries(new Memo(), new Memo(), new Undone(null));
    assertFalse(Trail.of(entries).struck(entries.get(0)));
    assertTrue(Trail.of(entries).struck(entries.get(1)));
  }

  @Test
  void anUndoneUndoLetsTheEntryStand() {
    List<Entry> entries = entries(new Memo(), new Undone("e1"), new Undone("e2"));
    assertFalse(Trail.of(entries).struck(entries.get(0)));
    assertEquals(List.of("withdrawn by no. 3"), Trail.of(entries).fate(entries.get(1)));
  }

  @Test
  void ofTwoCorrectionsTheLaterOneIsNamed() {
    List<Entry> entries =
        entries(new Memo(), new Corrected("e1", new Memo()), new Corrected("e1", new Memo()));
    assertEquals(List.of("corrected by no. 3"), Trail.of(entries).fate(entries.get(0)));
  }

  @Test
  void anotherTimeLeavesTheEntryStanding() {
    List<Entry> entries = entries(new Memo(), new Retimed("e1", NINE));
    assertEquals(List.of("time changed by no. 2"), Trail.of(entries).fate(entries.get(0)));
    assertFalse(Trail.of(entries).struck(entries.get(0)));
  }

  @Test
  void aCorrectionOfACorrectionChangesWhatWasFirstSaid() {
    List<Entry> entries =
        entries(new Memo(), new Corrected("e1", new Paused()), new Corrected("e2", new Resumed()));
    assertEquals(List.of("corrected by no. 3"), Trail.of(entries).fate(entries.get(0)));
  }

  @Test
  void agreesWithTheBooksOnWhatStands() {
    long seed = 20260307;
    System.out.println("TrailTest.agreesWithTheBooks seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 2000; round++) {
      List<Entry> entries = randomEdits(random);
      Trail trail = Trail.of(entries);
      Map<String, Entry> standing = new HashMap<>();
      Books.of(OrchardJob.plan(), entries)
          .standing()
          .forEach(each -> standing.put(each.entry().id(), each.entry()));
      for (Entry entry : entries) {
        if (!(entry.statement() instanceof Memo said)) {
          continue;
        }
        Entry now = standing.get(entry.id());
        boolean asSaid = now != null && now.statement() == said;
        assertEquals(asSaid, !trail.struck(entry), () -> entry + " in " + entries);
        if (now != null) {
          assertEquals(now.happenedAt(), trail.happenedAt(entry), () -> entry + " in " + entries);
        }
      }
    }
  }

  private static List<Entry> randomEdits(Random random) {
    List<Entry> entries = new ArrayList<>();
    int count = 2 + random.nextInt(10);
    for (int seq = 1; seq <= count; seq++) {
      String target = "e" + (1 + random.nextInt(seq));
      Statement statement =
          switch (random.nextInt(6)) {
            case 0 -> new Undone(random.nextBoolean() ? target : null);
            case 1 -> new Corrected(target, new Paused());
            case 2 -> new Retimed(target, NINE.plusSeconds(random.nextInt(1000)));
            default -> new Memo();
          };
      Certainty certainty = random.nextInt(4) == 0 ? Certainty.UNCONFIRMED : Certainty.CONFIRMED;
      entries.add(entry(seq, certainty, statement));
    }
    return entries;
  }

  @Test
  void anUnconfirmedUndoOnlyThrowsDoubt() {
    List<Entry> entries =
        List.of(
            entry(1, Certainty.CONFIRMED, new Memo()),
            entry(2, Certainty.UNCONFIRMED, new Undone("e1")));
    assertFalse(Trail.of(entries).struck(entries.get(0)));
    assertEquals(
        List.of("put in doubt by no. 2, which is unconfirmed"),
        Trail.of(entries).fate(entries.get(0)));
  }

  @Test
  void nothingToUndoStrikesNothing() {
    List<Entry> entries = entries(new Undone(null));
    assertFalse(Trail.of(entries).struck(entries.get(0)));
  }

  @Test
  void anIdThatIsNotThereIsSaidToBeMissing() {
    assertEquals("an entry that isn't in this log", Trail.of(List.of()).number("gone"));
  }

  private static List<Entry> entries(Statement... statements) {
    List<Entry> entries = new ArrayList<>();
    for (Statement statement : statements) {
      entries.add(entry(entries.size() + 1, Certainty.CONFIRMED, statement));
    }
    return entries;
  }

  private static Entry entry(int seq, Certainty certainty, Statement statement) {
    return new Entry(
        "e" + seq,
        "j",
        seq,
        NINE,
        NINE,
        ZoneId.of("UTC"),
        "vera",
        "bench",
        Source.TYPED,
        certainty,
        "words",
        null,
        statement);
  }
}
