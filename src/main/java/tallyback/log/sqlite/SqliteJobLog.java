package tallyback.log.sqlite;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConnection;
import tallyback.log.Draft;
import tallyback.log.EntryJson;
import tallyback.log.JobLog;
import tallyback.log.JobName;
import tallyback.log.JobRow;
import tallyback.log.JobSearch;
import tallyback.log.JobSummary;
import tallyback.log.JobsFound;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.Seal;
import tallyback.log.SoundClip;
import tallyback.log.VerifyReport;
import tallyback.model.Entry;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.VisitBegun;

/**
 * The log on one connection. Safe for several threads: every method holds the object's monitor.
 * {@link #close} closes the connection, which also tidies away SQLite's side files, and then lets
 * go of the writer mark.
 */
final class SqliteJobLog implements JobLog {

  /** The end of a job's chain. */
  private record JobEnd(long seq, String hash, @Nullable String rowHash, @Nullable String kind) {

    /** True when the last row is there and is the one the job's end names. */
    boolean sound() {
      return hash.equals(rowHash);
    }

    boolean closed() {
      return "job-closed".equals(kind);
    }
  }

  private static final String INSERT_ENTRY =
      "INSERT INTO entry (" + EntryRow.COLUMNS + ") VALUES (" + "?, ".repeat(15) + "?)";

  private final String name;
  private final Optional<Path> path;
  private final Database database;
  private final Optional<WriterMark> mark;
  private final JobIndex kept;
  private @Nullable JobIndex ofOlderFile;

  /** Whether the index in the file held all that was noted before the entry of now. */
  private boolean keeping;

  private boolean closed;

  SqliteJobLog(String name, Optional<Path> path, Database database, Optional<WriterMark> mark) {
    this.name = name;
    this.path = path;
    this.database = database;
    this.mark = mark;
    this.kept = new JobIndex(database, database);
  }

  @Override
  public synchronized Entry openJob(Draft opening) {
    if (!(opening.statement() instanceof JobOpened opened)) {
      throw new LogRefused("a job is opened with its plan, not with " + kindOf(opening));
    }
    requirePlanHash(opened);
    Entry wanted = readBack(opening.noted(1, null));
    return noting(
        () -> {
          Optional<JobEnd> end = jobEnd(opening.job());
          if (end.isPresent()) {
            return carryOn(opening.job(), opened, soundEnd(opening.job(), end.get()));
          }
          JobName.requireUsable(opening.job());
          requireNewId(opening.id());
          EntryRow row = EntryRow.of(wanted, LogSchema.NO_PREVIOUS);
          insert(row);
          database.update(
              "INSERT INTO job_end (job, seq, hash) VALUES (?, ?, ?)",
              row.job(),
              row.seq(),
              row.hash());
          index(row);
          return row;
        });
  }

  private static String kindOf(Draft draft) {
    return "\"" + EntryJson.kind(draft.statement()) + "\"";
  }

  private static void requirePlanHash(JobOpened opened) {
    String hash = SoundClip.hashOf(opened.planText().getBytes(StandardCharsets.UTF_8));
    if (!hash.equals(opened.planHash())) {
      throw new LogRefused(
          "plan "
              + opened.planName()
              + ": expected the hash of its text, "
              + hash
              + ", found "
              + opened.planHash()
              + "; read the plan anew");
    }
  }

  private EntryRow carryOn(String job, JobOpened wanted, JobEnd end) throws SQLException {
    EntryRow row = row(job, 1).orElseThrow(() -> missing(job, 1));
    if (!(EntryJson.read(row.json()).statement() instanceof JobOpened stored)) {
      throw SqliteFaults.damaged(name, "entry 1 of job " + job + " is not its opening");
    }
    if (!stored.planHash().equals(wanted.planHash())) {
      throw new LogRefused(
          "job "
              + job
              + ": expected the plan it was opened with ("
              + stored.planName()
              + ", hash "
              + stored.planHash().substring(0, 12)
              + "), found another ("
              + wanted.planName()
              + ", hash "
              + wanted.planHash().substring(0, Math.min(12, wanted.planHash().length()))
              + "); use that plan, or name the job that is meant ('jobs' lists them), or a new one");
    }
    if (end.closed()) {
      throw closedJob(job);
    }
    return row;
  }

  private static LogRefused closedJob(String job) {
    return new LogRefused(
        "job "
            + job
            + ": is closed, nothing more is noted in it; begin a visit to it, or start another job"
            + " under a new name");
  }

