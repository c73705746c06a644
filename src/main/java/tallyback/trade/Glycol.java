package tallyback.trade;

import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;

/**
 * Mixtures of water with ethylene or propylene glycol: strength by volume and by mass, freezing
 * point, density.
 *
 * <p>Tables: ASHRAE Handbook, Fundamentals 2001, as carried by the open property library CoolProp
 * (MIT licence); read by linear interpolation. They end at 60 % by volume. Second opinion on the
 * freezing point: A. Melinder's polynomials from the same library. Additives of a coolant are not
 * in these tables.
 *
 * <p>Shares are from 0 to 1 of the whole. Immutable, safe for any thread.
 */
public enum Glycol {
  /** Ethylene glycol. */
  ETHYLENE,
  /** Propylene glycol. */
  PROPYLENE;

  /** The strongest mixture of the table of densities, as a share by volume. */
  static final double STRONGEST_OF_DENSITIES = 0.60;

  private GlycolTable table() {
    return this == ETHYLENE ? GlycolTable.ETHYLENE : GlycolTable.PROPYLENE;
  }

  /** The strongest mixture of the table of freezing points, as a share by volume. */
  public double strongestByVolume() {
    return table().strongest();
  }

  /** Share by mass of a share by volume; empty outside the table. */
  public OptionalDouble massShare(double volumeShare) {
    return read(table().massOfVolume(), volumeShare * 100, 0.01);
  }

  /** Share by volume of a share by mass; empty outside the table. */
  public OptionalDouble volumeShare(double massShare) {
    return read(table().volumeOfMass(), massShare * 100, 0.01);
  }

  /** Freezing point in degC of a share by volume; empty outside the table. */
  public OptionalDouble freezesAtC(double volumeShare) {
    return read(table().freezesOfVolume(), volumeShare * 100, 1);
  }

  /** Share by volume that freezes at a temperature in degC; empty outside the table. */
  public OptionalDouble volumeShareFreezingAt(double celsius) {
    return read(table().volumeOfFreezing(), celsius, 0.01);
  }

  private static OptionalDouble read(PolynomialSplineFunction table, double at, double factor) {
    return table.isValidPoint(at)
        ? OptionalDouble.of(table.value(at) * factor)
        : OptionalDouble.empty();
  }

  /** Freezing point in degC of a share by mass after Melinder; good from 0 to 0.6. */
  public double freezesAtCAfterMelinder(double massShare) {
    return table().freezesAtCAfterMelinder(massShare);
  }

  /**
   * Expanded uncertainty (k = 2), in kelvin, of the freezing point of a mixture: that of its
   * strength times the slope of the table, and how far the two sources differ, taken as rectangular
   * limits. Empty outside the table.
   *
   * @param volumeShare strength
   * @param expandedShare expanded uncertainty (k = 2) of the strength
   */
  public OptionalDouble uncertaintyOfFreezing(double volumeShare, double expandedShare) {
    OptionalDouble mass = massShare(volumeShare);
    OptionalDouble freezes = freezesAtC(volumeShare);
    if (mass.isEmpty() || freezes.isEmpty()) {
      return OptionalDouble.empty();
    }
    double weak = Math.max(0, volumeShare - expandedShare);
    double strong = Math.min(strongestByVolume(), volumeShare + expandedShare);
    double span = freezesAtC(weak).orElse(0) - freezesAtC(strong).orElse(0);
    double widened = strong > weak ? span / (strong - weak) * expandedShare : 0;
    double differ = Math.abs(freezes.getAsDouble() - freezesAtCAfterMelinder(mass.getAsDouble()));
    return OptionalDouble.of(
        Uncertainty.COVERAGE_FACTOR
            * Uncertainty.quadrature(
                widened / Uncertainty.COVERAGE_FACTOR, Uncertainty.ofRectangular(differ)));
  }

  /**
   * Density in kg/m3, between the rows and columns of the table by linear interpolation, below 10 %
   * towards water. Outside 0 to 100 degC and above 60 % by volume the nearest value of the table is
   * taken.
   */
  public double densityKgPerM3(double volumeShare, double celsius) {
    double tens = Math.min(STRONGEST_OF_DENSITIES, Math.max(0, volumeShare)) * 10;
    double row = Math.min(100, Math.max(0, celsius)) / 10;
    int lower = Math.min(GlycolTable.ROWS - 2, (int) row);
    double below = inRow(lower, tens);
    double above = inRow(lower + 1, tens);
    return below + (above - below) * (row - lower);
  }

  private double inRow(int row, double tens) {
    int column = Math.min(5, (int) tens);
    double left = column == 0 ? Water.densityKgPerM3(row * 10.0) : table().density(row, column - 1);
    double right = table().density(row, column);
    return left + (right - left) * (tens - column);
  }
}
