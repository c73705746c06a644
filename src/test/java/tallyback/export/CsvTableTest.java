package tallyback.export;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.util.List;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Unit;
import tallyback.report.HostileText;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;
import tallyback.report.OrchardJob;

/** Tables as an independent reader (Commons CSV) reads them. */
class CsvTableTest {

  private static final long SEED = 20_260_302;

  private static List<CSVRecord> rows(JobRecord job) throws IOException {
    CSVFormat form = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser parser = CSVParser.parse(new StringReader(Export.csv(job).text()), form)) {
      return parser.getRecords();
    }
  }

  private static Statement spilled(String value, Unit unit) {
    return new Statement.FluidMoved(
        FluidMove.LOST, Amount.of(value, unit), true, null, null, null, null, null, null, null);
  }

  @Test
  void everyEntryIsARowAndLinesEndWithCrLf() throws IOException {
    JobRecord job = OrchardJob.record();
    List<CSVRecord> rows = rows(job);
    assertEquals(job.entries().size(), rows.size());
    String text = Export.csv(job).text();
    assertTrue(text.endsWith("\r\n"));
    assertEquals(rows.size() + 1, text.split("\r\n", -1).length - 1);
    assertFalse(text.replace("\r\n", "").contains("\n"));
    for (int i = 0; i < rows.size(); i++) {
      assertTrue(rows.get(i).isConsistent());
      assertEquals(Long.toString(job.entries().get(i).seq()), rows.get(i).get("number"));
      assertEquals(job.entries().get(i).words(), rows.get(i).get("words"));
    }
  }

  @Test
  void amountsAreNumbersWithTheirUnitBesideThem() throws IOException {
    CSVRecord spilled = rows(new Told().at(60.25, spilled("200", Unit.MILLILITRE)).record()).get(1);
    assertEquals("2026-03-02T09:01:00.250+01:00", spilled.get("happened_at"));
    assertEquals("fluid", spilled.get("kind"));
    assertEquals("200", spilled.get("amount"));
    assertEquals("mL", spilled.get("unit"));
    assertEquals("yes", spilled.get("about"));
    assertEquals("confirmed", spilled.get("certainty"));
    CSVRecord cold =
        rows(new Told()
                .at(
                    60,
                    new Statement.Measured(
                        Statement.Measure.STRENGTH,
                        Amount.of("-37", Unit.CELSIUS),
                        null,
                        null,
                        null,
                        null,
                        null))
                .record())
            .get(1);
    assertEquals("-37", cold.get("amount"));
  }

  @Test
  void aNumberWithoutAUnitHasNone() throws IOException {
    CSVRecord spilled = rows(new Told().unsure(60, spilled("22", Unit.UNSAID)).record()).get(1);
    assertEquals("22", spilled.get("amount"));
    assertEquals("", spilled.get("unit"));
    assertTrue(spilled.get("meaning").contains("unit not said"), spilled.get("meaning"));
    assertEquals("unconfirmed", spilled.get("certainty"));
  }

  @Test
  void whatWasWithdrawnCorrectedOrMovedSaysByWhich() throws IOException {
    List<CSVRecord> rows =
        rows(
            new Told()
                .at(10, spilled("200", Unit.MILLILITRE))
                .at(20, new Statement.Undone(Told.id(2)))
                .at(30, spilled("300", Unit.MILLILITRE))
                .at(40, new Statement.Corrected(Told.id(4), spilled("30", Unit.MILLILITRE)))
                .at(50, new Statement.Retimed(Told.id(4), Told.NINE.plusSeconds(5)))
                .record());
    assertEquals("no", rows.get(1).get("stands"));
    assertEquals("3", rows.get(1).get("withdrawn_by"));
    assertEquals("2", rows.get(2).get("changes"));
    assertEquals("5", rows.get(3).get("corrected_by"));
    assertEquals("6", rows.get(3).get("time_changed_by"));
    assertEquals("2026-03-02T09:00:05.000+01:00", rows.get(3).get("happened_at"));
    assertEquals("correction", rows.get(4).get("kind"));
    assertEquals("30", rows.get(4).get("amount"));
    assertEquals("4", rows.get(4).get("changes"));
    assertEquals("yes", rows.get(4).get("stands"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "\t=1+1",
        "\r\n=1",
        "  =1",
        "\"=1\"",
        "'=1",
        "\uff1d1",
        "=cmd|' /C calc'!A0",
        "|x",
        "%0a=1"
      })
  void noTextIsAFormula(String text) throws IOException {
    try (CSVParser parser = CSVParser.parse(CsvTable.cell(text) + "\r\n", CSVFormat.RFC4180)) {
      String cell = parser.getRecords().get(0).get(0);
      assertTrue(cell.startsWith("'"), cell);
    }
  }

  @ParameterizedTest
  @CsvSource(
      value = {"six pump bolts|six pump bolts", "a, b|\"a, b\"", "say \"ah\"|\"say \"\"ah\"\"\""},
      delimiter = '|',
      quoteCharacter = '\u0000')
  void fairTextStaysAsItIs(String text, String cell) {
    assertEquals(cell, CsvTable.cell(text));
  }

  @Test
  void hostileNamesStayInTheirCells() throws IOException {
    Random random = new Random(SEED);
    for (int round = 0; round < 300; round++) {
      String hostile = HostileText.from(random);
      JobRecord job = OrchardJob.named(hostile);
      List<CSVRecord> rows = rows(job);
      assertEquals(job.entries().size(), rows.size(), hostile);
      String shown =
          JobWords.harmless(hostile.replaceAll("[\\r\\n\\t\\u0085\\u2028\\u2029]+", " "));
      for (CSVRecord row : rows) {
        assertTrue(row.isConsistent(), hostile);
        assertEquals(shown, row.get("words"), () -> "seed " + SEED);
        assertEquals(shown, row.get("device"));
      }
    }
  }

  @Test
  void aKindForEveryEntry() throws IOException {
    JobRecord job = OrchardJob.record();
    List<CSVRecord> rows = rows(job);
    for (Entry entry : job.entries()) {
      assertEquals(
          tallyback.log.EntryJson.kind(entry.statement()),
          rows.get((int) entry.seq() - 1).get("kind"));
    }
  }
}
