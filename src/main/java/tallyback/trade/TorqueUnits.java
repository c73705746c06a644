package tallyback.trade;

import java.util.ArrayList;
import java.util.List;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Unit;

/**
 * The unit slip: the right number in the wrong unit, such as inch pounds set as foot pounds (twelve
 * times too much). Factors are the exact ones of {@link Unit} (NIST Special Publication 811).
 * Stateless, safe for any thread.
 */
public final class TorqueUnits {

  private TorqueUnits() {}

  /**
   * The units in which the number said would have been right, in the order of {@link Unit}; empty
   * when the amount is right as it was said, or in no unit.
   *
   * @param said the torque as said, with its unit
   * @param lowest lowest right value in newton metres
   * @param highest highest right value in newton metres
   */
  public static List<Unit> slips(Amount said, Rational lowest, Rational highest) {
    List<Unit> units = new ArrayList<>();
    if (said.unit().dimension() != Dimension.TORQUE || within(said.base(), lowest, highest)) {
      return units;
    }
    for (Unit unit : Unit.values()) {
      if (unit != said.unit()
          && unit.dimension() == Dimension.TORQUE
          && within(unit.toBase(Rational.of(said.value())), lowest, highest)) {
        units.add(unit);
      }
    }
    return units;
  }

  private static boolean within(Rational value, Rational lowest, Rational highest) {
    return value.compareTo(lowest) >= 0 && value.compareTo(highest) <= 0;
  }
}
