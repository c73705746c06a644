package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.trade.ControlCharts.Individuals;
import tallyback.trade.ControlCharts.Sums;

/** Against the worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods. */
class ControlChartsTest {

  /** 6.3.2.2, flow rate. */
  @Test
  void individualsAreThoseOfTheHandbook() {
    Individuals chart =
        ControlCharts.individuals(
            new double[] {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1});
    assertEquals(50.81, chart.mean(), 0.00005);
    assertEquals(1.8778, chart.meanRange(), 0.00005);
    assertEquals(55.8041, chart.upper(), 0.0002);
    assertEquals(45.8159, chart.lower(), 0.0002);
    assertEquals(1.8778 / 1.128, chart.sigma(), 0.0001);
  }

  /** 6.3.2.4; the handbook prints the lower limit 47.4115, unrounded 47.41157. */
  @Test
  void movingAveragesAreThoseOfTheHandbook() {
    double[] values = {
      52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
      49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1
    };
    double[] printed = {
      50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
      50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99
    };
    List<Double> averages = ControlCharts.movingAverages(values, 50, 0.3);
    for (int index = 0; index < printed.length; index++) {
      assertEquals(printed[index], averages.get(index), 0.0051, "value " + index);
    }
    double reach = ControlCharts.reachOfMovingAverage(2.0539, 0.3, 3);
    assertEquals(52.5884, 50 + reach, 0.0001);
    assertEquals(47.4116, 50 - reach, 0.0001);
    assertTrue(averages.stream().allMatch(each -> Math.abs(each - 50) < reach), "in control");
  }

  /** 6.3.2.3; half-way ties are printed either way, so to half of the last figure. */
  @Test
  void cumulativeSumsAreThoseOfTheHandbook() {
    double[] values = {
      324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6,
      324.625, 325.15, 328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35
    };
    double[] high = {
      0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.0, 19.04
    };
    double[] low = {
      0, 0.01, 0, 0.33, 0, 0, 0.56, 0.72, 0.17, 0.25, 0.31, 0, 0, 0, 0, 0, 0, 0, 0, 0
    };
    List<Sums> sums = ControlCharts.cumulativeSums(values, 325, 0.3175, 0);
    for (int index = 0; index < values.length; index++) {
      assertEquals(high[index], sums.get(index).high(), 0.00501, "high " + index);
      assertEquals(low[index], sums.get(index).low(), 0.00501, "low " + index);
      assertEquals(index >= 13, sums.get(index).high() > 4.1959, "signal " + index);
    }
  }

  /**
   * Lucas and Crosier 1982, table 5: with a head start of half the limit it signals at the third.
   */
  @Test
  void aHeadStartSignalsEarlier() {
    double[] values = {0.8, 1.9, 1.4, 2.0, 1.1, 0.7, 2.6};
    double[] plain = {0.3, 1.7, 2.6, 4.1, 4.7, 4.9, 7.0};
    double[] started = {2.8, 4.2, 5.1, 6.6, 7.2, 7.4, 9.5};
    for (int index = 0; index < values.length; index++) {
      assertEquals(
          plain[index], ControlCharts.cumulativeSums(values, 0, 0.5, 0).get(index).high(), 1e-9);
      assertEquals(
          started[index],
          ControlCharts.cumulativeSums(values, 0, 0.5, 2.5).get(index).high(),
          1e-9);
    }
  }

  /**
   * 1.3.5.17: uranium readings, one of which is far out. The rule is the handbook's, the scores
   * were worked out from it; 29.96 for the last is also stated by others.
   */
  @Test
  void theReadingFarOutIsAnOutlierByTheModifiedScore() {
    double[] uranium = {199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};
    double[] scores = {-1.396, -1.247, -0.8, -0.373, 0.373, 0.393, 0.549, 29.963};
    assertEquals(201.37, ControlCharts.median(uranium), 1e-9);
    assertEquals(0.995, ControlCharts.medianAbsoluteDeviation(uranium), 1e-9);
    for (int index = 0; index < uranium.length; index++) {
      double score = ControlCharts.modifiedZ(uranium[index], uranium);
      assertEquals(scores[index], score, 0.0006);
      assertEquals(index == 7, Math.abs(score) > ControlCharts.OUTLIER);
    }
  }

  @Test
  void withoutSpreadAnyOtherValueIsFarOut() {
    double[] equal = {2, 2, 2, 2, 5};
    assertEquals(0, ControlCharts.modifiedZ(2, equal));
    assertEquals(Double.POSITIVE_INFINITY, ControlCharts.modifiedZ(3, equal));
    assertEquals(Double.NEGATIVE_INFINITY, ControlCharts.modifiedZ(1, equal));
  }
}
