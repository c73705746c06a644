package tallyback.trade;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Combining uncertainties by the law of propagation, JCGM 100:2008 ("GUM"), clause 5.
 *
 * <p>A tolerance given as plus or minus {@code a} without more is taken as rectangular (JCGM
 * 100:2008, 4.3.7): its standard uncertainty is {@code a / √3}. Independent components add as
 * squares (5.1.2); components with a common source, such as two readings of one jug, are fully
 * correlated and add with their signs (5.2.2). The expanded uncertainty is {@code k = 2} times the
 * combined one (6.2.1), about 95 % where no single component dominates. Clause numbers are from
 * memory; the rules were read in the documentation of a reference implementation.
 *
 * <p>Stateless, safe for any thread. All results carry the unit of what was given.
 */
public final class Uncertainty {

  /** Coverage factor of every expanded uncertainty that is printed. */
  public static final int COVERAGE_FACTOR = 2;

  private Uncertainty() {}

  /**
   * One component of a sum.
   *
   * @param source what it stems from; components of one source are fully correlated
   * @param signedHalfWidth half-width of its rectangular limits times its sensitivity, sign kept
   */
  public record Component(String source, double signedHalfWidth) {}

  /**
   * Standard uncertainty of rectangular limits plus or minus {@code halfWidth}: {@code halfWidth /
   * √3}.
   */
  public static double ofRectangular(double halfWidth) {
    return Math.abs(halfWidth) / Math.sqrt(3);
  }

  /**
   * Combined standard uncertainty of independent standard uncertainties, each times its
   * sensitivity.
   */
  public static double quadrature(double... components) {
    double sum = 0;
    for (double component : components) {
      sum += component * component;
    }
    return Math.sqrt(sum);
  }

  /**
   * Combined standard uncertainty with correlation, JCGM 100:2008 equation (16).
   *
   * @param components standard uncertainties times their sensitivities, signs kept
   * @param correlation correlation coefficients, square, symmetric, ones on the diagonal
   */
  public static double combined(double[] components, double[][] correlation) {
    double sum = 0;
    for (int row = 0; row < components.length; row++) {
      for (int column = 0; column < components.length; column++) {
        sum += components[row] * components[column] * correlation[row][column];
      }
    }
    return Math.sqrt(Math.max(0, sum));
  }

  /**
   * Expanded uncertainty (k = 2) of a sum of components, fully correlated within a source and
   * independent between.
   */
  public static double expanded(List<Component> components) {
    Map<String, Double> halfWidthBySource = new HashMap<>();
    for (Component component : components) {
      halfWidthBySource.merge(component.source(), component.signedHalfWidth(), Double::sum);
    }
    double sum = 0;
    for (double halfWidth : halfWidthBySource.values()) {
      double standard = ofRectangular(halfWidth);
      sum += standard * standard;
    }
    return COVERAGE_FACTOR * Math.sqrt(sum);
  }
}
