package tallyback.log.sqlite;

import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.log.EntryJson;
import tallyback.log.LogRefused;
import tallyback.log.SoundClip;
import tallyback.log.VerifyReport;
import tallyback.log.VerifyReport.Problem;
import tallyback.model.Entry;
import tallyback.model.Statement.JobOpened;

/**
 * Checks the whole file and gathers all that is wrong. Each part is checked for itself, so that
 * damage in one doesn't hide the others. Used once, by one thread.
 */
final class Verification {

  /** What the file says of a job's end. */
  private record End(long seq, String hash) {}

  /** One part of the check. */
  @FunctionalInterface
  private interface Part {
    void check() throws SQLException;
  }

  private static final String INDEX_APART =
      "the list of jobs and what is searched in differ from the entries, which count; they are made"
          + " anew when something is noted";

  private final Database database;
  private final Optional<WriterMark.Acknowledged> leftBehind;
  private final List<Problem> problems = new ArrayList<>();
  private final List<String> notices = new ArrayList<>();
  private final Set<String> namedClips = new HashSet<>();
  private final Set<String> namedPictures = new HashSet<>();
  private final Map<String, End> ends = new LinkedHashMap<>();
  private final Set<String> jobs = new HashSet<>();
  private long entryCount;
  private long clipCount;
  private long pictureCount;

  Verification(Database database, Optional<WriterMark.Acknowledged> leftBehind) {
    this.database = database;
    this.leftBehind = leftBehind;
  }

  VerifyReport run() {
    try {
      database.reading(
          () -> {
            part("the file's structure", this::checkStructure);
            part("the file's marks", this::checkMarks);
            part("the schema", this::checkSchema);
            part("the triggers", this::checkTriggersWork);
            part("the ends of the jobs", this::readEnds);
            part("the entries", this::checkEntries);
            part("the sound clips", this::checkClips);
            part("what was acknowledged", this::checkLeftBehind);
            part("the list of jobs", this::checkIndex);
            return null;
          });
    } catch (SQLException e) {
      problem("the file", "something that can be read", String.valueOf(e.getMessage()));
    }
    return new VerifyReport(jobs.size(), entryCount, clipCount, pictureCount, problems, notices);
  }

  private void part(String where, Part part) {
    try {
      part.check();
    } catch (SQLException e) {
      problem(where, "something that can be read", String.valueOf(e.getMessage()));
    }
  }

  private void problem(String where, String expected, String found) {
    problems.add(new Problem(where, expected, found));
  }

  private void checkStructure() throws SQLException {
    for (String line : database.list("PRAGMA integrity_check(100)", row -> row.getString(1))) {
      if (line.contains("FTS5 table")) {
        notices.add(INDEX_APART);
      } else if (!line.equals("ok")) {
        problem("the file's structure", "sound pages", line);
      }
    }
  }

  private void checkMarks() throws SQLException {
    checkMark("application_id", LogSchema.APPLICATION_ID);
    long version = database.number("PRAGMA user_version");
    if (version < 1 || version > LogSchema.USER_VERSION) {
      checkMark("user_version", LogSchema.USER_VERSION);
    }
  }

  private void checkMark(String pragma, long expected) throws SQLException {
    long found = database.number("PRAGMA " + pragma);
    if (found != expected) {
      problem("the file's " + pragma, Long.toString(expected), Long.toString(found));
    }
  }

  private void checkSchema() throws SQLException {
    Map<String, String> stored = storedSchema();
    for (String statement : LogSchema.statements(database.number("PRAGMA user_version"))) {
      String name = LogSchema.nameIn(statement);
      String found = stored.remove(name);
      if (!statement.equals(found)) {
        problem(
            "the schema",
            name + " as this version makes it",
            found == null ? "nothing" : "another: " + found);
      }
    }
    stored.forEach((name, sql) -> problem("the schema", "nothing else", name + ": " + sql));
  }

  private static boolean isOfIndex(String name, String type) {
    return JobIndex.NAMES.contains(name) && !type.equals("trigger");
  }

  /**
   * The index for lists and searches proves nothing, so that nothing is wrong with the log when it
   * is.
   */
  private void checkIndex() throws SQLException {
    if (database.number("PRAGMA user_version") >= LogSchema.FIRST_WITH_INDEX
        && !notices.contains(INDEX_APART)
        && !JobIndex.saysWhatEntriesSay(database)) {
      notices.add(INDEX_APART);
    }
  }

  /** Name to text; what SQLite makes by itself has no text. */
  private Map<String, String> storedSchema() throws SQLException {
    Map<String, String> stored = new LinkedHashMap<>();
    database.list(
        "SELECT name, sql, type FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name",
        row ->
            isOfIndex(row.getString(1), row.getString(3))
                || stored.put(row.getString(1), row.getString(2)) == null);
    return stored;
  }

  private void checkTriggersWork() throws SQLException {
    for (String damage : TriggerProof.damageLetThrough(storedSchema().values())) {
      problem("the triggers", "a refusal of " + damage, "that it goes through");
    }
  }

