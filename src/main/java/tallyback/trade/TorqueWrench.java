package tallyback.trade;

/**
 * Permissible deviation of indicating and setting torque tools, ISO 6789:2003, type II class A, as
 * reviewed in a tool maker's manual (the standard itself was not read): ±4 % for tools whose
 * maximum is above 10 N·m, ±6 % up to it; checked at 20, 60 and 100 % of the maximum, so nothing is
 * promised below 20 %.
 *
 * <p>Stateless, safe for any thread.
 */
public final class TorqueWrench {

  /** Below this share of its maximum nothing is promised of a wrench. */
  public static final double LOWEST_SHARE_OF_MAXIMUM = 0.2;

  private static final double SMALL_TOOL_NM = 10;

  private TorqueWrench() {}

  /** Permissible deviation in percent of the reading, for a tool of this maximum in N·m. */
  public static int deviationPercent(double maximumNm) {
    return maximumNm > SMALL_TOOL_NM ? 4 : 6;
  }

  /** True when a reading in N·m lies where the standard promises something of a tool. */
  public static boolean promised(double readingNm, double maximumNm) {
    return readingNm >= LOWEST_SHARE_OF_MAXIMUM * maximumNm && readingNm <= maximumNm;
  }
}
