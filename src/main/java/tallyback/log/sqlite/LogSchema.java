package tallyback.log.sqlite;

import java.util.List;

/**
 * The schemas of the data file, statement by statement, as SQLite keeps their text. Verification
 * compares the text, so a change here is a new schema with a number of its own and an upgrade from
 * the one before. The second differs from the first in one trigger: a job that was closed may be
 * gone on with by a visit. The third has the tables of the {@link JobIndex} besides, which are no
 * part of what is verified: they are made of the entries.
 */
final class LogSchema {

  /** "TALY" in ASCII, at offset 68 of the file's header: marks the file as ours. */
  static final int APPLICATION_ID = 0x54414C59;

  /** The newest schema's number, at offset 60 of the file's header. */
  static final int USER_VERSION = 3;

  /** The first schema with the tables of the {@link JobIndex}. */
  static final int FIRST_WITH_INDEX = 3;

  /** What stands in place of the previous hash in a job's first entry. */
  static final String NO_PREVIOUS = "0".repeat(64);

  private static final String CLIP =
      """
      CREATE TABLE clip (
        hash TEXT NOT NULL PRIMARY KEY CHECK (length(hash) = 64),
        sound BLOB NOT NULL
      ) STRICT, WITHOUT ROWID""";

  // Without rowid, or an INSERT OR REPLACE that names the rowid of another row would remove that
  // row.
  private static final String ENTRY =
      """
      CREATE TABLE entry (
        job TEXT NOT NULL,
        seq INTEGER NOT NULL CHECK (seq >= 1),
        id TEXT NOT NULL UNIQUE,
        happened_at_ms INTEGER NOT NULL,
        recorded_at_ms INTEGER NOT NULL,
        zone TEXT NOT NULL,
        actor TEXT NOT NULL,
        device TEXT NOT NULL,
        source TEXT NOT NULL,
        certainty TEXT NOT NULL,
        words TEXT NOT NULL,
        kind TEXT NOT NULL,
        json TEXT NOT NULL,
        clip TEXT,
        previous TEXT NOT NULL CHECK (length(previous) = 64),
        hash TEXT NOT NULL CHECK (length(hash) = 64),
        PRIMARY KEY (job, seq)
      ) STRICT, WITHOUT ROWID""";

  // How far each job reaches: without it, the loss of a job's last rows would leave a shorter but
  // perfect chain.
  private static final String JOB_END =
      """
      CREATE TABLE job_end (
        job TEXT NOT NULL PRIMARY KEY,
        seq INTEGER NOT NULL,
        hash TEXT NOT NULL
      ) STRICT, WITHOUT ROWID""";

  private static final String ENTRY_NEVER_CHANGED =
      """
      CREATE TRIGGER entry_never_changed BEFORE UPDATE ON entry
      BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END""";

  private static final String ENTRY_NEVER_REMOVED =
      """
      CREATE TRIGGER entry_never_removed BEFORE DELETE ON entry
      BEGIN SELECT RAISE(ABORT, 'an entry is never removed'); END""";

  // INSERT OR REPLACE removes rows without firing the trigger above; so an insert that would meet
  // one is refused here.
  private static final String ENTRY_ONLY_ADDED =
      entryOnlyAdded(
          "('job-closed' IS (SELECT kind FROM entry WHERE job = NEW.job AND seq = NEW.seq - 1))"
              + " IS NOT (NEW.kind = 'visit')");

  private static final String ENTRY_ONLY_ADDED_1 =
      entryOnlyAdded(
          "'job-closed' IS (SELECT kind FROM entry WHERE job = NEW.job AND seq = NEW.seq - 1)");

  private static String entryOnlyAdded(String afterClosing) {
    return """
      CREATE TRIGGER entry_only_added BEFORE INSERT ON entry
      WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
        OR EXISTS (SELECT 1 FROM entry WHERE job = NEW.job AND seq = NEW.seq)
        OR NEW.seq IS NOT 1 + (SELECT coalesce(max(seq), 0) FROM entry WHERE job = NEW.job)
        OR NEW.previous IS NOT coalesce(
          (SELECT hash FROM entry WHERE job = NEW.job AND seq = NEW.seq - 1),
          '%s')
        OR (NEW.seq = 1) IS NOT (NEW.kind = 'job-opened')
        OR %s
      BEGIN SELECT RAISE(ABORT, 'an entry only follows the last one of its open job'); END"""
        .formatted(NO_PREVIOUS, afterClosing);
  }

  private static final String CLIP_NEVER_CHANGED =
      """
      CREATE TRIGGER clip_never_changed BEFORE UPDATE ON clip
      BEGIN SELECT RAISE(ABORT, 'a clip is never changed'); END""";

  private static final String CLIP_NEVER_REPLACED =
      """
      CREATE TRIGGER clip_never_replaced BEFORE INSERT ON clip
      WHEN EXISTS (SELECT 1 FROM clip WHERE hash = NEW.hash)
      BEGIN SELECT RAISE(ABORT, 'a clip is never replaced'); END""";

  private static final String JOB_END_NEVER_REMOVED =
      """
      CREATE TRIGGER job_end_never_removed BEFORE DELETE ON job_end
      BEGIN SELECT RAISE(ABORT, 'the end of a job is never removed'); END""";

  private static final String JOB_END_STARTS_AT_ONE =
      """
      CREATE TRIGGER job_end_starts_at_one BEFORE INSERT ON job_end
      WHEN EXISTS (SELECT 1 FROM job_end WHERE job = NEW.job)
        OR NEW.seq IS NOT 1
        OR NEW.hash IS NOT (SELECT hash FROM entry WHERE job = NEW.job AND seq = 1)
      BEGIN SELECT RAISE(ABORT, 'a job starts at its first entry'); END""";

  private static final String JOB_END_GOES_FORWARD =
      """
      CREATE TRIGGER job_end_goes_forward BEFORE UPDATE ON job_end
      WHEN NEW.job IS NOT OLD.job
        OR NEW.seq IS NOT OLD.seq + 1
        OR NEW.hash IS NOT (SELECT hash FROM entry WHERE job = NEW.job AND seq = NEW.seq)
      BEGIN SELECT RAISE(ABORT, 'the end of a job only goes on to its next entry'); END""";

  /** All of the newest schema that counts, in the order it is made. */
  static final List<String> STATEMENTS =
      List.of(
          CLIP,
          ENTRY,
          JOB_END,
          ENTRY_NEVER_CHANGED,
          ENTRY_NEVER_REMOVED,
          ENTRY_ONLY_ADDED,
          CLIP_NEVER_CHANGED,
          CLIP_NEVER_REPLACED,
          JOB_END_NEVER_REMOVED,
          JOB_END_STARTS_AT_ONE,
          JOB_END_GOES_FORWARD);

  private LogSchema() {}

  /**
   * All of a schema.
   *
   * @param version its number, 1 at least; of one that isn't known yet the newest
   */
  static List<String> statements(long version) {
    return version == 1
        ? STATEMENTS.stream()
            .map(each -> each.equals(ENTRY_ONLY_ADDED) ? ENTRY_ONLY_ADDED_1 : each)
            .toList()
        : STATEMENTS;
  }

  /** What makes the second schema of the first, within one transaction. */
  static List<String> upgradeFrom1() {
    return List.of("DROP TRIGGER entry_only_added", ENTRY_ONLY_ADDED);
  }

  /** The name of the table or trigger a statement makes: its third word. */
  static String nameIn(String statement) {
    return statement.split("\\s+", 4)[2];
  }
}
