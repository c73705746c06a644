package tallyback.model;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A value as spoken with its unit: {@code 2.10 L} stays {@code 2.10 L}. Converting is exact;
 * rounding happens only where something is shown.
 *
 * @param value the number as spoken, trailing noughts kept
 * @param unit its unit, or {@link Unit#UNSAID}
 */
public record Amount(BigDecimal value, Unit unit) {

  /** For example {@code Amount.of("2.10", Unit.LITRE)}. */
  public static Amount of(String value, Unit unit) {
    return new Amount(new BigDecimal(value), unit);
  }

  /** The exact value in the base unit of its dimension. */
  public Rational base() {
    return unit.toBase(Rational.of(value));
  }

  /**
   * The exact value in another unit.
   *
   * @throws IllegalArgumentException if the units measure different things
   */
  public Rational in(Unit other) {
    if (other.dimension() != unit.dimension()) {
      throw new IllegalArgumentException(unit.symbol() + " can't be turned into " + other.symbol());
    }
    return other.fromBase(base());
  }

  /**
   * The amount in another unit, rounded half up to the given number of decimals: for showing only.
   */
  public Amount shownIn(Unit other, int decimals) {
    return new Amount(in(other).toBigDecimal().setScale(decimals, RoundingMode.HALF_UP), other);
  }

  /** True when a number was said without its unit. */
  public boolean unitUnsaid() {
    return unit == Unit.UNSAID;
  }

  /** {@code "2.10 L"}; independent of locale. */
  @Override
  public String toString() {
    String number = value.toPlainString();
    return switch (unit) {
      case UNSAID -> number;
      case DEGREE -> number + unit.symbol();
      default -> number + " " + unit.symbol();
    };
  }
}
