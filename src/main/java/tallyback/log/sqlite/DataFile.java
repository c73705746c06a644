package tallyback.log.sqlite;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteJDBCLoader;
import org.sqlite.SQLiteOpenMode;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;
import tallyback.log.Progress;

/**
 * The file on disk: telling ours from others without touching them, making new ones whole or not at
 * all, and connecting.
 */
final class DataFile {

  /**
   * How a connection is set up.
   *
   * @param busyTimeoutMs how long to wait for another program's lock
   * @param maxPages the most pages the file may grow to, 0 for no limit
   * @param synchronous SQLite's setting of that name; anything but FULL can lose acknowledged
   *     entries
   */
  record Tuning(int busyTimeoutMs, long maxPages, String synchronous) {
    static final Tuning NORMAL = new Tuning(3000, 0, "FULL");
  }

  private static final String CREATING = "?mode=rwc";

  /** A writer is done with it sooner; a file that is damaged is so after a second too. */
  private static final int MOST_LOOKS = 50;

  private static final int MS_BETWEEN_LOOKS = 20;

  private final Path path;

  DataFile(Path path) {
    this.path = realPath(path);
  }

  /**
   * The file's name without links, so that every way to the same file meets the same writer mark.
   */
  private static Path realPath(Path path) {
    Path absolute = path.toAbsolutePath().normalize();
    Path folder = absolute.getParent();
    Path name = absolute.getFileName();
    if (folder == null || name == null || Files.isDirectory(absolute)) {
      throw new LogRefused(path + ": is a folder; name a file");
    }
    if (!Files.isDirectory(folder)) {
      throw new LogRefused(
          path + ": there is no folder " + folder + "; make it first, or name another file");
    }
    try {
      return Files.exists(absolute) ? absolute.toRealPath() : folder.toRealPath().resolve(name);
    } catch (IOException e) {
      throw new LogFailed(
          path + ": can't be looked at (" + e.getMessage() + "); check its folder's rights", e);
    }
  }

  Path path() {
    return path;
  }

  String name() {
    return path.toString();
  }

  boolean exists() {
    return Files.exists(path);
  }

  static String notOurs(String file, String found) {
    return file
        + ": expected a Tallyback data file, found "
        + found
        + "; it was left as it is; name another file, or one that doesn't exist yet to start afresh";
  }

  /**
   * Looks at the header, and leaves the file alone: opened as unchangeable, SQLite neither locks it
   * nor writes beside it. Not by reading the file ourselves: closing it would drop the locks of a
   * writer in this process (POSIX record locks). Without a lock it may look while a writer that
   * closes moves its last entries into the file: what seems damaged then is looked at again.
   *
   * @throws LogRefused if it isn't ours or is from a newer version
   */
  void requireOurs() {
    if (sizeInBytes() == 0) {
      throw new LogRefused(notOurs(name(), "an empty file (0 bytes)"));
    }
    for (int looks = 1; ; looks++) {
      try {
        lookAtHeader();
        return;
      } catch (SQLException e) {
        if (looks == MOST_LOOKS || !SqliteFaults.isDamage(e) || !pause()) {
          throw SqliteFaults.of(name(), "it can't be read", e);
        }
      }
    }
  }

  private void lookAtHeader() throws SQLException {
    try (Database database = connect("?immutable=1", true)) {
      long application = database.number("PRAGMA application_id");
      long version = database.number("PRAGMA user_version");
      if (application != LogSchema.APPLICATION_ID) {
        throw new LogRefused(notOurs(name(), "the SQLite file of another program"));
      }
      requireKnown(version);
    }
  }

