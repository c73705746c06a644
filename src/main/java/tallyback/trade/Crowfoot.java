package tallyback.trade;

/**
 * A crowfoot or adapter that lengthens a torque wrench: {@code bolt = wrench × (L + E cos a) / L},
 * with L the wrench's length from the middle of its square to the middle of its grip, E the
 * adapter's reach and a the angle between them. In line (a = 0): US Army TM 9-2350-261-20-1; at an
 * angle: US Army TM 9-254. At 90 degrees the adapter changes nothing. Lengths in one unit of
 * choice.
 *
 * <p>Stateless, safe for any thread.
 */
public final class Crowfoot {

  private Crowfoot() {}

  /** How many times the wrench's setting reaches the bolt. */
  public static double gain(double wrenchLength, double reach, double angleDegrees) {
    return (wrenchLength + reach * cosine(angleDegrees)) / wrenchLength;
  }

  /** Torque at the bolt of a setting of the wrench. */
  public static double atBolt(
      double setting, double wrenchLength, double reach, double angleDegrees) {
    return setting * gain(wrenchLength, reach, angleDegrees);
  }

  /** Setting of the wrench for a torque at the bolt. */
  public static double setting(
      double atBolt, double wrenchLength, double reach, double angleDegrees) {
    return atBolt / gain(wrenchLength, reach, angleDegrees);
  }

  /** Exactly nought at a right angle, where the library's cosine leaves a trace. */
  private static double cosine(double degrees) {
    return Math.abs(Math.abs(degrees) % 180) == 90 ? 0 : Math.cos(Math.toRadians(degrees));
  }
}
