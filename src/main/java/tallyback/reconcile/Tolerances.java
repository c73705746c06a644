package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.trade.TorqueWrench;

/** How well readings are known. Each tolerance goes with the words that say where it comes from. */
final class Tolerances {

  /**
   * Share of a reading when the vessel was not named: that of a shop jug. Common practice, no
   * source.
   */
  static final Rational UNNAMED_VESSEL_SHARE = Rational.of(5, 100);

  /** Share of a reading said with "about". Common practice, no source. */
  static final Rational ABOUT_SHARE = Rational.of(15, 100);

  /** Share of what was spilled and judged by eye. Common practice, no source. */
  static final Rational SPILLED_SHARE = Rational.of(50, 100);

  /** Share of what the plan says dry parts hold. Common practice, no source. */
  static final Rational DRY_PARTS_SHARE = Rational.of(20, 100);

  private static final Rational HUNDRED = Rational.of(100, 1);

  private Tolerances() {}

  /**
   * Half-width of an instrument's limits at a reading, in the base unit of its dimension, offsets
   * left out.
   */
  static Rational halfWidth(Instrument instrument, Amount reading) {
    return halfWidth(instrument, span(reading), reading.unit().dimension());
  }

  /** The same of a reading in base units. */
  static Rational halfWidth(Instrument instrument, Rational reading, Dimension dimension) {
    BigDecimal percent = percent(instrument);
    if (percent != null) {
      return reading.abs().times(Rational.of(percent)).dividedBy(HUNDRED);
    }
    Amount tolerance = instrument.tolerance();
    return tolerance == null || tolerance.unit().dimension() != dimension
        ? Rational.ZERO
        : span(tolerance).abs();
  }

  /**
   * Tolerance as a share of the reading, in percent; null when it is an amount. A wrench of which
   * the plan only gives the range has that of its class.
   */
  static @Nullable BigDecimal percent(Instrument instrument) {
    return byClass(instrument)
        ? BigDecimal.valueOf(TorqueWrench.deviationPercent(instrument.to().base().toDouble()))
        : instrument.tolerancePercent();
  }

  /** True for a wrench of which the plan gives no tolerance. */
  static boolean byClass(Instrument instrument) {
    return instrument.kind() == InstrumentKind.WRENCH
        && instrument.tolerancePercent() == null
        && instrument.tolerance() == null
        && instrument.to().unit().dimension() == Dimension.TORQUE;
  }

  /** The same for a gauge that may not have been named: then no tolerance is granted. */
  static Rational halfWidthOrNone(@Nullable Instrument instrument, Amount reading) {
    return instrument == null ? Rational.ZERO : halfWidth(instrument, reading);
  }

  /** For example "big jug ±5 %". */
  static String inWords(Instrument instrument) {
    BigDecimal percent = percent(instrument);
    if (percent != null) {
      return instrument.label()
          + " ±"
          + percent.stripTrailingZeros().toPlainString()
          + " %"
          + (byClass(instrument) ? FindingText.BY_CLASS : "");
    }
    return instrument.label() + " ±" + instrument.tolerance();
  }

  /**
   * Half a step of the last figure said ("2.1 L": 0.05 L), in base units; for whole numbers, of the
   * last figure not 0.
   */
  static Rational halfLastFigure(Amount reading) {
    BigDecimal value = reading.value();
    BigDecimal meant = value.scale() > 0 ? value : value.stripTrailingZeros();
    BigDecimal half =
        BigDecimal.ONE.scaleByPowerOfTen(-meant.scale()).divide(BigDecimal.valueOf(2));
    return span(new Amount(half, reading.unit()));
  }

  /**
   * Half a step of the last figure said, noughts at the end of a whole number included, in base
   * units.
   */
  static Rational halfLastDigit(Amount reading) {
    int decimals = Math.max(0, reading.value().scale());
    BigDecimal half = BigDecimal.ONE.scaleByPowerOfTen(-decimals).divide(BigDecimal.valueOf(2));
    return span(new Amount(half, reading.unit()));
  }

  /** A difference of values in base units: the factor without the offset of its scale. */
  static Rational span(Amount difference) {
    return Rational.of(difference.value()).times(difference.unit().factor());
  }

  /** A computed uncertainty as an exact number, rounded up to a millionth. */
  static Rational roundedUp(double uncertainty) {
    return Rational.of(BigDecimal.valueOf(uncertainty).setScale(6, RoundingMode.CEILING));
  }
}
