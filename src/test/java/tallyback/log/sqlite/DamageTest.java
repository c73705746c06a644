package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.ClipAltered;
import tallyback.log.EntryJson;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.SoundClip;
import tallyback.log.VerifyReport;
import tallyback.model.Statement.Memo;

/**
 * Each damage is found and named, never read as if nothing were wrong; and where it can, noting
 * goes on.
 */
final class DamageTest {

  @TempDir Path folder;

  private Path file = Path.of("unset");

  @BeforeEach
  void makeFile() {
    file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
  }

  private List<String> problems() {
    return TestFile.verified(file).problems().stream().map(VerifyReport.Problem::toString).toList();
  }

  private void assertFound(String... expected) {
    assertEquals(List.of(expected), problems());
  }

  /** Tampers with the triggers out of the way, and puts them back. */
  private void tamper(String... statements) throws SQLException {
    TestFile.dropTriggers(file);
    TestFile.tamper(file, statements);
    TestFile.restoreTriggers(file);
  }

  private void assertReadingFails(String fragment) {
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      LogFailed failed = assertThrows(LogFailed.class, () -> reader.entries("pump"));
      assertTrue(String.valueOf(failed.getMessage()).contains(fragment), failed.getMessage());
      assertTrue(
          String.valueOf(failed.getMessage())
              .endsWith(
                  "; keep a copy of it as it is, run verify to see all that is wrong, and restore a backup"),
          failed.getMessage());
    }
  }

  @Test
  void wordsChangedWithTriggersDropped() throws SQLException {
    tamper("UPDATE entry SET words = 'something else' WHERE seq = 3");
    assertFound(
        "entry 3 of job pump: expected the hash of what it says, found another: it was altered after it was noted",
        "entry 3 of job pump: expected columns that say what its JSON says, found others in words");
    assertReadingFails("entry 3 of job pump is missing or altered");
  }

  @Test
  void jsonChangedWithTriggersDropped() throws SQLException {
    tamper("UPDATE entry SET json = replace(json, 'una', 'ivo'), actor = 'ivo' WHERE seq = 3");
    assertFound(
        "entry 3 of job pump: expected the hash of what it says, found another: it was altered after it was noted");
  }

  @Test
  void everyColumnIsUnderTheHash() throws SQLException {
    for (String column :
        List.of(
            "happened_at_ms = 1",
            "recorded_at_ms = 1",
            "zone = 'UTC'",
            "actor = 'x'",
            "device = 'x'",
            "source = 'typed'",
            "certainty = 'unconfirmed'",
            "words = 'x'",
            "kind = 'pause'",
            "json = '{}'",
            "id = 'x'",
            "clip = NULL",
            "previous = '" + "0".repeat(64) + "'")) {
      Path each = folder.resolve("each.db");
      TestFile.withOneJob(each).close();
      TestFile.dropTriggers(each);
      TestFile.tamper(each, "UPDATE entry SET " + column + " WHERE seq = 4");
      TestFile.restoreTriggers(each);
      assertTrue(
          TestFile.verified(each).problems().stream()
              .anyMatch(p -> p.expected().equals("the hash of what it says")),
          column);
      each.toFile().delete();
    }
  }

  @Test
  void rowDeletedInTheMiddle() throws SQLException {
    tamper("DELETE FROM entry WHERE seq = 3");
    assertFound("entry 4 of job pump: expected sequence number 3, found a gap before 4");
    assertReadingFails("entry 3 of job pump is missing or altered");
  }

  @Test
  void lastRowDeleted() throws SQLException {
    tamper("DELETE FROM entry WHERE seq = 6");
    assertFound(
        "job pump: expected 6 entries, found the last one is 5",
        "sound clip "
            + Examples.clip(6, 5000).hash()
            + ": expected an entry that names it, found none");
    assertReadingFails("entry 6 of job pump is missing or altered");
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      assertThrows(
          LogFailed.class, () -> log.append(Examples.draft("pump", "more", new Memo()), null));
    }
  }

  @Test
  void wholeJobDeleted() throws SQLException {
    tamper("DELETE FROM entry", "DELETE FROM clip");
    assertFound("job pump: expected 6 entries, found none");
  }

  @Test
  void endOfJobDeleted() throws SQLException {
    tamper("DELETE FROM job_end");
    assertFound("job pump: expected an end at entry 6, found none");
  }

  @Test
  void twoRowsSwapped() throws SQLException {
    tamper(
        "UPDATE entry SET seq = 100 WHERE seq = 3",
        "UPDATE entry SET seq = 3 WHERE seq = 4",
        "UPDATE entry SET seq = 4 WHERE seq = 100");
    assertTrue(problems().size() >= 4, problems().toString());
    assertReadingFails("entry 3 of job pump is missing or altered");
  }

  @Test
  void entryForgedWithAHashOfItsOwn() throws SQLException {
    EntryRow forged =
        EntryRow.of(Examples.draft("pump", "forged", new Memo()).noted(3, null), "f".repeat(64));
    TestFile.dropTriggers(file);
    try (Database database = TestFile.raw(file)) {
      database.execute("DELETE FROM entry WHERE seq = 3");
      try (var insert =
          database
              .connection()
              .prepareStatement(
                  "INSERT INTO entry ("
                      + EntryRow.COLUMNS
                      + ") VALUES ("
                      + "?, ".repeat(15)
                      + "?)")) {
        forged.bindTo(insert);
        insert.executeUpdate();
      }
    }
    TestFile.restoreTriggers(file);
    assertFound(
        "entry 3 of job pump: expected the hash of the entry before, found another: "
            + "f".repeat(64),
        "entry 4 of job pump: expected the hash of the entry before, found another: "
            + previousOf(4));
  }

  private String previousOf(long seq) throws SQLException {
    try (Database database = TestFile.raw(file)) {
      return database
          .first("SELECT previous FROM entry WHERE seq = ?", row -> row.getString(1), seq)
          .orElseThrow();
    }
  }

  @Test
  void clipAltered() throws SQLException {
    SoundClip clip = Examples.clip(2, 5000);
    tamper("UPDATE clip SET sound = zeroblob(5000) WHERE hash = '" + clip.hash() + "'");
    assertFound(
        "sound clip "
            + clip.hash()
            + ": expected bytes with that hash, found bytes with the hash "
            + new SoundClip(new byte[5000]).hash());
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      assertThrows(ClipAltered.class, () -> reader.clip(clip.hash()));
      assertEquals(TestFile.ENTRIES, reader.entries("pump").size());
    }
  }

  @Test
  void triggerDropped() throws SQLException {
    TestFile.tamper(file, "DROP TRIGGER entry_never_changed");
    assertFound(
        "the schema: expected entry_never_changed as this version makes it, found nothing",
        "the triggers: expected a refusal of an entry changed, found that it goes through",
        "the triggers: expected a refusal of an entry changed with OR REPLACE, found that it goes through");
  }

  @Test
  void triggerWeakened() throws SQLException {
    TestFile.tamper(
        file,
        "DROP TRIGGER entry_only_added",
        "CREATE TRIGGER entry_only_added BEFORE INSERT ON entry WHEN 0 BEGIN SELECT RAISE(ABORT, 'x'); END");
    List<String> found = problems();
    assertTrue(
        found.contains(
            "the triggers: expected a refusal of an entry replaced, found that it goes through"),
        found.toString());
    assertTrue(
        found.contains(
            "the triggers: expected a refusal of a number left out, found that it goes through"),
        found.toString());
  }

  @Test
  void foreignTableAndTriggerAdded() throws SQLException {
    TestFile.tamper(
        file,
        "CREATE TABLE other (a)",
        "CREATE TRIGGER other_trigger AFTER INSERT ON clip BEGIN DELETE FROM other; END");
    assertFound(
        "the schema: expected nothing else, found other: CREATE TABLE other (a)",
        "the schema: expected nothing else, found other_trigger: CREATE TRIGGER other_trigger AFTER"
            + " INSERT ON clip BEGIN DELETE FROM other; END");
  }

  @Test
  void foreignRowAdded() throws SQLException {
    tamper(
        "INSERT INTO entry ("
            + EntryRow.COLUMNS
            + ") VALUES ('ghost', 1, 'g', 0, 0, 'UTC', 'x', 'x',"
            + " 'typed', 'confirmed', '', 'memo', '{}', NULL, '"
            + "0".repeat(64)
            + "', '"
            + "1".repeat(64)
            + "')",
        "INSERT INTO clip (hash, sound) VALUES ('" + "2".repeat(64) + "', x'00')");
    List<String> found = problems();
    assertTrue(
        found.get(0).startsWith("entry 1 of job ghost: expected the hash of what it says"),
        found.toString());
    assertTrue(
        found
            .get(1)
            .startsWith(
                "entry 1 of job ghost: expected an entry's JSON, found entry: schema: expected"),
        found.toString());
    assertTrue(
        found.contains("job ghost: expected an end at entry 1, found none"), found.toString());
    assertTrue(
        found.contains(
            "sound clip " + "2".repeat(64) + ": expected an entry that names it, found none"),
        found.toString());
  }

  @Test
  void everyWayOfChangingRowsIsRefusedInTheFileItself() throws SQLException {
    String row =
        "SELECT job, seq, 'other', happened_at_ms, recorded_at_ms, zone, actor, device, source,"
            + " certainty, words, kind, json, clip, previous, hash FROM entry WHERE seq = 3";
    for (String pragma : List.of("OFF", "ON")) {
      for (String damage :
          List.of(
              "UPDATE entry SET words = 'x' WHERE seq = 3",
              "UPDATE OR REPLACE entry SET seq = 2 WHERE seq = 3",
              "DELETE FROM entry WHERE seq = 6",
              "DELETE FROM entry",
              "INSERT OR REPLACE INTO entry (" + EntryRow.COLUMNS + ") " + row,
              "REPLACE INTO entry ("
                  + EntryRow.COLUMNS
                  + ") "
                  + row.replace("'other'", "id").replace("job, seq", "job, 7"),
              "INSERT INTO entry ("
                  + EntryRow.COLUMNS
                  + ") "
                  + row.replace("WHERE seq", "WHERE 1 AND seq")
                  + " ON CONFLICT DO UPDATE SET words = 'x'",
              "UPDATE clip SET sound = x'00'",
              "INSERT OR REPLACE INTO clip (hash, sound) SELECT hash, x'00' FROM clip",
              "UPDATE job_end SET seq = 5",
              "DELETE FROM job_end")) {
        SQLException refused =
            assertThrows(
                SQLException.class,
                () -> TestFile.tamper(file, "PRAGMA recursive_triggers = " + pragma, damage),
                damage);
        assertTrue(
            String.valueOf(refused.getMessage()).contains("SQLITE_CONSTRAINT_TRIGGER"),
            damage + ": " + refused.getMessage());
      }
    }
    TestFile.assertSound(file);
  }

  @Test
  void flippedBytesAnywhereAreNeverReadAsIfNothingWereWrong() throws IOException, SQLException {
    flipBytes(0);
    // Without the index, which proves nothing: of what is left most bytes count.
    BulkFile.takeIndexOut(file);
    flipBytes(100);
  }

  private void flipBytes(int least) throws IOException {
    long seed = 99;
    Random random = new Random(seed);
    byte[] sound = Files.readAllBytes(file);
    List<String> before;
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      before = reader.entries("pump").stream().map(EntryJson::text).toList();
    }
    int found = 0;
    for (int round = 0; round < 150; round++) {
      byte[] damaged = sound.clone();
      int at = random.nextInt(damaged.length);
      damaged[at] ^= (byte) (1 << random.nextInt(8));
      Path each = folder.resolve("flipped.db");
      Files.write(each, damaged);
      found += damageShows(each, before, "byte " + at + ", seed " + seed) ? 1 : 0;
      DataFile.deleteWithSideFiles(each);
    }
    // What is left are bytes that hold nothing: free space in pages, counters of the header.
    assertTrue(found > least, found + " of 150 found, seed " + seed);
  }

  /** True when the damage was reported; otherwise all that is read must be as it was noted. */
  private static boolean damageShows(Path each, List<String> before, String context) {
    try (LogReader reader = SqliteLogs.openForReading(each)) {
      boolean reported = !reader.verify().sound();
      try {
        assertEquals(
            before, reader.entries("pump").stream().map(EntryJson::text).toList(), context);
      } catch (LogFailed | LogRefused e) {
        assertTrue(
            reported, context + ": reading fails and verify finds nothing: " + e.getMessage());
      }
      return reported;
    } catch (LogFailed | LogRefused e) {
      return true;
    }
  }

  @Test
  void fileTruncated() throws IOException {
    long whole = Files.size(file);
    for (long length : new long[] {whole - 1, whole / 2, 4096, 100, 17}) {
      Path each = folder.resolve("short" + length + ".db");
      Files.write(each, Arrays.copyOf(Files.readAllBytes(file), (int) length));
      String message;
      try (LogReader reader = SqliteLogs.openForReading(each)) {
        VerifyReport report = reader.verify();
        assertFalse(report.sound(), "cut to " + length);
        message = String.valueOf(report.problems().get(0));
      } catch (LogFailed | LogRefused e) {
        message = String.valueOf(e.getMessage());
      }
      assertFalse(message.contains("\n"), message);
    }
  }

  @Test
  void walMissingAfterAKill() throws IOException {
    Path killed;
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      log.append(Examples.draft("pump", "n7", new Memo()), null);
      killed = TestFile.asIfKilled(file, folder.resolve("killed"));
    }
    Files.delete(killed.resolveSibling("jobs.db-wal"));
    for (int attempt = 1; attempt <= 2; attempt++) {
      LogFailed failed = assertThrows(LogFailed.class, () -> SqliteLogs.openForWriting(killed));
      assertEquals(
          killed
              + ": entry 7 of job pump was noted here and is gone, as when jobs.db-wal was taken away"
              + " after a crash; put that file back, or delete jobs.db.writer to go on without what is lost",
          failed.getMessage());
    }
    assertEquals(
        List.of(
            "job pump: expected entry 7, which was acknowledged before the last writer ended, found that it is gone"),
        TestFile.verified(killed).problems().stream().map(String::valueOf).toList());
    Files.delete(killed.resolveSibling("jobs.db.writer"));
    try (JobLog log = SqliteLogs.openForWriting(killed)) {
      assertEquals(7, log.append(Examples.draft("pump", "n7", new Memo()), null).seq());
    }
    TestFile.assertSound(killed);
  }

  @Test
  void flippedByteInTheWalAfterAKill() throws IOException {
    Path killed;
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      log.append(Examples.draft("pump", "n7", new Memo()), null);
      log.append(Examples.draft("pump", "n8", new Memo()), null);
      killed = TestFile.asIfKilled(file, folder.resolve("killed"));
    }
    Path wal = killed.resolveSibling("jobs.db-wal");
    try (RandomAccessFile bytes = new RandomAccessFile(wal.toFile(), "rw")) {
      bytes.seek(bytes.length() / 2);
      int old = bytes.read();
      bytes.seek(bytes.length() / 2);
      bytes.write(old ^ 1);
    }
    assertThrows(LogFailed.class, () -> SqliteLogs.openForWriting(killed));
    assertFalse(TestFile.verified(killed).sound());
  }

  @Test
  void walWholeAfterAKillLosesNothingAndNotingGoesOn() throws IOException {
    Path killed;
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      log.append(Examples.draft("pump", "n7", new Memo()), Examples.clip(7, 20_000));
      killed = TestFile.asIfKilled(file, folder.resolve("killed"));
    }
    try (LogReader reader = SqliteLogs.openForReading(killed)) {
      assertEquals(7, reader.entries("pump").size());
    }
    try (JobLog log = SqliteLogs.openForWriting(killed)) {
      assertEquals(8, log.append(Examples.draft("pump", "n8", new Memo()), null).seq());
    }
    TestFile.assertSound(killed);
  }

  @Test
  void rubbishInTheWriterMarkKeepsNobodyOut() throws IOException {
    for (String text : List.of("", "rubbish", "pid=\njob=pump\nseq=many\nhash=", "\0\0\0=\0")) {
      Files.writeString(file.resolveSibling("jobs.db.writer"), text, StandardCharsets.UTF_8);
      SqliteLogs.openForWriting(file).close();
    }
    TestFile.assertSound(file);
  }
}
