package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ThresholdCurveTest {

  /** A hearing whose rival is so far behind. */
  private static Heard heard(double lead, int rightAt) {
    return new Heard(
        "SLT",
        "none",
        "clean",
        "1",
        Outcome.EXACT,
        rightAt,
        10,
        1000,
        0,
        0,
        false,
        30,
        "",
        "fifteen",
        List.of(new Heard.Offered("fifteen", 0), new Heard.Offered("fifty", lead)));
  }

  private static List<String> firstTwo(String row) {
    return List.of(row.split(" \\| | \\(", -1)).subList(0, 3);
  }

  @Test
  void aHigherLimitAsksMoreAndNotesLessWrong() {
    List<Heard> all = new ArrayList<>();
    for (int lead = 1; lead <= 20; lead++) {
      all.add(heard(lead, lead <= 5 ? 1 : 0)); // those that are close are wrong
    }
    List<String> rows = ThresholdCurve.of(all, "lead").lines().toList();
    assertEquals(
        "20 hearings, 20 with a reading. Per cent with 95 % Wilson intervals.", rows.get(0));
    String lowest =
        rows.stream().filter(row -> row.startsWith("| 1.0 |")).findFirst().orElseThrow();
    assertTrue(lowest.startsWith("| 1.0 | 75.0 ("), lowest);
    assertTrue(lowest.contains(" | 25.0 ("), lowest);
    String sixth = rows.stream().filter(row -> row.startsWith("| 6.0 |")).findFirst().orElseThrow();
    assertTrue(sixth.startsWith("| 6.0 | 75.0 ("), sixth);
    assertTrue(sixth.contains(" | 0.0 ("), "nothing noted wrong: " + sixth);
    List<String> reliable =
        rows.subList(rows.indexOf("| lead from | n | best reading right |") + 2, rows.size());
    assertEquals(List.of("| 1.0", "2", "0.0"), firstTwo(reliable.get(0)));
    assertEquals(List.of("| 19.0", "2", "100.0"), firstTwo(reliable.get(reliable.size() - 1)));
  }

  @Test
  void anUnknownScoreIsRefused() {
    assertEquals(
        "bench.score: expected trust, lead, fit, overFiller or snr, found luck",
        assertThrows(IllegalArgumentException.class, () -> ThresholdCurve.of(List.of(), "luck"))
            .getMessage());
  }

  @Test
  void withoutHearingsThereIsNothingToShow() {
    assertTrue(ThresholdCurve.of(List.of(), "lead").startsWith("0 hearings, 0 with a reading."));
  }
}
