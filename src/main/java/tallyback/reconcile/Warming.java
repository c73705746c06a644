package tallyback.reconcile;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Unit;

/**
 * The temperatures at the two ends of a pressure hold. Shut-in air follows its temperature:
 * absolute pressure goes with absolute temperature (the ideal gas), so one kelvin makes a third of
 * a percent.
 *
 * @param first the reading that goes with the beginning
 * @param last the reading that goes with the end
 */
record Warming(At<Measured> first, At<Measured> last) {

  /** The standard atmosphere in kPa; shops higher up have less, which makes the change smaller. */
  private static final Rational ATMOSPHERE_KPA = Rational.parse("101.325");

  private static final Rational KELVIN = Rational.parse("273.15");

  /**
   * The last temperatures told up to each of two pressure readings, of the same subject or of none;
   * empty when there were not two.
   */
  static Optional<Warming> between(
      JobView job, String subject, At<Measured> start, At<Measured> end) {
    List<At<Measured>> temperatures =
        job.readings().stream()
            .filter(each -> each.statement().measure() == Measure.TEMPERATURE)
            .filter(each -> isTemperature(each.statement().amount()))
            .filter(
                each ->
                    each.statement().subject() == null
                        || subject.isEmpty()
                        || subject.equals(each.statement().subject()))
            .toList();
    At<Measured> first = lastUpTo(temperatures, start);
    At<Measured> last = lastUpTo(temperatures, end);
    return first == null || last == null || first.equals(last)
        ? Optional.empty()
        : Optional.of(new Warming(first, last));
  }

  private static boolean isTemperature(@Nullable Amount amount) {
    return amount != null && amount.unit().dimension() == Dimension.TEMPERATURE;
  }

  /** The last before the pressure; without one, what was said as the very next thing after it. */
  private static @Nullable At<Measured> lastUpTo(
      List<At<Measured>> temperatures, At<Measured> pressure) {
    At<Measured> found = null;
    for (At<Measured> each : temperatures) {
      boolean before = each.position() < pressure.position();
      if (before || (found == null && each.position() == pressure.position() + 1)) {
        found = each;
      }
    }
    return found;
  }

  private static Amount amountOf(At<Measured> reading) {
    Amount amount = reading.statement().amount();
    if (amount == null) {
      throw new IllegalStateException("only temperatures with an amount are kept");
    }
    return amount;
  }

  /** How much shut-in air would change by this alone, in kPa, from a pressure over air in kPa. */
  Rational changeOf(Rational kilopascals) {
    Rational from = amountOf(first).in(Unit.CELSIUS);
    Rational to = amountOf(last).in(Unit.CELSIUS);
    return kilopascals
        .plus(ATMOSPHERE_KPA)
        .times(to.minus(from).abs())
        .dividedBy(from.plus(KELVIN));
  }

  String inWords() {
    return FindingText.temperatures(amountOf(first), amountOf(last));
  }

  List<Standing> said() {
    return List.of(first.said(), last.said());
  }
}