  private void requireNewId(String id) throws SQLException {
    Optional<EntryRow> stored = rowOfId(id);
    if (stored.isPresent()) {
      throw idTaken(stored.get());
    }
  }

  private static LogRefused idTaken(EntryRow stored) {
    return new LogRefused(
        "id "
            + stored.id()
            + ": something else is noted under it already, entry "
            + stored.seq()
            + " of job "
            + stored.job()
            + "; give each entry an id of its own");
  }

  @Override
  public synchronized Entry append(Draft draft, @Nullable SoundClip clip) {
    if (draft.statement() instanceof JobOpened) {
      throw new LogRefused("job " + draft.job() + ": a job is opened by openJob, with its plan");
    }
    String clipHash = clip == null ? null : clip.hash();
    // What can't be written is refused before the transaction.
    Entry wanted = readBack(draft.noted(1, clipHash));
    return noting(
        () -> {
          Optional<EntryRow> stored = rowOfId(draft.id());
          if (stored.isPresent()) {
            return sameAgain(stored.get(), wanted);
          }
          JobEnd end = soundEnd(draft.job(), requireEnd(draft.job()));
          boolean visit = draft.statement() instanceof VisitBegun;
          if (end.closed() && !visit) {
            throw closedJob(draft.job());
          }
          if (visit && !end.closed()) {
            throw new LogRefused(
                "job "
                    + draft.job()
                    + ": is open, so that no visit begins in it; note as usual, or close it first");
          }
          EntryRow row = EntryRow.of(numbered(wanted, end.seq() + 1), end.hash());
          if (clip != null) {
            insertClip(clip);
          }
          insert(row);
          database.update(
              "UPDATE job_end SET seq = ?, hash = ? WHERE job = ?",
              row.seq(),
              row.hash(),
              row.job());
          index(row);
          return row;
        });
  }

  /** The entry as it will come back from the file. */
  private static Entry readBack(Entry entry) {
    return EntryJson.read(EntryJson.text(entry));
  }

  private static Entry numbered(Entry entry, long seq) {
    return new Entry(
        entry.id(),
        entry.job(),
        seq,
        entry.happenedAt(),
        entry.recordedAt(),
        entry.zone(),
        entry.actor(),
        entry.device(),
        entry.source(),
        entry.certainty(),
        entry.words(),
        entry.clip(),
        entry.statement(),
        entry.heard());
  }

  /** A retry differs at most in when it was recorded and in how it was heard. */
  private static EntryRow sameAgain(EntryRow stored, Entry wanted) {
    Entry noted = EntryJson.read(stored.json());
    Entry retried =
        new Entry(
            wanted.id(),
            wanted.job(),
            noted.seq(),
            wanted.happenedAt(),
            noted.recordedAt(),
            wanted.zone(),
            wanted.actor(),
            wanted.device(),
            wanted.source(),
            wanted.certainty(),
            wanted.words(),
            wanted.clip(),
            wanted.statement(),
            noted.heard());
    if (!retried.equals(noted)) {
      throw idTaken(stored);
    }
    return stored;
  }

  private void insert(EntryRow row) throws SQLException {
    try (var statement = database.connection().prepareStatement(INSERT_ENTRY)) {
      row.bindTo(statement);
      statement.executeUpdate();
    }
  }

  /** What goes wrong with it keeps nothing from being noted: it is made anew another time. */
  private void index(EntryRow row) throws SQLException {
    boolean indexed = keeping && database.tolerating(() -> kept.add(row));
    if (!indexed) {
      boolean unused = database.tolerating(kept::giveUp);
    }
  }

  private void insertClip(SoundClip clip) throws SQLException {
    // Two entries out of one utterance share its clip; the trigger would refuse the second insert.
    if (database.first("SELECT 1 FROM clip WHERE hash = ?", row -> 1, clip.hash()).isEmpty()) {
      database.update("INSERT INTO clip (hash, sound) VALUES (?, ?)", clip.hash(), clip.bytes());
    }
  }

  /** Notes a row in one transaction; returns only when it is on disk. */
  private Entry noting(Database.Work<EntryRow> work) {
    requireOpen();
    EntryRow row =
        attempt(
            "the entry was not noted",
            () ->
                database.writing(
                    () -> {
                      keeping = kept.isCurrentAndWhole();
                      return work.run();
                    }));
    mark.ifPresent(
        each -> each.acknowledge(new WriterMark.Acknowledged(row.job(), row.seq(), row.hash())));
    return EntryJson.read(row.json());
  }

