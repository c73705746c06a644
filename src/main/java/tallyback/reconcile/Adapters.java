package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import tallyback.model.Rational;
import tallyback.plan.Plan.Adapter;
import tallyback.plan.Plan.AdapterValue;
import tallyback.plan.Plan.Instrument;
import tallyback.trade.Crowfoot;

/** Wrenches with a crowfoot or other adapter: what they show is not what reaches the bolt. */
final class Adapters {

  private static final int DECIMALS_OF_GAIN = 6;

  private Adapters() {}

  /**
   * How many times a value said with a wrench reaches the bolt; one without an adapter, or where
   * values are said as at the bolt, or where nobody knows.
   */
  static Rational gain(Optional<Instrument> wrench) {
    return wrench
        .map(Instrument::adapter)
        .filter(adapter -> adapter.said() == AdapterValue.AT_WRENCH)
        .map(Adapters::gain)
        .orElse(Rational.of(1, 1));
  }

  /** How many times the setting of the wrench reaches the bolt, rounded to a millionth. */
  static Rational gain(Adapter adapter) {
    double gain =
        Crowfoot.gain(
            adapter.wrench().base().toDouble(),
            adapter.reach().base().toDouble(),
            adapter.angle().base().toDouble());
    return Rational.of(BigDecimal.valueOf(gain).setScale(DECIMALS_OF_GAIN, RoundingMode.HALF_UP));
  }

  /** The value as said, with what reaches the bolt when that is not the same. */
  static String inWords(JobView job, Tightness.Value value) {
    Optional<Instrument> wrench = job.index().instrument(value.told().wrench());
    boolean same = gain(wrench).compareTo(Rational.of(1, 1)) == 0;
    return same
        ? value.torque().toString()
        : FindingText.atWrenchAndBolt(
            value.torque(), FindingText.inUnit(value.atBolt(), value.torque().unit()));
  }
}
