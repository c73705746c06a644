package tallyback.trade;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.stat.descriptive.moment.Mean;
import org.apache.commons.math3.stat.descriptive.rank.Median;

/**
 * Whether something drifts from job to job: control charts and the modified z-score, after the
 * NIST/SEMATECH e-Handbook of Statistical Methods. Values of one unit of choice, oldest first.
 *
 * <p>Stateless, safe for any thread.
 */
public final class ControlCharts {

  /** Beyond this a modified z-score is called an outlier (Iglewicz and Hoaglin 1993; 1.3.5.17). */
  public static final double OUTLIER = 3.5;

  private static final double TO_SIGMA = 0.6745;
  private static final double MEAN_RANGE_TO_SIGMA = 1.128;

  private ControlCharts() {}

  /**
   * Mean and limits of a chart of individuals.
   *
   * @param mean mean of the values
   * @param meanRange mean of the moving ranges of two
   * @param lower mean less 3 sigma, sigma being the mean range over 1.128
   * @param upper mean plus 3 sigma
   */
  public record Individuals(double mean, double meanRange, double lower, double upper) {

    /** Spread of the values, from the mean range. */
    public double sigma() {
      return meanRange / MEAN_RANGE_TO_SIGMA;
    }
  }

  /** Chart of individuals, e-Handbook 6.3.2.2; at least two values. */
  public static Individuals individuals(double[] values) {
    double mean = new Mean().evaluate(values);
    double[] ranges = new double[values.length - 1];
    for (int index = 1; index < values.length; index++) {
      ranges[index - 1] = Math.abs(values[index] - values[index - 1]);
    }
    double meanRange = new Mean().evaluate(ranges);
    double reach = 3 * meanRange / MEAN_RANGE_TO_SIGMA;
    return new Individuals(mean, meanRange, mean - reach, mean + reach);
  }

  /**
   * Exponentially weighted moving averages, e-Handbook 6.3.2.4, one per value.
   *
   * @param start the average before the first value
   * @param weight weight of the newest, above 0 and up to 1
   */
  public static List<Double> movingAverages(double[] values, double start, double weight) {
    List<Double> averages = new ArrayList<>();
    double average = start;
    for (double value : values) {
      average = weight * value + (1 - weight) * average;
      averages.add(average);
    }
    return averages;
  }

  /**
   * How far from the start a moving average may lie: {@code widths × sigma × sqrt(weight / (2 -
   * weight))}.
   */
  public static double reachOfMovingAverage(double sigma, double weight, double widths) {
    return widths * sigma * Math.sqrt(weight / (2 - weight));
  }

  /**
   * One step of a pair of cumulative sums.
   *
   * @param high sum of what lies above
   * @param low sum of what lies below
   */
  public record Sums(double high, double low) {}

  /**
   * Cumulative sums, e-Handbook 6.3.2.3, one pair per value.
   *
   * @param target what the values should be
   * @param slack deviation that is let pass each time
   * @param headStart value both sums begin at; nought without head start
   */
  public static List<Sums> cumulativeSums(
      double[] values, double target, double slack, double headStart) {
    List<Sums> sums = new ArrayList<>();
    double high = headStart;
    double low = headStart;
    for (double value : values) {
      high = Math.max(0, high + value - target - slack);
      low = Math.max(0, low + target - slack - value);
      sums.add(new Sums(high, low));
    }
    return sums;
  }

  /** Middle of the values. */
  public static double median(double[] values) {
    return new Median().evaluate(values);
  }

  /** Median of the distances from the median. */
  public static double medianAbsoluteDeviation(double[] values) {
    double middle = median(values);
    double[] distances = new double[values.length];
    for (int index = 0; index < values.length; index++) {
      distances[index] = Math.abs(values[index] - middle);
    }
    return median(distances);
  }

  /**
   * Modified z-score of a value against others, e-Handbook 1.3.5.17: {@code 0.6745 (x - median) /
   * MAD}. Where more than half of the others are equal there is no spread to measure with: 0 for
   * their value, infinite for any other.
   */
  public static double modifiedZ(double value, double[] others) {
    double distance = value - median(others);
    double deviation = medianAbsoluteDeviation(others);
    if (deviation == 0) {
      return distance == 0 ? 0 : Math.copySign(Double.POSITIVE_INFINITY, distance);
    }
    return TO_SIGMA * distance / deviation;
  }
}
