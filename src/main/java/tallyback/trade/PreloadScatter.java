package tallyback.trade;

/**
 * How far the preload of a bolt scatters by the way it was tightened, in percent either way:
 * MIL-HDBK-60 (12 March 1990), table I. Immutable, safe for any thread.
 */
public enum PreloadScatter {
  /** By feel. */
  BY_FEEL(35),
  /** Torque wrench. */
  TORQUE_WRENCH(25),
  /** Turn of the nut. */
  TURN_OF_NUT(15),
  /** Washer that shows preload. */
  INDICATING_WASHER(10),
  /** Strain gauges. */
  STRAIN_GAUGES(1);

  private final int percent;

  PreloadScatter(int percent) {
    this.percent = percent;
  }

  /** Plus or minus so many percent of preload. */
  public int percent() {
    return percent;
  }
}
