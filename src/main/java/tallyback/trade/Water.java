package tallyback.trade;

/**
 * Density of water after G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, as reproduced by Jones and
 * Harris, J. Res. NIST 97 (1992) 335, equation (1). The text read there prints the denominator's
 * factor as 16.897850e-3, which gives 997.94 at 20 degC; 16.879850e-3 (from memory) gives the
 * tabulated 998.20. Air-free water at 101.325 kPa, 0 to 150 degC.
 *
 * <p>Stateless, safe for any thread.
 */
public final class Water {

  private Water() {}

  /** Density in kg/m3 at a temperature in degC; temperatures outside 0 to 150 are brought to it. */
  public static double densityKgPerM3(double celsius) {
    double t = Math.min(150, Math.max(0, celsius));
    double numerator =
        999.83952
            + 16.945176 * t
            - 7.9870401e-3 * t * t
            - 46.170461e-6 * Math.pow(t, 3)
            + 105.56302e-9 * Math.pow(t, 4)
            - 280.54253e-12 * Math.pow(t, 5);
    return numerator / (1 + 16.879850e-3 * t);
  }
}
