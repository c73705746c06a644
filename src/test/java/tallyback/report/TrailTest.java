package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.Memo;
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
      int seq = entries.size() + 1;
      entries.add(
          new Entry(
              "e" + seq,
              "j",
              seq,
              NINE,
              NINE,
              ZoneId.of("UTC"),
              "vera",
              "bench",
              Source.TYPED,
              Certainty.CONFIRMED,
              "words",
              null,
              statement));
    }
    return entries;
  }
}
