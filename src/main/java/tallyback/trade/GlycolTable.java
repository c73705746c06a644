package tallyback.trade;

import org.apache.commons.math3.analysis.interpolation.LinearInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialFunction;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;

/** The printed tables behind {@link Glycol}. Immutable, safe for any thread. */
final class GlycolTable {

  /** Rows of the table of densities. */
  static final int ROWS = 11;

  private static final double KELVIN = 273.15;

  private static final double[] ETHYLENE_VOLUME_PERCENT = {
    0, 4.4, 8.9, 13.6, 18.1, 19.2, 20.1, 21, 22, 22.9, 23.9, 24.8, 25.8, 26.7, 27.7, 28.7, 29.6,
    30.6, 31.6, 32.6, 33.5, 34.5, 35.5, 36.5, 37.5, 38.5, 39.5, 40.5, 41.5, 42.5, 43.5, 44.5, 45.5,
    46.6, 47.6, 48.6, 49.6, 50.6, 51.6, 52.7, 53.7, 54.7, 55.7, 56.8, 57.8,
  };

  /** The rows of both tables of strengths. */
  private static final double[] MASS_PERCENT = {
    0, 5, 10, 15, 20, 21, 22, 23, 24,
    25, 26, 27, 28, 29, 30, 31, 32, 33,
    34, 35, 36, 37, 38, 39, 40, 41, 42,
    43, 44, 45, 46, 47, 48, 49, 50, 51,
    52, 53, 54, 55, 56, 57, 58, 59, 60,
  };

  private static final double[] ETHYLENE_FREEZES_AT_C = {
    0, -1.4, -3.2, -5.4, -7.8, -8.4, -8.9, -9.5, -10.2, -10.7, -11.4, -12, -12.7, -13.3, -14.1,
    -14.8, -15.4, -16.2, -17, -17.9, -18.6, -19.4, -20.3, -21.3, -22.3, -23.2, -24.3, -25.3, -26.4,
    -27.5, -28.8, -29.8, -31.1, -32.6, -33.8, -35.1, -36.4, -37.9, -39.3, -41.1, -42.6, -44.2,
    -45.6, -47.1, -48.3,
  };

  /** Rows 0 to 100 degC by tens; columns 10 to 60 percent by volume by tens; kg/m3. */
  private static final double[][] ETHYLENE_DENSITY = {
    {1018.73, 1035.67, 1051.78, 1066.8, 1081.08, 1094.64},
    {1016.28, 1032.94, 1048.76, 1063.49, 1077.46, 1090.7},
    {1013.34, 1029.72, 1045.25, 1059.68, 1073.35, 1086.27},
    {1009.62, 1026.02, 1041.26, 1055.39, 1068.75, 1081.35},
    {1006.01, 1021.83, 1036.78, 1050.62, 1063.66, 1075.95},
    {1001.61, 1017.16, 1031.81, 1045.35, 1058.09, 1070.06},
    {996.72, 1011.99, 1026.36, 1039.61, 1052.04, 1063.69},
    {991.35, 1006.35, 1020.42, 1033.37, 1045.49, 1056.83},
    {985.5, 1000.21, 1014, 1026.65, 1038.46, 1049.48},
    {979.15, 993.59, 1007.09, 1019.44, 1030.95, 1041.65},
    {972.32, 986.48, 999.69, 1011.74, 1022.95, 1033.33},
  };

  private static final double[] PROPYLENE_VOLUME_PERCENT = {
    0, 4.8, 9.6, 14.5, 19.4, 20.4, 21.4, 22.4, 23.4, 24.4, 25.3, 26.4, 27.4, 28.4, 29.4, 30.4, 31.4,
    32.4, 33.5, 34.4, 35.5, 36.5, 37.5, 38.5, 39.6, 40.6, 41.6, 42.6, 43.7, 44.7, 45.7, 46.8, 47.8,
    48.9, 49.9, 50.9, 51.9, 53, 54, 55, 56, 57, 58, 59, 60,
  };