  /** Whether there was time to wait for the next look. */
  private static boolean pause() {
    try {
      Thread.sleep(MS_BETWEEN_LOOKS);
      return true;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  private void requireKnown(long version) {
    if (version > LogSchema.USER_VERSION) {
      throw new LogRefused(
          name()
              + ": written by a newer version of Tallyback (data schema "
              + version
              + ", this version reads up to "
              + LogSchema.USER_VERSION
              + "); use the newer version");
    }
    if (version < 1) {
      throw new LogRefused(notOurs(name(), "one marked as ours but without a schema number"));
    }
  }

  private long sizeInBytes() {
    try {
      return Files.size(path);
    } catch (IOException e) {
      throw new LogFailed(name() + ": can't be read (" + e.getMessage() + "); check its rights", e);
    }
  }

  /** A connection that may write. */
  Database openForWriting(Tuning tuning, Progress progress) throws SQLException {
    Database database = connect("?mode=rw", false);
    boolean ready = false;
    try {
      database.execute("PRAGMA busy_timeout = " + tuning.busyTimeoutMs());
      prepare(database, tuning);
      database.execute("PRAGMA journal_mode = WAL");
      // Finds out now and not at the first entry that the file is read-only or held by another
      // program.
      // (BEGIN IMMEDIATE alone is let through for a read-only file.)
      database.writing(
          () -> {
            int none = database.update("DELETE FROM clip WHERE hash = ''");
            bringUpToDate(database, progress);
            return none;
          });
      ready = true;
      return database;
    } finally {
      if (!ready) {
        database.close();
      }
    }
  }

  private static void bringUpToDate(Database database, Progress progress) throws SQLException {
    long version = database.number("PRAGMA user_version");
    if (version == 1) {
      for (String statement : LogSchema.upgradeFrom1()) {
        database.execute(statement);
      }
    }
    if (version < LogSchema.USER_VERSION) {
      database.execute("PRAGMA user_version = " + LogSchema.USER_VERSION);
    }
    makeIndex(database, progress);
  }

  /** An index that can't be made keeps nobody from noting. */
  private static void makeIndex(Database database, Progress progress) throws SQLException {
    JobIndex index = new JobIndex(database, database);
    database.tolerating(
        () -> {
          if (!index.isCurrentAndWhole()) {
            index.makeAnew(progress);
          }
        });
  }

  private static void prepare(Database database, Tuning tuning) throws SQLException {
    database.execute("PRAGMA synchronous = " + tuning.synchronous());
    // macOS acknowledges a plain fsync before the data lie on the disk; elsewhere these two do
    // nothing.
    database.execute("PRAGMA fullfsync = ON");
    database.execute("PRAGMA checkpoint_fullfsync = ON");
    // Makes INSERT OR REPLACE fire the triggers on DELETE too; in other programs' connections it
    // may be off.
    database.execute("PRAGMA recursive_triggers = ON");
    database.execute("PRAGMA trusted_schema = OFF");
    database.execute("PRAGMA cell_size_check = ON");
    if (tuning.maxPages() > 0) {
      database.execute("PRAGMA max_page_count = " + tuning.maxPages());
    }
  }

  /**
   * A connection that only looks. It may take part in SQLite's own housekeeping (the -wal file of a
   * killed writer); where the file or the folder can't be written it works without.
   */
  Database openForReading() throws SQLException {
    Database database = connect(needsNoSideFiles() ? "?immutable=1" : "?mode=rw", false);
    boolean ready = false;
    try {
      database.execute("PRAGMA busy_timeout = " + Tuning.NORMAL.busyTimeoutMs());
      database.execute("PRAGMA query_only = ON");
      database.execute("PRAGMA trusted_schema = OFF");
      database.execute("PRAGMA cell_size_check = ON");
      requireKnown(database.number("PRAGMA user_version"));
      ready = true;
      return database;
    } finally {
      if (!ready) {
        database.close();
      }
    }
  }

  /**
   * In a read-only folder without a -wal file nobody is writing, and SQLite couldn't make its side
   * files.
   */
  private boolean needsNoSideFiles() {
    Path folder = path.getParent();
    return folder != null
        && !Files.isWritable(folder)
        && !Files.exists(path.resolveSibling(path.getFileName() + "-wal"));
  }

  /** The log of a moment, in memory only. */
  static Database openInMemory() throws SQLException {
    loadNativePart("memory");
    Database database = new Database(new SQLiteConfig().createConnection("jdbc:sqlite::memory:"));
    prepare(database, Tuning.NORMAL);
    makeSchema(database);
    return database;
  }

  /**
   * Makes a new data file: first under another name, whole and on disk, then under its own. The
   * writer mark must be held.
   */
  void create(Tuning tuning) {
    Path unfinished = path.resolveSibling(path.getFileName() + ".new");
    loadNativePart(name());
    try {
      deleteWithSideFiles(unfinished); // of a process that was killed here
      DataFile draft = new DataFile(unfinished);
      try (Database database = draft.connect(CREATING, false)) {
        prepare(database, tuning);
        makeSchema(database);
        database.execute("PRAGMA journal_mode = WAL");
      }
      publish(unfinished, path);
    } catch (SQLException e) {
      throw SqliteFaults.of(name(), "the file was not made", e);
    } catch (IOException e) {
      throw new LogFailed(
          name()
              + ": the file was not made ("
              + e.getMessage()
              + "); check its folder and the disk",
          e);
    } finally {
      deleteQuietly(unfinished);
    }
  }

  private static void makeSchema(Database database) throws SQLException {
    database.writing(
        () -> {
          for (String statement : LogSchema.STATEMENTS) {
            database.execute(statement);
          }
          new JobIndex(database, database).makeAnew(Progress.UNTOLD);
          database.execute("PRAGMA application_id = " + LogSchema.APPLICATION_ID);
          database.execute("PRAGMA user_version = " + LogSchema.USER_VERSION);
          return null;
        });
  }

  /** Gives a finished file its name, and puts both on disk. */
  static void publish(Path finished, Path target) throws IOException {
    forceToDisk(finished, StandardOpenOption.WRITE);
    Files.move(finished, target, StandardCopyOption.ATOMIC_MOVE);
    Path folder = target.getParent();
    if (folder != null && !isWindows()) {
      forceToDisk(folder, StandardOpenOption.READ);
    }
  }

  private static void forceToDisk(Path path, StandardOpenOption option) throws IOException {
    try (FileChannel channel = FileChannel.open(path, option)) {
      channel.force(true);
    }
  }

  /** Windows has no way to flush a folder, and doesn't need it. */
  private static boolean isWindows() {
    return System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
  }

  static void deleteWithSideFiles(Path file) throws IOException {
    for (String ending : List.of("", "-journal", "-wal", "-shm")) {
      Files.deleteIfExists(file.resolveSibling(file.getFileName() + ending));
    }
  }

  static void deleteQuietly(Path unfinished) {
    try {
      deleteWithSideFiles(unfinished);
    } catch (IOException e) {
      // The failure that led here is the one to report; the next attempt removes it.
    }
  }

  private Database connect(String how, boolean readOnly) throws SQLException {
    loadNativePart(name());
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(readOnly);
    config.setOpenMode(SQLiteOpenMode.OPEN_URI);
    if (!how.equals(CREATING)) {
      config.resetOpenMode(SQLiteOpenMode.CREATE);
    }
    return new Database(
        config.createConnection("jdbc:sqlite:file://" + path.toUri().getRawPath() + how));
  }

  private static void loadNativePart(String name) {
    try {
      SQLiteJDBCLoader.initialize();
    } catch (Exception | LinkageError e) {
      throw new LogFailed(
          name
              + ": SQLite's native part can't be loaded on "
              + System.getProperty("os.name")
              + " "
              + System.getProperty("os.arch")
              + " ("
              + e.getMessage()
              + "); name a writable folder with -Dorg.sqlite.tmpdir=FOLDER",
          e);
    }
  }
}
