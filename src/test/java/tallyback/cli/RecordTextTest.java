package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a record for the owner says, held against the log. */
class RecordTextTest {

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Path data;

  @BeforeEach
  void tell() {
    data = folder.resolve("job.tallyback");
    for (String line :
        List.of(
            "@2026-03-02T09:00:00Z six splash guard bolts off",
            "@2026-03-02T09:10:00Z four splash guard bolts back on",
            "@2026-03-02T09:20:00Z drained two point one litres from the block plug",
            "memo: \ud83d\udd27 <b>\u03a9\u03bc\u03ad\u03b3\u03b1</b> & \u201csons\u201d, a very long remark that goes on and"
                + " on so that it takes more than one line of the annex on paper, however wide it is",
            "@2026-03-02T09:30:00Z torqued the outlet nuts to nineteen newton metres",
            "@2026-03-02T09:40:00Z freeze protection minus twenty five degrees celsius")) {
      Ran ran = Ran.command("enter", "--plan", "demo-data/plan.yaml", "--data", data, line);
      assertEquals(0, ran.code(), ran.err());
    }
    assertEquals(0, Ran.command("close", "--data", data).code());
  }

  private Path record(String name, String units) {
    Path file = folder.resolve(name);
    Ran ran = Ran.command("report", "--owner", "--data", data, "--units", units, "--out", file);
    assertEquals(0, ran.code(), ran.err());
    return file;
  }

  private Ran verify(Path record) {
    return Ran.command("verify", "--data", data, "--record", record);
  }

  @ParameterizedTest
  @CsvSource({"a.pdf, metric", "b.pdf, us", "c.html, metric", "d.html, us"})
  void tellsEveryEntryAsTheLogHasIt(String name, String units) {
    Path file = record(name, units);
    Ran ran = verify(file);
    assertEquals(0, ran.code(), ran.out());
    assertTrue(ran.out().contains(file + ": tells 8 entries as the log has them"), ran.out());
  }

  @Test
  void stillDoesAfterAVisit() {
    Path before = record("before.pdf", "metric");
    Ran changed =
        Ran.command(
            "review",
            "--data",
            data,
            "--change",
            "3",
            "--by",
            "Mira",
            "--why",
            "heard it",
            "six splash guard bolts back on");
    assertEquals(0, changed.code(), changed.err());
    Path after = record("after.pdf", "metric");
    assertEquals(0, verify(before).code(), verify(before).out());
    assertEquals(0, verify(after).code(), verify(after).out());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          4 back on     | 6 back on     | entry no. 3
          19 N\u00b7m   | 21 N\u00b7m   | entry no. 6
          \u221225 \u00b0C | 25 \u00b0C | entry no. 7
          """)
  void whatWasAlteredInItIsNamed(String was, String is, String entry) throws IOException {
    Path file = record("altered.html", "metric");
    String text = Files.readString(file).replace('\u00a0', ' ');
    int annex = text.indexOf("annex-told\"");
    String altered =
        text.substring(0, annex) + text.substring(annex).replace(was.strip(), is.strip());
    assertTrue(!altered.equals(text), () -> "expected \"" + was + "\" in " + text.substring(annex));
    Files.writeString(file, altered);
    Ran ran = verify(file);
    assertEquals(1, ran.code(), ran.out());
    assertTrue(ran.out().contains("altered.html, " + entry), ran.out());
    assertTrue(ran.out().contains("told otherwise, or not at all"), ran.out());
  }
}
