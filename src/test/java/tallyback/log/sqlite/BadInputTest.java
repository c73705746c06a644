package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.model.Entry;
import tallyback.model.Statement.Memo;

/**
 * Files that aren't ours, and machines that fail: one line each, and nothing lost or left behind.
 */
final class BadInputTest {

  @TempDir Path folder;

  private static String refusal(Runnable act) {
    return oneLine(assertThrows(LogRefused.class, act::run));
  }

  private static String failure(Runnable act) {
    return oneLine(assertThrows(LogFailed.class, act::run));
  }

  private static String oneLine(RuntimeException e) {
    String message = String.valueOf(e.getMessage());
    assertFalse(message.contains("\n"), message);
    return message;
  }

  private List<String> names() throws IOException {
    try (var all = Files.list(folder)) {
      return all.map(each -> String.valueOf(each.getFileName())).sorted().toList();
    }
  }

  private static void assertRefusedUntouched(Path file, String expected) throws IOException {
    byte[] before = Files.readAllBytes(file);
    assertEquals(expected, refusal(() -> SqliteLogs.openForReading(file)));
    assertEquals(expected, refusal(() -> SqliteLogs.openForWriting(file)));
    assertArrayEquals(before, Files.readAllBytes(file));
  }

  @Test
  void noSuchFileWhenReading() throws IOException {
    Path file = folder.resolve("none.db");
    assertEquals(
        file + ": there is no such data file; name another, or note something first",
        refusal(() -> SqliteLogs.openForReading(file)));
    assertEquals(List.of(), names());
  }

  @Test
  void noSuchFolder() {
    Path file = folder.resolve("shed").resolve("jobs.db");
    assertEquals(
        file
            + ": there is no folder "
            + folder.resolve("shed")
            + "; make it first, or name another file",
        refusal(() -> SqliteLogs.openForWriting(file)));
  }

  @Test
  void aFolderInsteadOfAFile() {
    assertEquals(
        folder + ": is a folder; name a file", refusal(() -> SqliteLogs.openForWriting(folder)));
  }

  @Test
  void anEmptyFile() throws IOException {
    Path file = Files.createFile(folder.resolve("empty.db"));
    assertRefusedUntouched(
        file,
        file
            + ": expected a Tallyback data file, found an empty file (0 bytes); it was left as it is;"
            + " name another file, or one that doesn't exist yet to start afresh");
    assertEquals(List.of("empty.db"), names());
  }

  @Test
  void aTextFile() throws IOException {
    Path file = Files.writeString(folder.resolve("notes.txt"), "bolts: six\n".repeat(1000));
    assertRefusedUntouched(
        file,
        file
            + ": expected a Tallyback data file, found something else; it was left as it is;"
            + " name another file, or one that doesn't exist yet to start afresh");
    assertEquals(List.of("notes.txt"), names());
  }

  @Test
  void theSqliteFileOfAnotherProgram() throws IOException, SQLException {
    Path file = folder.resolve("other.db");
    TestFile.tamper(
        file,
        "PRAGMA journal_mode = WAL",
        "CREATE TABLE shelf (a)",
        "INSERT INTO shelf VALUES (1)");
    assertRefusedUntouched(
        file,
        file
            + ": expected a Tallyback data file, found the SQLite file of another program; it was left"
            + " as it is; name another file, or one that doesn't exist yet to start afresh");
    assertEquals(List.of("other.db"), names());
  }

  @Test
  void aFileOfANewerVersion() throws IOException, SQLException {
    Path file = folder.resolve("newer.db");
    TestFile.withOneJob(file).close();
    TestFile.tamper(file, "PRAGMA user_version = 4");
    assertRefusedUntouched(
        file,
        file
            + ": written by a newer version of Tallyback (data schema 4, this version reads up to 3);"
            + " use the newer version");
  }

