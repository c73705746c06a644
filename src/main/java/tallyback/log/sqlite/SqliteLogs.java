package tallyback.log.sqlite;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Optional;
import tallyback.log.JobLog;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.Progress;

/**
 * Opens the log kept in a SQLite file. Stateless; safe for any thread. What it returns is closed by
 * whoever asked for it.
 *
 * <p>Beside the data file {@code NAME} lie, only while it is open or after a crash, {@code
 * NAME-wal} and {@code NAME-shm} (SQLite's; part of the data), and {@code NAME.writer} (who is
 * writing). The file must be on a disk of this machine.
 */
public final class SqliteLogs {

  private SqliteLogs() {}

  /**
   * Opens the log for its one writer; makes the file when there is none.
   *
   * @param file the data file; its folder must exist
   * @throws LogRefused if the file isn't ours or comes from a newer version; it is left untouched
   * @throws LogFailed if another writer has it open (saying who), it can't be written, or
   *     acknowledged entries are missing from it
   */
  public static JobLog openForWriting(Path file) {
    return openForWriting(file, DataFile.Tuning.NORMAL, Progress.UNTOLD);
  }

  /**
   * The same.
   *
   * @param progress told how far it is when a large file of an older version is made new
   */
  public static JobLog openForWriting(Path file, Progress progress) {
    return openForWriting(file, DataFile.Tuning.NORMAL, progress);
  }

  static JobLog openForWriting(Path file, DataFile.Tuning tuning) {
    return openForWriting(file, tuning, Progress.UNTOLD);
  }

  private static JobLog openForWriting(Path file, DataFile.Tuning tuning, Progress progress) {
    DataFile dataFile = new DataFile(file);
    if (dataFile.exists()) {
      dataFile.requireOurs();
    }
    WriterMark mark = WriterMark.take(dataFile.path());
    boolean ready = false;
    try {
      JobLog log = openMarked(dataFile, mark, tuning, progress);
      ready = true;
      return log;
    } catch (SQLException e) {
      throw SqliteFaults.of(dataFile.name(), "it can't be opened for writing", e);
    } catch (IOException e) {
      throw new LogFailed(
          dataFile.name()
              + ": can't be opened for writing ("
              + e.getMessage()
              + "); check the disk and its free space",
          e);
    } finally {
      if (!ready) {
        mark.abandon();
      }
    }
  }

  private static JobLog openMarked(
      DataFile dataFile, WriterMark mark, DataFile.Tuning tuning, Progress progress)
      throws SQLException, IOException {
    if (!dataFile.exists()) {
      dataFile.create(tuning);
    }
    Database database = dataFile.openForWriting(tuning, progress);
    boolean ready = false;
    try {
      refuseLosses(dataFile, database, mark);
      mark.sign();
      ready = true;
      return new SqliteJobLog(
          dataFile.name(), Optional.of(dataFile.path()), database, Optional.of(mark));
    } finally {
      if (!ready) {
        database.close();
      }
    }
  }

  private static void refuseLosses(DataFile dataFile, Database database, WriterMark mark)
      throws SQLException {
    Optional<WriterMark.Acknowledged> left = mark.leftBehind();
    if (left.isPresent() && !Verification.holds(database, left.get())) {
      throw new LogFailed(
          dataFile.name()
              + ": entry "
              + left.get().seq()
              + " of job "
              + left.get().job()
              + " was noted here and is gone, as when "
              + dataFile.path().getFileName()
              + "-wal was taken away after a crash; put that file back, or delete "
              + WriterMark.pathFor(dataFile.path()).getFileName()
              + " to go on without what is lost");
    }
  }

  /**
   * Makes a file of an older version new, or an index that is behind, and does nothing else: so
   * that whoever waits for it can be told.
   *
   * @param file the data file; when there is none, nothing happens
   * @param progress told how far it is
   * @throws LogRefused as {@link #openForWriting(Path)}
   * @throws LogFailed likewise
   */
  public static void bringUpToDate(Path file, Progress progress) {
    DataFile dataFile = new DataFile(file);
    if (!dataFile.exists()) {
      return;
    }
    dataFile.requireOurs();
    boolean current;
    try (Database database = dataFile.openForReading()) {
      current =
          database.number("PRAGMA user_version") == LogSchema.USER_VERSION
              && new JobIndex(database, database).isCurrentAndWhole();
    } catch (SQLException e) {
      throw SqliteFaults.of(dataFile.name(), "it can't be opened for reading", e);
    }
    if (!current) {
      openForWriting(file, progress).close();
    }
  }

  /**
   * Opens the log for looking only.
   *
   * @param file the data file
   * @throws LogRefused if there is no such file, it isn't ours, or it comes from a newer version;
   *     it is left untouched
   * @throws LogFailed if it can't be read
   */
  public static LogReader openForReading(Path file) {
    DataFile dataFile = new DataFile(file);
    if (!dataFile.exists()) {
      throw new LogRefused(
          file + ": there is no such data file; name another, or note something first");
    }
    dataFile.requireOurs();
    try {
      return new SqliteJobLog(
          dataFile.name(),
          Optional.of(dataFile.path()),
          dataFile.openForReading(),
          Optional.empty());
    } catch (SQLException e) {
      throw SqliteFaults.of(dataFile.name(), "it can't be opened for reading", e);
    }
  }

  /** A log in memory, gone when it is closed: for hearing without noting. */
  public static JobLog inMemory() {
    try {
      return new SqliteJobLog(
          "memory", Optional.empty(), DataFile.openInMemory(), Optional.empty());
    } catch (SQLException e) {
      throw SqliteFaults.of("memory", "the log can't be made", e);
    }
  }
}
