package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tallyback.speech.ByTrust;
import tallyback.speech.Likeness;
import tallyback.speech.Trust;

class JudgedAgainTest {

  /** What was asked, with "fifty" so far behind. */
  private static Heard heard(String id, double lead, int rightAt) {
    return new Heard(
        "RMS",
        "none",
        "clean",
        id,
        rightAt == 0 ? Outcome.ASKED_RIGHT : Outcome.ASKED_WRONG,
        rightAt,
        10,
        1000,
        50,
        0,
        false,
        45,
        "fifteen:50:300",
        "fifteen",
        List.of(new Heard.Offered("fifteen", 0), new Heard.Offered("fifty", lead)));
  }

  private static ByTrust needing(double lead) {
    return new ByTrust(
        new Trust(20, Map.of()),
        List.of(new ByTrust.At(10, 0.9)),
        0,
        Map.of(Likeness.TEN_FOR_TEEN, lead),
        Map.of(),
        -1000,
        -1000,
        -1000,
        -1000);
  }

  @Test
  void whatBecomesOfAHearingFollowsFromTheLimits() {
    Heard heard = heard("1", 15, 1);

    assertEquals(Outcome.ASKED_RIGHT, heard.judged(needing(20)).outcome());
    assertEquals(Outcome.NOTED_WRONG, heard.judged(needing(10)).outcome());
    assertEquals(Outcome.EXACT, heard("2", 15, 0).judged(needing(10)).outcome());
    assertEquals(
        Outcome.REJECTED,
        heard
            .judged(
                new ByTrust(
                    new Trust(-20, Map.of()),
                    List.of(new ByTrust.At(10, 0.9)),
                    0.5,
                    Map.of(),
                    Map.of(),
                    -1000,
                    -1000,
                    -1000,
                    -1000))
            .outcome());
  }

  @Test
  void anotherLimitNotesMoreOrLessOfTheSameHearings() {
    List<Heard> heard = List.of(heard("1", 5, -1), heard("2", 15, 0), heard("3", 25, 0));

    String wide = row(JudgedAgain.table(heard, needing(20)));
    assertTrue(wide.startsWith("| clean, all | 3 | 66.7 ("), wide);
    assertTrue(wide.contains("| 33.3 (") && wide.contains("| 0 = 0.0 ("), wide);
    assertTrue(wide.endsWith("| 1 |"), wide);
    String narrow = row(JudgedAgain.table(heard, needing(3)));
    assertTrue(narrow.contains("| 66.7 (") && narrow.contains("| 1 = 33.3 ("), narrow);
    assertTrue(narrow.endsWith("| 3 |"), narrow);
  }

  @Test
  void theSameHearingsDrawnAgainMakeTheSameCells() {
    List<Cell> cells = DrawnAgain.cells(List.of(heard("1", 5, -1), heard("2", 15, 0)));

    assertEquals(1, cells.size());
    assertEquals(2, cells.get(0).n());
    assertTrue(cells.get(0).snr().isClean());
    assertEquals(1, cells.get(0).share(Outcome.ASKED_RIGHT).count());
  }

  @Test
  void whatHadNoReadingStaysSo() {
    Heard nothing =
        new Heard(
            "RMS",
            "none",
            "clean",
            "1",
            Outcome.REJECTED,
            -1,
            10,
            1000,
            0,
            0,
            false,
            45,
            "",
            "six",
            List.of());
    assertTrue(
        row(JudgedAgain.table(List.of(nothing), needing(3))).contains("| 0.0 ("), "nothing noted");
    assertEquals(2, JudgedAgain.table(List.of(), needing(3)).lines().count(), "headings only");
  }

  private static String row(String table) {
    return table.lines().toList().get(2);
  }
}
