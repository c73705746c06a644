package tallyback.trade;

/**
 * Boiling of water: IAPWS R7-97(2012), region 4, the saturation line; equations (30) and (31),
 * coefficients of its table 34 (numbers of equations and table from memory). Good from 273.15 K to
 * 647.096 K.
 *
 * <p>Glycol raises the boiling point further; no table of that was readable, so none is used. No
 * figure of this class belongs beside advice on opening a system.
 *
 * <p>Stateless, safe for any thread.
 */
public final class Saturation {

  /** The standard atmosphere, absolute (ISO 2533, from memory). */
  public static final double ATMOSPHERE_KPA = 101.325;

  private static final double KELVIN = 273.15;
  private static final double N1 = 1167.0521452767;
  private static final double N2 = -724213.16703206;
  private static final double N3 = -17.073846940092;
  private static final double N4 = 12020.82470247;
  private static final double N5 = -3232555.0322333;
  private static final double N6 = 14.91510861353;
  private static final double N7 = -4823.2657361591;
  private static final double N8 = 405113.40542057;
  private static final double N9 = -0.23855557567849;
  private static final double N10 = 650.17534844798;

  private Saturation() {}

  /** Absolute pressure in kPa at which water boils at a temperature in degC. */
  public static double pressureKPa(double celsius) {
    double kelvin = celsius + KELVIN;
    double theta = kelvin + N9 / (kelvin - N10);
    double a = theta * theta + N1 * theta + N2;
    double b = N3 * theta * theta + N4 * theta + N5;
    double c = N6 * theta * theta + N7 * theta + N8;
    double root = 2 * c / (-b + Math.sqrt(b * b - 4 * a * c));
    return 1000 * Math.pow(root, 4);
  }

  /** Temperature in degC at which water boils under an absolute pressure in kPa. */
  public static double boilsAtC(double absoluteKPa) {
    double beta = Math.pow(absoluteKPa / 1000, 0.25);
    double e = beta * beta + N3 * beta + N6;
    double f = N1 * beta * beta + N4 * beta + N7;
    double g = N2 * beta * beta + N5 * beta + N8;
    double d = 2 * g / (-f - Math.sqrt(f * f - 4 * e * g));
    double sum = N10 + d;
    return (sum - Math.sqrt(sum * sum - 4 * (N9 + N10 * d))) / 2 - KELVIN;
  }

  /**
   * Temperature in degC at which water boils under a cap.
   *
   * @param capKPa what the cap holds over the surrounding air
   * @param airKPa absolute pressure of the surrounding air
   */
  public static double boilsUnderCapC(double capKPa, double airKPa) {
    return boilsAtC(capKPa + airKPa);
  }
}