  @Test
  void lockedByAnotherProcessSaysWhichAndAKilledOneKeepsNobodyOut() {
    Path file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    ChildProcess child = ChildProcess.start("hold", file);
    child.await("open");
    String message = failure(() -> SqliteLogs.openForWriting(file));
    assertTrue(
        message.matches(
            Pattern.quote(file + ": locked: process " + child.pid() + " on ")
                + "\\S.*, since \\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\dZ, is writing it; close that first"),
        message);
    TestFile.assertSound(file);
    child.kill();
    child.finish();
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      log.append(Examples.draft("pump", "more", new Memo()), null);
    }
    TestFile.assertSound(file);
  }

  @Test
  void lockedByThisProcessItself() {
    Path file = folder.resolve("jobs.db");
    try (JobLog log = TestFile.withOneJob(file)) {
      String message = failure(() -> SqliteLogs.openForWriting(file));
      assertTrue(message.contains(": locked: this same process (number "), message);
      log.append(Examples.draft("pump", "more", new Memo()), null);
    }
    TestFile.assertSound(file);
  }

  @Test
  void lockedByAProgramOfAnotherKind() throws SQLException {
    Path file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    DataFile.Tuning hasty = new DataFile.Tuning(100, 0, "FULL");
    try (JobLog log = SqliteLogs.openForWriting(file, hasty);
        Database other = TestFile.raw(file)) {
      other.execute("BEGIN IMMEDIATE");
      String message = failure(() -> log.append(Examples.draft("pump", "more", new Memo()), null));
      assertTrue(
          message.startsWith(
              file + ": the entry was not noted: another program has the file locked"),
          message);
      other.execute("ROLLBACK");
      assertEquals(7, log.append(Examples.draft("pump", "more", new Memo()), null).seq());
    }
  }

  @Test
  void aReadOnlyFileCanBeReadAndNotWritten() throws IOException {
    Path file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    ChildProcess.makeReadOnly(file);
    String message = ChildProcess.startBoundByRights("open", file).finish();
    assertEquals(
        "failed "
            + file
            + ": it can't be opened for writing: the file or its folder is read-only;"
            + " make both writable, or use another file",
        message);
    ChildProcess reader = ChildProcess.startBoundByRights("read", file);
    assertEquals("done", reader.finish(), reader.toString());
    assertEquals(List.of("6 entries, problems []", "done"), reader.lines());
  }

  @Test
  void aReadOnlyFolderCanBeReadAndNotWritten() throws IOException {
    Path inner = Files.createDirectory(folder.resolve("inner"));
    Path file = inner.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    ChildProcess.makeReadOnly(inner);
    try {
      String old = ChildProcess.startBoundByRights("open", file).finish();
      assertTrue(
          old.startsWith(
              "failed " + file + ": can't be written: " + file + ".writer can't be made beside it"),
          old);
      assertTrue(old.endsWith("; make the folder writable, or use another file"), old);
      Path fresh = inner.resolve("fresh.db");
      String none = ChildProcess.startBoundByRights("open", fresh).finish();
      assertTrue(none.startsWith("failed " + fresh + ": can't be written: "), none);
      ChildProcess reader = ChildProcess.startBoundByRights("read", file);
      reader.finish();
      assertEquals(List.of("6 entries, problems []", "done"), reader.lines());
      try (var all = Files.list(inner)) {
        assertEquals(List.of(file), all.toList());
      }
    } finally {
      Files.setPosixFilePermissions(inner, PosixFilePermissions.fromString("rwxr-xr-x"));
    }
  }

  @Test
  void aFullDiskLosesNothingAcknowledgedAndNotingGoesOnWithSpace() {
    Path file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    List<Entry> acknowledged = new ArrayList<>();
    String message = "";
    try (JobLog log = SqliteLogs.openForWriting(file, new DataFile.Tuning(100, 60, "FULL"))) {
      while (message.isEmpty() && acknowledged.size() < 500) {
        String id = "full-" + acknowledged.size();
        try {
          acknowledged.add(
              log.append(
                  Examples.draft("pump", id, new Memo()),
                  Examples.clip(acknowledged.size() + 100, 9000)));
        } catch (LogFailed e) {
          message = oneLine(e);
        }
      }
      assertEquals(TestFile.ENTRIES + acknowledged.size(), log.entries("pump").size());
      assertTrue(log.verify().sound());
    }
    assertEquals(
        file
            + ": the entry was not noted: the disk is full; what was noted before is safe; free some space and try again",
        message);
    assertFalse(acknowledged.isEmpty());
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      assertEquals(
          acknowledged,
          log.entries("pump").subList(TestFile.ENTRIES, TestFile.ENTRIES + acknowledged.size()));
      log.append(Examples.draft("pump", "full-" + acknowledged.size(), new Memo()), null);
    }
    TestFile.assertSound(file);
  }

  @Test
  void aFileThatMayNotGrowLosesNothingAcknowledged() {
    Path file = folder.resolve("jobs.db");
    ChildProcess child = ChildProcess.startWithFileLimit(300, "note", file, "1", "100000");
    String last = child.finish();
    assertTrue(last.startsWith("failed " + file + ": the entry was not noted: "), last);
    List<String> noted =
        child.lines().stream()
            .filter(l -> l.startsWith("noted "))
            .map(l -> l.split(" ", -1)[1])
            .toList();
    assertTrue(noted.size() > 3, child.toString());
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      assertEquals(List.of(), reader.verify().problems());
      List<String> ids = reader.entries("pump").stream().map(Entry::id).skip(1).toList();
      assertEquals(noted, ids.subList(0, noted.size()));
      assertTrue(ids.size() <= noted.size() + 1, ids.size() + " of " + noted.size());
    }
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      log.append(NotingProcess.draft(noted.size() + 1_000_000), null);
    }
    TestFile.assertSound(file);
  }

  @Test
  void aFileThatCantBeMadeLeavesNoDebris() throws IOException {
    Path file = folder.resolve("jobs.db");
    String last = ChildProcess.startWithFileLimit(8, "open", file).finish();
    assertTrue(last.startsWith("failed " + file + ": the file was not made: "), last);
    assertEquals(List.of(), names());
    TestFile.withOneJob(file).close();
    TestFile.assertSound(file);
  }

  @Test
  void aBackupThatCantBeWrittenLeavesNoDebris() throws IOException {
    Path file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      Path nowhere = folder.resolve("none").resolve("copy.db");
      assertTrue(refusal(() -> log.backup(nowhere)).startsWith(nowhere + ": there is no folder "));
    }
    assertEquals(List.of("jobs.db"), names());
  }

  @Test
  void aDamagedLogIsNotBackedUpAsIfItWereSound() throws IOException, SQLException {
    Path file = folder.resolve("jobs.db");
    TestFile.withOneJob(file).close();
    TestFile.tamper(file, "DROP TRIGGER entry_never_changed");
    try (LogReader log = SqliteLogs.openForReading(file)) {
      String message = failure(() -> log.backup(folder.resolve("copy.db")));
      assertTrue(
          message.contains(": the backup was not made, the log itself is damaged: the schema: "),
          message);
    }
    assertEquals(List.of("jobs.db"), names());
  }

  @Test
  void theNativePartMissing() {
    Path file = folder.resolve("jobs.db");
    String last =
        ChildProcess.startWith("-Dorg.sqlite.tmpdir=" + folder.resolve("none"), "open", file)
            .finish();
    assertTrue(
        last.startsWith("failed " + file + ": SQLite's native part can't be loaded on "), last);
    assertTrue(last.endsWith("; name a writable folder with -Dorg.sqlite.tmpdir=FOLDER"), last);
  }
}
