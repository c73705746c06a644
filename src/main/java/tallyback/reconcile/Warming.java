package tallyback.reconcile;

import java.util.List;
import java.util.Optional;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Rational;
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
    At<Measured> first = job.temperatures().upTo(subject, start.position());
    At<Measured> last = job.temperatures().upTo(subject, end.position());
    return first == null || last == null || first.equals(last)
        ? Optional.empty()
        : Optional.of(new Warming(first, last));
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
