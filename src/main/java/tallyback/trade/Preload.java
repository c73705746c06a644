package tallyback.trade;

/**
 * Torque and preload of a bolt, {@code F = T / (K d)}, and the guard against overload.
 *
 * <p>The nut factor K stands for all friction and is known to a quarter at best, so the guard works
 * over a stated range of it. Values: Shigley's Mechanical Engineering Design, 9th ed. 2011, table
 * 8-15 (second hand), Bickford and Nassar (second hand), NASA TM-106943; they differ among
 * themselves.
 *
 * <p>Stateless, safe for any thread.
 */
public final class Preload {

  private Preload() {}

  /** Range of the nut factor for a state of the threads. */
  public enum NutFactor {
    /**
     * Dry, plated, with thread-lock, or nobody says: 0.20 (bare and zinc-plated steel), from 0.16
     * (cadmium-plated) to 0.30 (black finish).
     */
    DRY_OR_UNSAID(0.16, 0.20, 0.30),
    /** Oiled: 0.11 to 0.15 as the usual range of NASA TM-106943, up to Shigley's 0.18. */
    OILED(0.11, 0.15, 0.18);

    private final double lowest;
    private final double nominal;
    private final double highest;

    NutFactor(double lowest, double nominal, double highest) {
      this.lowest = lowest;
      this.nominal = nominal;
      this.highest = highest;
    }

    /** Lowest value in use: the most preload. */
    public double lowest() {
      return lowest;
    }

    /** The usual value. */
    public double nominal() {
      return nominal;
    }

    /** Highest value in use: the least preload. */
    public double highest() {
      return highest;
    }
  }

  /** How a torque stands to the proof load of a bolt. */
  public enum Load {
    /** Below it with the usual nut factor. */
    BELOW_PROOF,
    /** Above it with the usual nut factor, below with the highest. */
    ABOVE_WITH_USUAL_FACTOR,
    /** Above it even with the highest nut factor. */
    ABOVE_WITH_ANY_FACTOR
  }

  /** Preload in newtons of a torque in N·m on a diameter in millimetres. */
  public static double newtons(double torqueNm, double nutFactor, double diameterMm) {
    return torqueNm / (nutFactor * diameterMm / 1000);
  }

  /** Nut factor that a measured preload shows; torque over diameter times preload, one system. */
  public static double nutFactor(double torque, double diameter, double preload) {
    return torque / (diameter * preload);
  }

  /** Holds a torque in N·m against the proof load of a bolt. */
  public static Load load(
      double torqueNm, ScrewThread thread, PropertyClass grade, NutFactor factor) {
    double proof = grade.proofLoadN(thread);
    if (newtons(torqueNm, factor.highest(), thread.diameterMm()) > proof) {
      return Load.ABOVE_WITH_ANY_FACTOR;
    }
    return newtons(torqueNm, factor.nominal(), thread.diameterMm()) > proof
        ? Load.ABOVE_WITH_USUAL_FACTOR
        : Load.BELOW_PROOF;
  }

  /**
   * Torque for a preload from friction itself: MIL-HDBK-60, appendix B, 60-degree thread with equal
   * friction in thread and under head, {@code T = P (0.159 L + 1.156 mu d)}. One system of units.
   *
   * @param preload preload
   * @param lead lead of the thread, its pitch when single
   * @param diameter nominal diameter
   * @param friction coefficient of friction
   */
  public static double torque(double preload, double lead, double diameter, double friction) {
    return preload * (0.159 * lead + 1.156 * friction * diameter);
  }
}
