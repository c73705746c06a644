package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TorqueAt;
import tallyback.plan.Plan.Adapter;
import tallyback.plan.Plan.Instrument;
import tallyback.trade.Crowfoot;

/** Wrenches with a crowfoot or other adapter: what they show is not what reaches the bolt. */
final class Adapters {

  private static final int DECIMALS_OF_GAIN = 6;
  private static final Rational NONE = Rational.of(1, 1);

  private Adapters() {}

  /**
   * How many times a value said with a wrench reaches the bolt; one without an adapter, or where
   * the value is meant at the bolt, or where nobody said.
   */
  static Rational gain(Optional<Instrument> wrench, Tightened told) {
    return wrench
        .filter(each -> meant(each, told) == TorqueAt.AT_WRENCH)
        .map(Adapters::mechanicalGain)
        .orElse(NONE);
  }

  /** How many times what the wrench shows reaches the bolt, wherever the value is meant. */
  static Rational mechanicalGain(Instrument wrench) {
    Adapter adapter = wrench.adapter();
    return adapter == null ? NONE : gain(adapter);
  }

  /** What the wrench showed, in newton metres; as said where nobody said where it is meant. */
  static Rational shown(Instrument wrench, Tightened told, Rational said) {
    return meant(wrench, told) == TorqueAt.AT_BOLT ? said.dividedBy(mechanicalGain(wrench)) : said;
  }

  /**
   * Where a value is meant: as the speaker said, else as the plan says of the adapter; null when
   * there is no adapter that changes anything, or nobody said.
   */
  static @Nullable TorqueAt meant(Instrument wrench, Tightened told) {
    Adapter adapter = wrench.adapter();
    if (adapter == null || !adapter.changesTorque()) {
      return null;
    }
    return told.torqueAt() == null ? adapter.said() : told.torqueAt();
  }

  /** True when a value was said with an adapter and nobody said where it is meant. */
  static boolean unsaid(Instrument wrench, Tightened told) {
    Adapter adapter = wrench.adapter();
    return adapter != null && adapter.changesTorque() && meant(wrench, told) == null;
  }

  /** Half-width of the wrench's limits at the bolt, in newton metres. */
  static Rational toleranceAtBolt(Instrument wrench, Tightened told, Amount said) {
    Rational halfWidth = Tolerances.halfWidth(wrench, said);
    boolean aShareOfWhatIsSaid = Tolerances.percent(wrench) != null;
    return halfWidth.times(
        aShareOfWhatIsSaid || meant(wrench, told) == null
            ? gain(Optional.of(wrench), told)
            : mechanicalGain(wrench));
  }

  /** How many times the setting of the wrench reaches the bolt, rounded to a millionth. */
  private static Rational gain(Adapter adapter) {
    double gain =
        Crowfoot.gain(
            adapter.wrench().base().toDouble(),
            adapter.reach().base().toDouble(),
            adapter.angle().base().toDouble());
    return Rational.of(BigDecimal.valueOf(gain).setScale(DECIMALS_OF_GAIN, RoundingMode.HALF_UP));
  }

  /** The value as said, with the other of wrench and bolt when that is not the same. */
  static String inWords(JobView job, Tightness.Value value) {
    return inWords(job.index().instrument(value.told().wrench()), value.told(), value.torque());
  }

  /** The same of anything told. */
  static String inWords(Optional<Instrument> wrench, Tightened told, Amount said) {
    TorqueAt meant = wrench.map(each -> meant(each, told)).orElse(null);
    if (wrench.isEmpty() || meant == null) {
      return said.toString();
    }
    Rational gain = mechanicalGain(wrench.get());
    return meant == TorqueAt.AT_WRENCH
        ? FindingText.atWrenchAndBolt(
            said, FindingText.inUnit(said.base().times(gain), said.unit()))
        : FindingText.atBoltAndWrench(
            said, FindingText.inUnit(said.base().dividedBy(gain), said.unit()));
  }
}