  private <T> T attempt(String act, Database.Work<T> work) {
    try {
      return work.run();
    } catch (SQLException e) {
      throw SqliteFaults.of(name, act, e);
    }
  }

  private <T> T looking(Database.Work<T> work) {
    requireOpen();
    return attempt("it can't be read", () -> database.reading(work));
  }

  private void requireOpen() {
    if (closed) {
      throw new IllegalStateException(name + ": this log is closed");
    }
  }

  private Optional<JobEnd> jobEnd(String job) throws SQLException {
    return database.first(
        "SELECT j.seq, j.hash, e.hash, e.kind FROM job_end j LEFT JOIN entry e"
            + " ON e.job = j.job AND e.seq = j.seq WHERE j.job = ?",
        row -> new JobEnd(row.getLong(1), row.getString(2), row.getString(3), row.getString(4)),
        job);
  }

  private JobEnd requireEnd(String job) throws SQLException {
    Optional<JobEnd> end = jobEnd(job);
    if (end.isEmpty()) {
      throw unknown(job);
    }
    return end.get();
  }

  private JobEnd soundEnd(String job, JobEnd end) {
    if (!end.sound()) {
      throw missing(job, end.seq());
    }
    return end;
  }

  private LogFailed missing(String job, long seq) {
    return SqliteFaults.damaged(name, "entry " + seq + " of job " + job + " is missing or altered");
  }

  private LogRefused unknown(String job) throws SQLException {
    String known =
        String.join(
            ", ",
            database.list("SELECT job FROM job_end ORDER BY job LIMIT 8", row -> row.getString(1)));
    return new LogRefused(
        "no job \""
            + job
            + "\" in this data file; "
            + (known.isEmpty() ? "it holds none yet" : "it holds: " + known));
  }

  private Optional<EntryRow> rowOfId(String id) throws SQLException {
    return database.first(
        "SELECT " + EntryRow.COLUMNS + " FROM entry WHERE id = ?", EntryRow::at, id);
  }

  private Optional<EntryRow> row(String job, long seq) throws SQLException {
    return database.first(
        "SELECT " + EntryRow.COLUMNS + " FROM entry WHERE job = ? AND seq = ?",
        EntryRow::at,
        job,
        seq);
  }

  @Override
  public synchronized List<JobSummary> jobs() {
    return looking(
        () -> {
          Map<String, End> ends = new HashMap<>();
          database.list(
              "SELECT job, seq, hash FROM job_end",
              row -> ends.put(row.getString(1), new End(row.getLong(2), row.getString(3))) == null);
          List<JobSummary> jobs = new ArrayList<>();
          for (JobRow row : index().all()) {
            End end = ends.get(row.id());
            if (end != null) {
              jobs.add(summary(row, end));
            }
          }
          return List.copyOf(jobs);
        });
  }

  /** How far a job reaches. */
  private record End(long seq, String hash) {}

  private static JobSummary summary(JobRow row, End end) {
    return new JobSummary(
        row.id(),
        row.plan(),
        row.planHash(),
        row.openedAt(),
        row.closed(),
        row.entries(),
        end.seq(),
        end.hash());
  }

  @Override
  public synchronized JobsFound find(JobSearch search) {
    return looking(() -> index().find(search));
  }

  @Override
  public synchronized JobRow row(String job) {
    return looking(
        () -> {
          Optional<JobRow> row = index().row(job);
          if (row.isEmpty()) {
            throw unknown(job);
          }
          return row.get();
        });
  }

  /** The one kept in the file; where there is none, or none to rely on, one made for as long. */
  private JobIndex index() throws SQLException {
    if (kept.isCurrentAndWhole()) {
      return kept;
    }
    JobIndex index = ofOlderFile;
    if (index == null) {
      index = JobIndex.inMemory(database);
      ofOlderFile = index;
    }
    index.follow();
    return index;
  }

  @Override
  public synchronized List<Entry> entries(String job) {
    return looking(
        () -> {
          JobEnd end = requireEnd(job);
          List<EntryRow> rows =
              database.list(
                  "SELECT " + EntryRow.COLUMNS + " FROM entry WHERE job = ? ORDER BY seq",
                  EntryRow::at,
                  job);
          return checked(job, rows, end);
        });
  }

