package tallyback.trade;

import java.util.OptionalDouble;

/**
 * What a litre weighs at 20 degC, in kilograms: turns a weighed fluid into a volume at the
 * reference temperature, whatever its temperature was on the scale.
 *
 * <p>Stateless, safe for any thread.
 */
public final class LiquidDensity {

  /**
   * Neat ethylene glycol coolant: at least 1.112 (JIS K 2234, quality table as quoted by two
   * manuals).
   */
  public static final double LEAST_OF_ETHYLENE_CONCENTRATE = 1.112;

  /** The most it is likely to weigh with its additives. Common practice, no source. */
  public static final double MOST_OF_ETHYLENE_CONCENTRATE = 1.14;

  private static final double KG_PER_M3 = 1000;

  private LiquidDensity() {}

  /** Water (Kell 1975, as in {@link Water}). */
  public static double water() {
    return Water.densityKgPerM3(LiquidVolume.REFERENCE_C) / KG_PER_M3;
  }

  /**
   * A mixture of water with a glycol (ASHRAE 2001, as in {@link Glycol}); empty above 60 % by
   * volume, where the table ends.
   *
   * @param volumeShare glycol in it, from 0 to 1
   */
  public static OptionalDouble mixture(Glycol glycol, double volumeShare) {
    return volumeShare >= 0 && volumeShare <= Glycol.STRONGEST_OF_DENSITIES
        ? OptionalDouble.of(
            glycol.densityKgPerM3(volumeShare, LiquidVolume.REFERENCE_C) / KG_PER_M3)
        : OptionalDouble.empty();
  }
}