  private static final double[] PROPYLENE_FREEZES_AT_C = {
    0, -1.6, -3.3, -5.1, -7.1, -7.6, -8, -8.6, -9.1, -9.6, -10.2, -10.8, -11.4, -12, -12.7, -13.4,
    -14.1, -14.8, -15.6, -16.4, -17.3, -18.2, -19.1, -20.1, -21.1, -22.1, -23.2, -24.3, -25.5,
    -26.7, -27.9, -29.3, -30.6, -32.1, -33.5, -35, -36.6, -38.2, -39.8, -41.6, -43.3, -45.2, -47.1,
    -49, -51.1,
  };

  /** Rows 0 to 100 degC by tens; columns 10 to 60 percent by volume by tens; kg/m3. */
  private static final double[][] PROPYLENE_DENSITY = {
    {1013.85, 1025.84, 1036.24, 1045.12, 1052.71, 1059},
    {1011.24, 1022.68, 1032.55, 1040.94, 1048.04, 1053.88},
    {1008.13, 1019.01, 1028.35, 1036.24, 1042.87, 1048.25},
    {1004.54, 1014.84, 1023.64, 1031.03, 1037.18, 1042.11},
    {1000.46, 1010.16, 1018.42, 1025.3, 1030.98, 1035.47},
    {995.88, 1004.99, 1012.69, 1019.06, 1024.27, 1028.32},
    {990.82, 999.31, 1006.44, 1012.3, 1017.04, 1020.66},
    {985.27, 993.12, 999.69, 1005.03, 1009.3, 1012.49},
    {979.23, 986.44, 992.42, 997.25, 1001.05, 1003.81},
    {972.7, 979.25, 984.65, 988.95, 992.28, 994.63},
    {965.68, 971.56, 976.36, 980.14, 983, 984.94},
  };

  static final GlycolTable ETHYLENE =
      new GlycolTable(
          ETHYLENE_VOLUME_PERCENT,
          ETHYLENE_FREEZES_AT_C,
          ETHYLENE_DENSITY,
          0.308462,
          257.9,
          -80.8,
          -133.4,
          -72.93,
          100.6,
          11.4);

  static final GlycolTable PROPYLENE =
      new GlycolTable(
          PROPYLENE_VOLUME_PERCENT,
          PROPYLENE_FREEZES_AT_C,
          PROPYLENE_DENSITY,
          0.307031,
          259.9,
          -66.31,
          -109.4,
          -228.3,
          -340.9,
          146.5);

  private final PolynomialSplineFunction massOfVolume;
  private final PolynomialSplineFunction volumeOfMass;
  private final PolynomialSplineFunction freezesOfVolume;
  private final PolynomialSplineFunction volumeOfFreezing;
  private final double strongest;
  private final double[][] densities;
  private final double melinderBase;
  private final PolynomialFunction melinderFreezing;

  private GlycolTable(
      double[] volumePercent,
      double[] freezesAtC,
      double[][] densities,
      double melinderBase,
      double... melinderFreezing) {
    LinearInterpolator between = new LinearInterpolator();
    this.massOfVolume = between.interpolate(volumePercent, MASS_PERCENT);
    this.volumeOfMass = between.interpolate(MASS_PERCENT, volumePercent);
    this.freezesOfVolume = between.interpolate(volumePercent, freezesAtC);
    this.volumeOfFreezing = between.interpolate(reversed(freezesAtC), reversed(volumePercent));
    this.strongest = volumePercent[volumePercent.length - 1] / 100;
    this.densities = densities;
    this.melinderBase = melinderBase;
    this.melinderFreezing = new PolynomialFunction(melinderFreezing);
  }

  private static double[] reversed(double[] values) {
    double[] reversed = new double[values.length];
    for (int index = 0; index < values.length; index++) {
      reversed[index] = values[values.length - 1 - index];
    }
    return reversed;
  }

  PolynomialSplineFunction massOfVolume() {
    return massOfVolume;
  }

  PolynomialSplineFunction volumeOfMass() {
    return volumeOfMass;
  }

  PolynomialSplineFunction freezesOfVolume() {
    return freezesOfVolume;
  }

  PolynomialSplineFunction volumeOfFreezing() {
    return volumeOfFreezing;
  }

  /** The strongest share by volume. */
  double strongest() {
    return strongest;
  }

  double density(int row, int column) {
    return densities[row][column];
  }

  double freezesAtCAfterMelinder(double massShare) {
    return melinderFreezing.value(massShare - melinderBase) - KELVIN;
  }
}
