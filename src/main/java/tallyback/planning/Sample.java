package tallyback.planning;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.stat.descriptive.rank.Percentile;
import org.apache.commons.math3.stat.descriptive.rank.Percentile.EstimationType;

/**
 * One figure out of several jobs. Median and quartiles are those of the NIST/SEMATECH e-Handbook of
 * Statistical Methods, 7.2.6.2: the value at place p (n + 1), interpolated; definition 6 of R. J.
 * Hyndman and Y. Fan, <cite>Sample quantiles in statistical packages</cite>, 1996. Immutable.
 *
 * @param values one of each job, at least one, smallest first
 */
public record Sample(List<Double> values) {

  /** Quartiles of fewer are no more than some of the values again. */
  public static final int ENOUGH_FOR_QUARTILES = 5;

  /** Sorts. */
  public Sample {
    if (values.isEmpty()) {
      throw new IllegalArgumentException("a sample: expected at least one value, found none");
    }
    values = values.stream().sorted().toList();
  }

  /** How many jobs it is of. */
  public int jobs() {
    return values.size();
  }

  /** The middle one, or half way between the two in the middle. */
  public double median() {
    return quantile(50);
  }

  /**
   * The value below which a share of all lies.
   *
   * @param percent above 0, at most 100
   */
  public double quantile(double percent) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).toArray();
    return new Percentile()
        .withEstimationType(EstimationType.R_6)
        .evaluate(Arrays.copyOf(sorted, sorted.length), percent);
  }
}
