package tallyback.trade;

/**
 * What a volume read at some temperature measures at 20 degC, the reference temperature of volume
 * (ISO 4787, from memory): mass stays, so it goes with the ratio of densities. The vessel's own
 * growth, about a tenth of the fluid's at most, is left out.
 *
 * <p>Stateless, safe for any thread.
 */
public final class LiquidVolume {

  /** The reference temperature. */
  public static final double REFERENCE_C = 20;

  /**
   * Lubricating oils, API MPMS chapter 11.1 (ASTM D1250): K1 = 0.34878 per degF, as quoted by a
   * maker's calculation page; 0.6278 per kelvin.
   */
  private static final double OIL_K1_PER_KELVIN = 0.34878 * 1.8;

  private static final double OIL_BASE_C = (60 - 32) / 1.8;

  private LiquidVolume() {}

  /** Factor from a volume read at {@code celsius} to 20 degC, for water. */
  public static double waterFactor(double celsius) {
    return Water.densityKgPerM3(celsius) / Water.densityKgPerM3(REFERENCE_C);
  }

  /** The same for a mixture of water with a glycol. */
  public static double mixtureFactor(Glycol glycol, double volumeShare, double celsius) {
    return glycol.densityKgPerM3(volumeShare, celsius)
        / glycol.densityKgPerM3(volumeShare, REFERENCE_C);
  }

  /**
   * The same for lubricating oil: density at t is that at 60 degF times exp(-a d (1 + 0.8 a d)), a
   * = K1 / density at 60 degF, d = t - 60 degF.
   *
   * @param densityKgPerM3 at 60 degF; about 880 for common oils (common practice, no source)
   */
  public static double oilFactor(double densityKgPerM3, double celsius) {
    return oilShrink(densityKgPerM3, celsius) / oilShrink(densityKgPerM3, REFERENCE_C);
  }

  private static double oilShrink(double densityKgPerM3, double celsius) {
    double expansion = OIL_K1_PER_KELVIN / densityKgPerM3 * (celsius - OIL_BASE_C);
    return Math.exp(-expansion * (1 + 0.8 * expansion));
  }
}