  private List<Entry> checked(String job, List<EntryRow> rows, JobEnd end) {
    List<Entry> entries = new ArrayList<>();
    String previous = LogSchema.NO_PREVIOUS;
    for (EntryRow row : rows) {
      boolean follows = row.seq() == entries.size() + 1 && row.previous().equals(previous);
      if (!follows || !row.computedHash().equals(row.hash())) {
        throw missing(job, entries.size() + 1);
      }
      entries.add(EntryJson.read(row.json()));
      previous = row.hash();
    }
    if (entries.size() != end.seq() || !previous.equals(end.hash())) {
      throw missing(job, end.seq());
    }
    return List.copyOf(entries);
  }

  @Override
  public synchronized List<Seal> seals(String job) {
    return looking(
        () -> {
          requireEnd(job);
          return List.copyOf(
              database.list(
                  "SELECT seq, hash FROM entry WHERE job = ? AND kind = 'job-closed' ORDER BY seq",
                  row -> Seal.of(job, row.getLong(1), row.getString(2)),
                  job));
        });
  }

  @Override
  public synchronized Optional<String> hashOf(String job, long seq) {
    return looking(
        () -> {
          requireEnd(job);
          return database.first(
              "SELECT hash FROM entry WHERE job = ? AND seq = ?",
              row -> row.getString(1),
              job,
              seq);
        });
  }

  @Override
  public synchronized Optional<String> planText(String job) {
    return looking(
        () -> {
          requireEnd(job);
          EntryRow row = row(job, 1).orElseThrow(() -> missing(job, 1));
          if (!row.computedHash().equals(row.hash())
              || !(EntryJson.read(row.json()).statement() instanceof JobOpened opened)) {
            throw missing(job, 1);
          }
          return Optional.of(opened.planText()).filter(text -> !text.isEmpty());
        });
  }

  @Override
  public synchronized Optional<byte[]> clip(String hash) {
    return looking(
        () -> {
          Optional<byte[]> sound =
              database.first("SELECT sound FROM clip WHERE hash = ?", row -> row.getBytes(1), hash);
          if (sound.isPresent() && !SoundClip.hashOf(sound.get()).equals(hash)) {
            throw SqliteFaults.altered(name, hash);
          }
          return sound;
        });
  }

  @Override
  public synchronized boolean removeClip(String hash) {
    requireOpen();
    return attempt(
        "the clip was not removed",
        () -> database.writing(() -> database.update("DELETE FROM clip WHERE hash = ?", hash) > 0));
  }

  @Override
  public synchronized VerifyReport verify() {
    requireOpen();
    // Read before the entries are, because a writer goes on meanwhile.
    Optional<WriterMark.Acknowledged> left = path.flatMap(WriterMark::leftBehind);
    return new Verification(database, left).run();
  }

  @Override
  public synchronized void backup(Path target) {
    requireOpen();
    DataFile copy = new DataFile(target);
    if (copy.exists()) {
      throw new LogRefused(target + ": is there already; name a file that doesn't exist yet");
    }
    Path unfinished = copy.path().resolveSibling(copy.path().getFileName() + ".new");
    try {
      DataFile.deleteWithSideFiles(unfinished);
      copyTo(unfinished);
      requireSound(unfinished, target);
      DataFile.publish(unfinished, copy.path());
    } catch (SQLException e) {
      throw SqliteFaults.of(target.toString(), "the backup was not made", e);
    } catch (IOException e) {
      throw new LogFailed(
          target
              + ": the backup was not made ("
              + e.getMessage()
              + "); check its folder and the disk",
          e);
    } finally {
      DataFile.deleteQuietly(unfinished);
    }
  }

  private void copyTo(Path unfinished) throws SQLException, IOException {
    Files.createFile(unfinished);
    int code =
        database
            .connection()
            .unwrap(SQLiteConnection.class)
            .getDatabase()
            .backup("main", unfinished.toString(), null);
    if (code != 0) {
      throw new SQLException("copying stopped with code " + code, "", code);
    }
  }

  private static void requireSound(Path unfinished, Path target) {
    try (LogReader copy = SqliteLogs.openForReading(unfinished)) {
      VerifyReport report = copy.verify();
      if (!report.sound()) {
        throw new LogFailed(
            target
                + ": the backup was not made, the log itself is damaged: "
                + report.problems().get(0)
                + "; run verify to see all of it");
      }
    }
  }

  @Override
  public synchronized void close() {
    if (closed) {
      return;
    }
    closed = true;
    try {
      if (ofOlderFile != null) {
        ofOlderFile.close();
      }
      database.close();
      mark.ifPresent(WriterMark::close);
    } catch (SQLException e) {
      mark.ifPresent(WriterMark::abandon);
      throw SqliteFaults.of(name, "it was not closed cleanly", e);
    }
  }
}
