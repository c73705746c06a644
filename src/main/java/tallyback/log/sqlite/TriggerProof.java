package tallyback.log.sqlite;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sqlite.SQLiteConfig;

/**
 * Shows that a file's own triggers refuse damage: the file's schema is made anew in memory, filled
 * with two entries, and each kind of damage is attempted there. So the file itself is never put at
 * risk, and one that can only be read can be checked too.
 */
final class TriggerProof {

  private static final String A = "'" + "a".repeat(64) + "'";
  private static final String B = "'" + "b".repeat(64) + "'";
  private static final String C = "'" + "c".repeat(64) + "'";

  /** A row's values but for job, seq, id, kind, previous and hash. */
  private static final String INSERT =
      "INTO entry ("
          + EntryRow.COLUMNS
          + ") VALUES ('j', %d, '%s', 0, 0, 'UTC', 'x', 'x', 'typed',"
          + " 'confirmed', '', '%s', '{}', NULL, %s, %s)";

  private static final List<String> ROWS =
      List.of(
          insert("INSERT ", 1, "one", "job-opened", "'" + LogSchema.NO_PREVIOUS + "'", A),
          "INSERT INTO job_end (job, seq, hash) VALUES ('j', 1, " + A + ")",
          insert("INSERT ", 2, "two", "memo", A, B),
          "UPDATE job_end SET seq = 2, hash = " + B + " WHERE job = 'j'",
          "INSERT INTO clip (hash, sound) VALUES (" + C + ", x'00')");

  private static final Map<String, String> DAMAGE = new LinkedHashMap<>();

  static {
    DAMAGE.put("an entry changed", "UPDATE entry SET words = 'other' WHERE seq = 2");
    DAMAGE.put(
        "an entry changed with OR REPLACE", "UPDATE OR REPLACE entry SET seq = 1 WHERE seq = 2");
    DAMAGE.put("an entry removed", "DELETE FROM entry WHERE seq = 2");
    DAMAGE.put("all entries removed", "DELETE FROM entry");
    DAMAGE.put("an entry replaced", insert("INSERT OR REPLACE ", 2, "three", "memo", A, C));
    DAMAGE.put("an entry replaced by its id", insert("REPLACE ", 3, "two", "memo", B, C));
    DAMAGE.put(
        "an entry changed by an insert",
        insert("INSERT ", 2, "three", "memo", A, C) + " ON CONFLICT DO UPDATE SET words = 'other'");
    DAMAGE.put("a number left out", insert("INSERT ", 4, "four", "memo", B, C));
    DAMAGE.put(
        "an entry that doesn't follow the last", insert("INSERT ", 3, "three", "memo", A, C));
    DAMAGE.put("a second opening", insert("INSERT ", 3, "three", "job-opened", B, C));
    DAMAGE.put("a clip changed", "UPDATE clip SET sound = x'01'");
    DAMAGE.put(
        "a clip replaced", "INSERT OR REPLACE INTO clip (hash, sound) VALUES (" + C + ", x'01')");
    DAMAGE.put("a job's end removed", "DELETE FROM job_end");
    DAMAGE.put("a job's end set back", "UPDATE job_end SET seq = 1, hash = " + A);
    DAMAGE.put(
        "a job's end replaced",
        "INSERT OR REPLACE INTO job_end (job, seq, hash) VALUES ('j', 1, " + A + ")");
  }

  private TriggerProof() {}

  private static String insert(
      String verb, long seq, String id, String kind, String previous, String hash) {
    return verb + INSERT.formatted(seq, id, kind, previous, hash);
  }

  /**
   * The kinds of damage that tables and triggers made from these statements let through; empty when
   * all is well.
   */
  static List<String> damageLetThrough(Collection<String> schema) throws SQLException {
    List<String> through = new ArrayList<>();
    try (Database database = filled(schema)) {
      for (Map.Entry<String, String> damage : DAMAGE.entrySet()) {
        if (goesThrough(database, damage.getValue())) {
          through.add(damage.getKey());
        }
      }
    }
    return through;
  }

  private static Database filled(Collection<String> schema) throws SQLException {
    Database database = new Database(new SQLiteConfig().createConnection("jdbc:sqlite::memory:"));
    database.execute("PRAGMA trusted_schema = OFF");
    // Tables first: a trigger needs its table.
    for (String statement : schema.stream().filter(TriggerProof::makesTable).toList()) {
      database.execute(statement);
    }
    for (String statement : schema.stream().filter(each -> !makesTable(each)).toList()) {
      database.execute(statement);
    }
    for (String row : ROWS) {
      database.execute(row);
    }
    return database;
  }

  private static boolean makesTable(String statement) {
    return statement.startsWith("CREATE TABLE");
  }

  private static boolean goesThrough(Database database, String damage) throws SQLException {
    database.execute("SAVEPOINT before_damage");
    try {
      database.execute(damage);
      return true;
    } catch (SQLException e) {
      return false;
    } finally {
      database.execute("ROLLBACK TO before_damage");
      database.execute("RELEASE before_damage");
    }
  }
}
