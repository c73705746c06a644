package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Draft;
import tallyback.log.EntryJson;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.model.Entry;
import tallyback.model.Statement;

/**
 * The data file of the first schema, kept as it was written then, with its entries as JSON lines
 * beside it. Every later version must read it. {@link #main} wrote both, once.
 */
final class FixtureTest {

  /**
   * The ends of its two chains, computed from the file's rows by a program in another language
   * (Python's sqlite3 and hashlib) that follows the description at {@link EntryRow}.
   */
  private static final String PUMP_END =
      "c8d6e85081a5f8d31fe90b7f786c57bf5cf47008eac8a16f7cea38b23e8cf010";

  private static final String BELT_END =
      "f213d069307b701dcdccb8243849a07f36bc3f937fb60e60caa06179f202bb2e";

  @TempDir Path folder;

  private static byte[] fixture(String name) throws IOException {
    try (InputStream in = FixtureTest.class.getResourceAsStream("/fixtures/" + name)) {
      return Objects.requireNonNull(in, name).readAllBytes();
    }
  }

  private Path unpacked() throws IOException {
    return Files.write(folder.resolve("log-schema-1.db"), fixture("log-schema-1.db"));
  }

  @Test
  void theFileOfTheFirstSchemaIsReadAndVerifies() throws IOException {
    Path file = unpacked();
    List<String> expected =
        new String(fixture("log-schema-1.jsonl"), StandardCharsets.UTF_8).lines().toList();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      List<String> found = new ArrayList<>();
      for (JobSummary job : log.jobs()) {
        log.entries(job.id()).forEach(entry -> found.add(EntryJson.text(entry)));
      }
      assertEquals(expected, found);
      assertEquals(List.of(), log.verify().problems());
      assertEquals(List.of(), log.verify().notices());
      assertEquals(Examples.PLAN, log.planText("pump").orElseThrow());
      assertArrayEquals(
          Examples.clip(3, 1000).bytes(), log.clip(Examples.clip(3, 1000).hash()).orElseThrow());
    }
  }

  @Test
  void itsChainsEndWhereAnIndependentProgramFindsTheirEnds() throws IOException {
    try (LogReader log = SqliteLogs.openForReading(unpacked())) {
      assertEquals(PUMP_END, log.choose("pump").lastHash());
      assertEquals(BELT_END, log.choose("belt").lastHash());
    }
  }

  @Test
  void itCanBeWrittenOn() throws IOException {
    Path file = unpacked();
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      Entry entry = log.append(Examples.draft("belt", "later", new Statement.Memo()), null);
      assertEquals(3, entry.seq());
    }
    TestFile.assertSound(file);
  }

  @Test
  void whoeverWritesOnItMakesItsSchemaThatOfToday() throws IOException, SQLException {
    Path fresh = folder.resolve("fresh.db");
    SqliteLogs.openForWriting(fresh).close();
    Path file = unpacked();
    assertNotEquals(schema(fresh), schema(file));
    SqliteLogs.openForWriting(file).close();
    assertEquals(schema(fresh), schema(file));
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      assertEquals(PUMP_END, log.choose("pump").lastHash());
      assertEquals(34, log.append(visit(), null).seq());
      assertEquals(List.of(), log.verify().problems());
    }
  }

  private static Draft visit() {
    return Examples.draft("pump", "visit", new Statement.VisitBegun("to look again"));
  }

  /** Looking alone changes nothing in it. */
  @Test
  void whoeverLooksLeavesItAsItIs() throws IOException {
    Path file = unpacked();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      assertEquals(1, log.seals("pump").size());
    }
    assertArrayEquals(fixture("log-schema-1.db"), Files.readAllBytes(file));
  }

  private static List<String> schema(Path file) throws SQLException {
    try (Database database = TestFile.raw(file)) {
      return database.list(
          "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name",
          row -> row.getString(1));
    }
  }

  /** Writes the two files into the folder given. Only for a new schema, under a new name. */
  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args[0]);
    List<String> lines = new ArrayList<>();
    try (JobLog log = SqliteLogs.openForWriting(folder.resolve("log-schema-1.db"))) {
      int number = 0;
      for (Statement statement : Examples.statements()) {
        number++;
        var draft = Examples.draft("pump", "bench-1-" + number, statement);
        if (statement instanceof Statement.JobOpened) {
          log.openJob(draft);
        } else {
          log.append(draft, number % 3 == 0 ? Examples.clip(number, 1000) : null);
        }
      }
      log.openJob(Examples.draft("belt", "bench-2-1", Examples.opening("")));
      log.append(Examples.draft("belt", "bench-2-2", new Statement.Memo()), null);
      for (JobSummary job : log.jobs()) {
        log.entries(job.id()).forEach(entry -> lines.add(EntryJson.text(entry)));
      }
    }
    Files.write(folder.resolve("log-schema-1.jsonl"), lines, StandardCharsets.UTF_8);
  }
}
