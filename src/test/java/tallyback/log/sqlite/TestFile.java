package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import org.sqlite.SQLiteConfig;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.LogReader;
import tallyback.log.VerifyReport;
import tallyback.model.Statement.Memo;

/** Data files for tests, and ways into them that the log doesn't offer. */
final class TestFile {

  /** How many entries {@link #withOneJob} notes. */
  static final int ENTRIES = 6;

  private TestFile() {}

  /**
   * A new file with the job "pump": its opening and memos "n2" to "n6", the even ones with sound.
   */
  static JobLog withOneJob(Path file) {
    JobLog log = SqliteLogs.openForWriting(file);
    log.openJob(Examples.draft("pump", "n1", Examples.opening(Examples.PLAN)));
    for (int i = 2; i <= ENTRIES; i++) {
      log.append(
          Examples.draft("pump", "n" + i, new Memo()), i % 2 == 0 ? Examples.clip(i, 5000) : null);
    }
    return log;
  }

  static VerifyReport verified(Path file) {
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      return reader.verify();
    }
  }

  static void assertSound(Path file) {
    assertEquals(List.of(), verified(file).problems());
  }

  /** Runs statements past the log, as another program would. */
  static void tamper(Path file, String... statements) throws SQLException {
    try (Database database = raw(file)) {
      for (String statement : statements) {
        database.execute(statement);
      }
    }
  }

  static Database raw(Path file) throws SQLException {
    return new Database(new SQLiteConfig().createConnection("jdbc:sqlite:" + file));
  }

  static void dropTriggers(Path file) throws SQLException {
    try (Database database = raw(file)) {
      for (String name :
          database.list(
              "SELECT name FROM sqlite_schema WHERE type = 'trigger'", r -> r.getString(1))) {
        database.execute("DROP TRIGGER " + name);
      }
    }
  }

  /** Puts the triggers back, so that only the damage itself is left to be found. */
  static void restoreTriggers(Path file) throws SQLException {
    for (String statement : LogSchema.STATEMENTS) {
      if (statement.startsWith("CREATE TRIGGER")) {
        tamper(file, statement);
      }
    }
  }

  /** The file with its side files as a process killed now would leave them. */
  static Path asIfKilled(Path file, Path folder) throws IOException {
    Files.createDirectories(folder);
    for (String ending : List.of("", "-wal", ".writer")) {
      Files.copy(
          file.resolveSibling(file.getFileName() + ending),
          folder.resolve(file.getFileName() + ending));
    }
    return folder.resolve(String.valueOf(file.getFileName()));
  }
}
