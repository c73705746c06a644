package tallyback.log.sqlite;

import java.sql.SQLException;
import java.util.Locale;
import org.sqlite.SQLiteErrorCode;
import tallyback.log.ClipAltered;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;

/**
 * Turns the database's errors into one line with its cause and remedy. The numbers are SQLite's
 * primary result codes.
 */
final class SqliteFaults {

  /** The low byte of an extended result code is the primary one. */
  private static final int PRIMARY = 0xff;

  private SqliteFaults() {}

  static boolean is(SQLException e, SQLiteErrorCode primary) {
    return (e.getErrorCode() & PRIMARY) == primary.code;
  }

  /**
   * The failure to throw.
   *
   * @param file the data file as the user knows it
   * @param act what failed, such as "the entry was not noted"
   */
  static RuntimeException of(String file, String act, SQLException e) {
    String start = file + ": " + act + ": ";
    if (is(e, SQLiteErrorCode.SQLITE_BUSY) || is(e, SQLiteErrorCode.SQLITE_LOCKED)) {
      return new LogFailed(
          start
              + "another program has the file locked (it isn't Tallyback's own writer); close that"
              + " program and try again",
          e);
    } else if (is(e, SQLiteErrorCode.SQLITE_READONLY)) {
      return new LogFailed(
          start + "the file or its folder is read-only; make both writable, or use another file",
          e);
    } else if (is(e, SQLiteErrorCode.SQLITE_FULL)) {
      return new LogFailed(
          start + "the disk is full; what was noted before is safe; free some space and try again",
          e);
    } else if (is(e, SQLiteErrorCode.SQLITE_IOERR)) {
      return new LogFailed(
          start
              + "reading or writing the disk failed ("
              + e.getMessage()
              + "); check the disk, its free space and any size limit, then try again",
          e);
    } else if (is(e, SQLiteErrorCode.SQLITE_CORRUPT)) {
      return damaged(file, act + ": " + e.getMessage(), e);
    } else if (is(e, SQLiteErrorCode.SQLITE_NOTADB)) {
      return new LogRefused(DataFile.notOurs(file, "something else"), e);
    } else if (is(e, SQLiteErrorCode.SQLITE_CANTOPEN)) {
      return new LogFailed(
          start + "it can't be opened; check that the file and its folder may be read and written",
          e);
    }
    return new LogFailed(
        start
            + String.format(Locale.ROOT, "the database says \"%s\"", e.getMessage())
            + "; run verify on the file",
        e);
  }

  /** Whether the database takes the file for damaged. */
  static boolean isDamage(SQLException e) {
    return is(e, SQLiteErrorCode.SQLITE_CORRUPT);
  }

  /** Whether it is what tables hold or how they are made, and neither the machine nor a lock. */
  static boolean isOfTheTables(SQLException e) {
    return isDamage(e)
        || is(e, SQLiteErrorCode.SQLITE_ERROR)
        || is(e, SQLiteErrorCode.SQLITE_CONSTRAINT)
        || is(e, SQLiteErrorCode.SQLITE_MISMATCH)
        || is(e, SQLiteErrorCode.SQLITE_SCHEMA);
  }

  /** The file holds something that it can't hold when all is well. */
  static ClipAltered altered(String file, String hash) {
    return new ClipAltered(damage(file, "the sound clip " + hash + " was altered"));
  }

  static LogFailed damaged(String file, String what) {
    return new LogFailed(damage(file, what));
  }

  private static LogFailed damaged(String file, String what, Throwable cause) {
    return new LogFailed(damage(file, what), cause);
  }

  private static String damage(String file, String what) {
    return file
        + ": damaged: "
        + what
        + "; keep a copy of it as it is, run verify to see all that is wrong, and restore a backup";
  }
}
