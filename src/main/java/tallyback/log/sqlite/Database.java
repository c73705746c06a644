package tallyback.log.sqlite;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A connection with the few ways of using it that the log needs. For one thread at a time. */
final class Database implements AutoCloseable {

  /** Something done with rows or in a transaction. */
  @FunctionalInterface
  interface Work<T extends @Nullable Object> {
    T run() throws SQLException;
  }

  /** Makes something of the row at the cursor. */
  @FunctionalInterface
  interface RowReader<T> {
    T read(ResultSet row) throws SQLException;
  }

  private final Connection connection;

  Database(Connection connection) {
    this.connection = connection;
  }

  Connection connection() {
    return connection;
  }

  void execute(String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  /** Runs one INSERT, UPDATE or DELETE; returns how many rows it touched. */
  int update(String sql, @Nullable Object... parameters) throws SQLException {
    try (PreparedStatement statement = prepared(sql, parameters)) {
      return statement.executeUpdate();
    }
  }

  <T> List<T> list(String sql, RowReader<T> reader, @Nullable Object... parameters)
      throws SQLException {
    try (PreparedStatement statement = prepared(sql, parameters);
        ResultSet rows = statement.executeQuery()) {
      List<T> all = new ArrayList<>();
      while (rows.next()) {
        all.add(reader.read(rows));
      }
      return all;
    }
  }

  <T> Optional<T> first(String sql, RowReader<T> reader, @Nullable Object... parameters)
      throws SQLException {
    try (PreparedStatement statement = prepared(sql, parameters);
        ResultSet rows = statement.executeQuery()) {
      return rows.next() ? Optional.of(reader.read(rows)) : Optional.empty();
    }
  }

  long number(String sql) throws SQLException {
    return first(sql, row -> row.getLong(1))
        .orElseThrow(() -> new SQLException("no answer to " + sql));
  }

  private PreparedStatement prepared(String sql, @Nullable Object... parameters)
      throws SQLException {
    PreparedStatement statement = connection.prepareStatement(sql);
    for (int i = 0; i < parameters.length; i++) {
      statement.setObject(i + 1, parameters[i]);
    }
    return statement;
  }

  /**
   * All of the work or nothing of it, with the write lock taken first so that it can't be lost half
   * way.
   */
  <T extends @Nullable Object> T writing(Work<T> work) throws SQLException {
    return inTransaction("BEGIN IMMEDIATE", work);
  }

  /** Something done without a result. */
  @FunctionalInterface
  interface Task {
    void run() throws SQLException;
  }

  /**
   * Work within a transaction that may fail: then nothing of it is left, and the transaction goes
   * on. A failure of the machine itself is no such failure.
   *
   * @return whether it went well
   */
  boolean tolerating(Task work) throws SQLException {
    execute("SAVEPOINT tolerating");
    boolean done = false;
    try {
      work.run();
      done = true;
    } catch (SQLException e) {
      if (!SqliteFaults.isOfTheTables(e)) {
        throw e;
      }
      execute("ROLLBACK TO tolerating");
    }
    execute("RELEASE tolerating");
    return done;
  }

  /** The work on one unchanging state of the file. */
  <T extends @Nullable Object> T reading(Work<T> work) throws SQLException {
    return inTransaction("BEGIN", work);
  }

  private <T extends @Nullable Object> T inTransaction(String begin, Work<T> work)
      throws SQLException {
    execute(begin);
    boolean done = false;
    try {
      T result = work.run();
      execute("COMMIT");
      done = true;
      return result;
    } finally {
      if (!done) {
        rollBack();
      }
    }
  }

  private void rollBack() {
    try {
      execute("ROLLBACK");
    } catch (SQLException e) {
      // SQLite has rolled back by itself after a full disk or a failed read; then there is nothing
      // left to do, and the
      // first error is the one to report.
    }
  }

  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
