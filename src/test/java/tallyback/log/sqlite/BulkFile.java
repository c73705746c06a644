package tallyback.log.sqlite;

import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Iterator;
import java.util.List;
import tallyback.log.Draft;
import tallyback.log.Progress;
import tallyback.model.Entry;

/** Data files of many jobs, written faster than anybody could note them: many jobs at once. */
public final class BulkFile {

  private static final int JOBS_AT_ONCE = 100;

  private BulkFile() {}

  /**
   * Writes a new file, chains and ends and all, but for the index.
   *
   * @param file a file that doesn't exist yet
   * @param jobs the entries of each, its opening first
   */
  public static void write(Path file, Iterator<List<Draft>> jobs) throws SQLException {
    DataFile data = new DataFile(file);
    data.create(DataFile.Tuning.NORMAL);
    try (Database database = TestFile.raw(file)) {
      database.execute("PRAGMA synchronous = OFF");
      while (jobs.hasNext()) {
        int unused =
            database.writing(
                () -> {
                  int count = 0;
                  while (count < JOBS_AT_ONCE && jobs.hasNext()) {
                    write(database, jobs.next());
                    count++;
                  }
                  return count;
                });
      }
    }
  }

  private static void write(Database database, List<Draft> job) throws SQLException {
    String previous = LogSchema.NO_PREVIOUS;
    try (PreparedStatement insert =
            database
                .connection()
                .prepareStatement(
                    "INSERT INTO entry ("
                        + EntryRow.COLUMNS
                        + ") VALUES ("
                        + "?, ".repeat(15)
                        + "?)");
        PreparedStatement begin =
            database
                .connection()
                .prepareStatement("INSERT INTO job_end (job, seq, hash) VALUES (?, ?, ?)");
        PreparedStatement goOn =
            database
                .connection()
                .prepareStatement("UPDATE job_end SET seq = ?, hash = ? WHERE job = ?")) {
      for (int index = 0; index < job.size(); index++) {
        Entry entry = job.get(index).noted(index + 1, null);
        EntryRow row = EntryRow.of(entry, previous);
        row.bindTo(insert);
        insert.executeUpdate();
        if (index == 0) {
          begin.setString(1, row.job());
          begin.setLong(2, row.seq());
          begin.setString(3, row.hash());
          begin.executeUpdate();
        } else {
          goOn.setLong(1, row.seq());
          goOn.setString(2, row.hash());
          goOn.setString(3, row.job());
          goOn.executeUpdate();
        }
        previous = row.hash();
      }
    }
  }

  /**
   * Adds a job of two entries as a newer version may write it, whose entries have another schema.
   */
  public static void addNewer(Path file, Draft opening, Draft next) throws SQLException {
    try (Database database = TestFile.raw(file)) {
      EntryRow first = newer(EntryRow.of(opening.noted(1, null), LogSchema.NO_PREVIOUS));
      EntryRow second = newer(EntryRow.of(next.noted(2, null), first.hash()));
      for (EntryRow row : List.of(first, second)) {
        try (PreparedStatement insert =
            database
                .connection()
                .prepareStatement(
                    "INSERT INTO entry ("
                        + EntryRow.COLUMNS
                        + ") VALUES ("
                        + "?, ".repeat(15)
                        + "?)")) {
          row.bindTo(insert);
          insert.executeUpdate();
        }
        database.update(
            row.seq() == 1
                ? "INSERT INTO job_end (seq, hash, job) VALUES (?, ?, ?)"
                : "UPDATE job_end SET seq = ?, hash = ? WHERE job = ?",
            row.seq(),
            row.hash(),
            row.job());
      }
    }
  }

  private static EntryRow newer(EntryRow row) {
    EntryRow other = withJson(row, row.json().replaceFirst("\"schema\":1", "\"schema\":2"), "");
    return withJson(other, other.json(), other.computedHash());
  }

  private static EntryRow withJson(EntryRow row, String json, String hash) {
    return new EntryRow(
        row.job(),
        row.seq(),
        row.id(),
        row.happenedAtMs(),
        row.recordedAtMs(),
        row.zone(),
        row.actor(),
        row.device(),
        row.source(),
        row.certainty(),
        row.words(),
        row.kind(),
        json,
        row.clip(),
        row.previous(),
        hash);
  }

  /** Makes the index of a file written so. */
  public static void index(Path file, Progress progress) {
    SqliteLogs.openForWriting(file, progress).close();
  }

  /** Takes the index out of a file, as a version before it left it. */
  public static void takeIndexOut(Path file) throws SQLException {
    TestFile.tamper(
        file,
        "DROP TABLE entry_words",
        "DROP TABLE job_words",
        "DROP TABLE job_row",
        "DROP TABLE index_made",
        "PRAGMA user_version = 2",
        "VACUUM");
  }
}