  private void readEnds() throws SQLException {
    database.list(
        "SELECT job, seq, hash FROM job_end ORDER BY job",
        row -> ends.put(row.getString(1), new End(row.getLong(2), row.getString(3))) == null);
  }

  private void checkEntries() throws SQLException {
    ChainCheck chain = new ChainCheck();
    try {
      database.list(
          "SELECT " + EntryRow.COLUMNS + " FROM entry ORDER BY job, seq",
          row -> {
            chain.next(EntryRow.at(row));
            return true;
          });
    } finally {
      chain.endOfJob();
    }
    ends.forEach((job, end) -> problem("job " + job, end.seq() + " entries", "none"));
  }

  /** Walks along the rows in order of job and sequence number. */
  private final class ChainCheck {

    private @Nullable EntryRow last;

    void next(EntryRow row) {
      entryCount++;
      if (last == null || !last.job().equals(row.job())) {
        endOfJob();
        jobs.add(row.job());
      }
      String where = "entry " + row.seq() + " of job " + row.job();
      long expectedSeq = last == null ? 1 : last.seq() + 1;
      if (row.seq() != expectedSeq) {
        problem(where, "sequence number " + expectedSeq, "a gap before " + row.seq());
      } else if (!row.previous().equals(last == null ? LogSchema.NO_PREVIOUS : last.hash())) {
        problem(where, "the hash of the entry before", "another: " + row.previous());
      }
      if (!row.computedHash().equals(row.hash())) {
        problem(where, "the hash of what it says", "another: it was altered after it was noted");
      }
      checkContent(where, row);
      last = row;
    }

    void endOfJob() {
      EntryRow lastRow = last;
      last = null;
      if (lastRow == null) {
        return;
      }
      String where = "job " + lastRow.job();
      End end = ends.remove(lastRow.job());
      if (end == null) {
        problem(where, "an end at entry " + lastRow.seq(), "none");
      } else if (end.seq() != lastRow.seq()) {
        problem(where, end.seq() + " entries", "the last one is " + lastRow.seq());
      } else if (!end.hash().equals(lastRow.hash())) {
        problem(where, "an end with the hash of its last entry", "another: " + end.hash());
      }
    }
  }

  private void checkContent(String where, EntryRow row) {
    if (row.clip() != null) {
      namedClips.add(row.clip());
      if (row.kind().equals("picture")) {
        namedPictures.add(row.clip());
      }
    }
    try {
      Entry entry = EntryJson.read(row.json());
      List<String> apart = row.columnsApartFrom(entry);
      if (!apart.isEmpty()) {
        problem(
            where, "columns that say what its JSON says", "others in " + String.join(", ", apart));
      }
      checkOpening(where, entry);
    } catch (LogRefused e) {
      problem(where, "an entry's JSON", String.valueOf(e.getMessage()));
    }
  }

  private void checkOpening(String where, Entry entry) {
    boolean opens = entry.statement() instanceof JobOpened;
    if (opens != (entry.seq() == 1)) {
      problem(
          where,
          opens ? "an opening only as entry 1" : "the job's opening as entry 1",
          "otherwise");
    }
    if (entry.statement() instanceof JobOpened opened) {
      String hash = SoundClip.hashOf(opened.planText().getBytes(StandardCharsets.UTF_8));
      if (!hash.equals(opened.planHash())) {
        problem(where, "the hash of the plan's text", opened.planHash());
      }
    }
  }

  private void checkClips() throws SQLException {
    Set<String> missing = new HashSet<>(namedClips);
    database.list(
        "SELECT hash, sound FROM clip ORDER BY hash",
        row -> {
          checkClip(row);
          return missing.remove(row.getString(1));
        });
    missing.stream()
        .sorted()
        .forEach(hash -> notices.add(called(hash) + ": removed; its entries are still there"));
  }

  private void checkClip(ResultSet row) throws SQLException {
    String hash = row.getString(1);
    if (namedPictures.contains(hash)) {
      pictureCount++;
    } else {
      clipCount++;
    }
    String found = SoundClip.hashOf(row.getBytes(2));
    if (!found.equals(hash)) {
      problem(called(hash), "bytes with that hash", "bytes with the hash " + found);
    }
    if (!namedClips.contains(hash)) {
      problem(called(hash), "an entry that names it", "none");
    }
  }

  private String called(String hash) {
    return (namedPictures.contains(hash) ? "picture " : "sound clip ") + hash;
  }

  private void checkLeftBehind() throws SQLException {
    if (leftBehind.isPresent() && !holds(database, leftBehind.get())) {
      problem(
          "job " + leftBehind.get().job(),
          "entry "
              + leftBehind.get().seq()
              + ", which was acknowledged before the last writer ended",
          "that it is gone");
    }
  }

  /** True when the entry is there as it was acknowledged. */
  static boolean holds(Database database, WriterMark.Acknowledged entry) throws SQLException {
    return database
        .first(
            "SELECT 1 FROM entry WHERE job = ? AND seq = ? AND hash = ?",
            row -> true,
            entry.job(),
            entry.seq(),
            entry.hash())
        .isPresent();
  }
}
