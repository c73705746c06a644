package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;

class SampleTest {

  /**
   * The worked example of the NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.2,
   * Percentiles: twelve measurements of a gauge study, place 0.9 (12 + 1) = 11.7, 90th percentile
   * 95.1981.
   */
  @Test
  void agreesWithTheWorkedExampleOfTheHandbook() {
    Sample gauge =
        new Sample(
            List.of(
                95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065,
                95.0925, 95.1990, 95.1682));
    assertEquals(95.1981, gauge.quantile(90), 0.00005);
  }

  /** Hyndman and Fan, definition 6: p (n + 1) = 1.5 and 4.5 of five values. */
  @Test
  void quartilesOfFiveLieHalfWayBetweenTheOuterValues() {
    Sample minutes = new Sample(List.of(20.0, 10.0, 40.0, 12.0, 15.0));
    assertEquals(15, minutes.median(), 1e-9);
    assertEquals(11, minutes.quantile(25), 1e-9);
    assertEquals(30, minutes.quantile(75), 1e-9);
  }

  @Test
  void oneAndTwoValuesHaveAMedianToo() {
    assertEquals(7, new Sample(List.of(7.0)).median(), 1e-9);
    assertEquals(8, new Sample(List.of(9.0, 7.0)).median(), 1e-9);
    assertThrows(IllegalArgumentException.class, () -> new Sample(List.of()));
  }
}
