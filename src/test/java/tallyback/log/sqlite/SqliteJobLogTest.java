package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.JobLogContract;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.Progress;
import tallyback.model.Statement.Memo;

final class SqliteJobLogTest extends JobLogContract {

  @TempDir Path folder;

  private Path file() {
    return folder.resolve("jobs of 2026 #1 50%?.db");
  }

  @Override
  protected JobLog fresh() {
    return SqliteLogs.openForWriting(file());
  }

  @Override
  protected JobLog reopened(JobLog log) {
    log.close();
    return SqliteLogs.openForWriting(file());
  }

  @Test
  void aReaderSeesWhatTheWriterHasNotedSoFar() {
    try (JobLog writer = TestFile.withOneJob(folder.resolve("a.db"));
        LogReader reader = SqliteLogs.openForReading(folder.resolve("a.db"))) {
      int before = reader.entries("pump").size();
      writer.append(Examples.draft("pump", "more", new Memo()), null);
      assertEquals(before + 1, reader.entries("pump").size());
      assertTrue(reader.verify().sound());
    }
  }

  @Test
  void readersOpenedAndClosedInTheWritersProcessDontLoseItsLock() {
    Path file = folder.resolve("a.db");
    try (JobLog writer = TestFile.withOneJob(file)) {
      for (int i = 0; i < 3; i++) {
        try (LogReader reader = SqliteLogs.openForReading(file)) {
          assertTrue(reader.verify().sound());
        }
      }
      ChildProcess other = ChildProcess.start("open", file);
      assertTrue(other.finish().contains("is writing it"), other.toString());
      writer.append(Examples.draft("pump", "after", new Memo()), null);
    }
    TestFile.assertSound(file);
  }

  /** Whoever closes a log moves what was noted last into the file, page by page. */
  @Test
  void whoeverReadsWhileAWriterOpensAndClosesSeesNoDamage() throws InterruptedException {
    Path file = folder.resolve("a.db");
    TestFile.withOneJob(file).close();
    AtomicBoolean over = new AtomicBoolean();
    AtomicReference<RuntimeException> failed = new AtomicReference<>();
    Thread reading =
        new Thread(
            () -> {
              while (!over.get() && failed.get() == null) {
                try (LogReader reader = SqliteLogs.openForReading(file)) {
                  reader.jobs();
                } catch (RuntimeException e) {
                  failed.set(e);
                }
              }
            });
    reading.start();
    for (int i = 0; i < 25 && failed.get() == null; i++) {
      try (JobLog writer = SqliteLogs.openForWriting(file)) {
        for (int j = 0; j < 6; j++) {
          writer.append(
              Examples.draft("pump", "m" + i + "-" + j, new Memo()),
              Examples.clip(100 * i + j, 40_000));
        }
      }
    }
    over.set(true);
    reading.join();
    if (failed.get() != null) {
      throw failed.get();
    }
    TestFile.assertSound(file);
  }

  /** A kill can't show what a power cut would; so the settings that survive one are held here. */
  @Test
  void everyCommitIsFlushedToDisk() throws SQLException {
    Path file = folder.resolve("a.db");
    TestFile.withOneJob(file).close();
    try (Database database =
        new DataFile(file).openForWriting(DataFile.Tuning.NORMAL, Progress.UNTOLD)) {
      assertEquals(2, database.number("PRAGMA synchronous"), "FULL");
      assertEquals(1, database.number("PRAGMA fullfsync"));
      assertEquals(
          "wal", database.first("PRAGMA journal_mode", row -> row.getString(1)).orElseThrow());
    }
  }

  @Test
  void aClosedLogIsOneFile() throws IOException {
    Path file = folder.resolve("a.db");
    TestFile.withOneJob(file).close();
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      assertEquals(TestFile.ENTRIES, reader.entries("pump").size());
    }
    try (var all = Files.list(folder)) {
      List<String> names =
          all.map(each -> String.valueOf(each.getFileName()))
              .filter(n -> n.startsWith("a."))
              .toList();
      assertEquals(List.of("a.db"), names);
    }
  }

  @Test
  void aJobThatWasCalledOtherwiseThanIsAllowedNowIsGoneOnWith() throws SQLException {
    Path file = folder.resolve("a.db");
    var opening = Examples.draft("..", "n1", Examples.opening(Examples.PLAN));
    BulkFile.write(file, List.of(List.of(opening)).iterator());
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      assertEquals(1, log.openJob(opening).seq());
      assertEquals(2, log.append(Examples.draft("..", "n2", new Memo()), null).seq());
    }
    TestFile.assertSound(file);
  }

  @Test
  void aBackupHoldsTheSameWhileTheLogIsInUse() {
    Path file = folder.resolve("a.db");
    Path copy = folder.resolve("copy.db");
    try (JobLog writer = TestFile.withOneJob(file)) {
      writer.backup(copy);
      try (LogReader reader = SqliteLogs.openForReading(copy)) {
        assertEquals(writer.entries("pump"), reader.entries("pump"));
        assertEquals(writer.verify(), reader.verify());
      }
      LogRefused refused = assertThrows(LogRefused.class, () -> writer.backup(copy));
      assertEquals(
          copy + ": is there already; name a file that doesn't exist yet", refused.getMessage());
    }
    assertFalse(Files.exists(folder.resolve("copy.db.new")));
    try (JobLog restored = SqliteLogs.openForWriting(copy)) {
      restored.append(Examples.draft("pump", "more", new Memo()), null);
    }
    TestFile.assertSound(copy);
  }
}
