package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.xml.sax.InputSource;

class TablesTest {

  private static final Snr FIFTEEN = Snr.list("15").get(0);

  private static Cell cell(String noise, Snr snr, long exact, long notedWrong) {
    return new Cell(
        "SLT", noise, snr, Map.of(Outcome.EXACT, exact, Outcome.NOTED_WRONG, notedWrong), 40, 1000);
  }

  private static final List<Cell> CELLS =
      List.of(
          cell("none", Snr.CLEAN, 10, 0), cell("steam", FIFTEEN, 9, 1), cell("saw", FIFTEEN, 5, 0));

  /** R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3. */
  @ParameterizedTest
  @CsvSource({
    "81, 263, 0.2553, 0.3662",
    "15, 148, 0.0624, 0.1605",
    "0, 20, 0.0000, 0.1611",
    "1, 29, 0.0061, 0.1718"
  })
  void intervalsAreWilsons(long count, long of, double low, double high) {
    assertEquals(low, new Share(count, of).low(), 0.00005);
    assertEquals(high, new Share(count, of).high(), 0.00005);
  }

  @Test
  void aCellIsOneJsonObject() {
    assertEquals(
        "{\"set\":\"SLT\",\"noise\":\"steam\",\"snrDb\":15,\"n\":10,\"exact\":9,\"askedRight\":0,"
            + "\"askedWrong\":0,\"notedWrong\":1,\"rejected\":0,\"timeRatio\":0.0400}",
        CELLS.get(1).json());
    assertTrue(CELLS.get(0).json().contains("\"snrDb\":null"));
  }

  @Test
  void theWorstNoiseIsNamedBesideTheNoisesTogether() {
    List<String> rows =
        Tables.of(CELLS).markdown().lines().filter(row -> row.startsWith("| SLT")).toList();
    assertTrue(rows.get(0).startsWith("| SLT | none | clean | 10 | 100.0 ("), rows.get(0));
    assertTrue(rows.get(1).startsWith("| SLT | all noises | 15 dB | 15 | 93.3 ("), rows.get(1));
    assertTrue(rows.get(1).endsWith("| steam (90.0) |"), rows.get(1));
  }

  @Test
  void theTableOfCellsHasAFieldBelowEveryHeading() {
    List<List<String>> rows =
        Tables.of(CELLS).tsv().lines().map(row -> List.of(row.split("\t", -1))).toList();
    assertEquals(4, rows.size());
    assertEquals(
        1, rows.stream().map(List::size).collect(Collectors.toSet()).size(), rows::toString);
  }

  @Test
  void thePictureIsWellFormedAndShowsEverySetAndRatio() throws Exception {
    String svg = Curves.draw(CELLS);
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
    Stream.of(
            "% of entries · 1 synthetic voice · 2 noises · bands: 95 % intervals<",
            ">clean<",
            ">15 dB<",
            ">noted right<",
            ">asked,<",
            ">noted wrong<",
            ">steam<",
            "<title id=\"title\">Entries heard in noise</title>",
            "15 dB: 15 entries, noted right 93.3 %, asked with the right reading offered 0 %, noted"
                + " wrong 6.7 %, worst noise steam with 90 %.")
        .forEach(part -> assertTrue(svg.contains(part), part));
  }

  @Test
  void damagedSoundIsARowOfItsOwnAndNotInThePicture() {
    List<Cell> cells = new ArrayList<>(CELLS);
    cells.add(cell("hum50", Snr.CLEAN, 3, 4));
    List<String> rows =
        Tables.of(cells).markdown().lines().filter(row -> row.startsWith("| SLT")).toList();
    assertTrue(rows.get(0).startsWith("| SLT | none | clean | 10 | 100.0 ("), rows.get(0));
    assertTrue(rows.get(2).startsWith("| SLT | hum50 | clean | 7 | 42.9 ("), rows.get(2));
    assertEquals(Curves.draw(CELLS), Curves.draw(cells));
  }

  @Test
  void speechThatIsNoEntryIsNotInThePicture() {
    List<Cell> cells = new ArrayList<>(CELLS);
    cells.add(
        new Cell(
            "talk (not in the grammar)", "none", Snr.CLEAN, Map.of(Outcome.REJECTED, 9L), 1, 9));
    assertEquals(Curves.draw(CELLS), Curves.draw(cells));
  }

  /** Names of noise files as their collections give them. */
  @ParameterizedTest
  @CsvSource({
    "opensfx_33_air_hammer, air hammer",
    "sc_running_tap, running tap",
    "steam, steam",
    "opensfx_11_elevator_machinery, elevator machin…"
  })
  void aNoiseIsNamedReadably(String file, String words) {
    assertEquals(words, Curves.readable(file));
  }

  @Test
  void aHearingIsReadBackAsItWasKept() {
    Heard heard =
        new Heard(
            "SLT",
            "steam",
            "15 dB",
            "00001",
            Outcome.ASKED_RIGHT,
            1,
            12.5,
            900,
            -3.25,
            40,
            true,
            22.5,
            "six:12:210 bolts:-3:420",
            "six bolts",
            List.of(new Heard.Offered("six bolts", 0), new Heard.Offered("six bolt", 12.25)));
    assertEquals(heard, Heard.of(heard.line()));
    assertNull(Heard.of(heard.line().substring(0, heard.line().length() - 1)));
  }
}
