package tallyback.model;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;

/**
 * An exact fraction in lowest terms with a positive denominator; the arithmetic of unit conversion,
 * so that no conversion ever passes through a double.
 */
public record Rational(BigInteger numerator, BigInteger denominator)
    implements Comparable<Rational> {

  /** Whole numbers up to here are exact as long. */
  private static final int BITS_OF_A_LONG = Long.SIZE - 1;

  /** Whole numbers up to here are exact as double. */
  private static final int BITS_OF_A_DOUBLE = 53;

  /** Nought. */
  public static final Rational ZERO = of(0, 1);

  /** Brings the fraction to lowest terms; a zero denominator is refused. */
  public Rational {
    if (denominator.signum() == 0) {
      throw new ArithmeticException("a fraction needs a denominator other than 0");
    }
    BigInteger divisor = commonDivisor(numerator, denominator);
    if (denominator.signum() < 0) {
      divisor = divisor.negate();
    }
    if (!divisor.equals(BigInteger.ONE)) {
      numerator = numerator.divide(divisor);
      denominator = denominator.divide(divisor);
    }
  }

  /** Most fractions here are of small whole numbers, which need no long arithmetic. */
  private static BigInteger commonDivisor(BigInteger numerator, BigInteger denominator) {
    if (denominator.equals(BigInteger.ONE)) {
      return denominator;
    }
    if (numerator.bitLength() > BITS_OF_A_LONG || denominator.bitLength() > BITS_OF_A_LONG) {
      return numerator.gcd(denominator);
    }
    long larger = Math.abs(numerator.longValue());
    long smaller = Math.abs(denominator.longValue());
    while (smaller != 0) {
      long rest = larger % smaller;
      larger = smaller;
      smaller = rest;
    }
    return larger == 1 ? BigInteger.ONE : BigInteger.valueOf(larger);
  }

  /** The fraction {@code numerator / denominator}. */
  public static Rational of(long numerator, long denominator) {
    return new Rational(BigInteger.valueOf(numerator), BigInteger.valueOf(denominator));
  }

  /** The exact value of a decimal number. */
  public static Rational of(BigDecimal value) {
    BigInteger unscaled = value.unscaledValue();
    return value.scale() >= 0
        ? new Rational(unscaled, BigInteger.TEN.pow(value.scale()))
        : new Rational(unscaled.multiply(BigInteger.TEN.pow(-value.scale())), BigInteger.ONE);
  }

  /**
   * The exact value of a decimal number or fraction written as {@code "12.5"} or {@code "127/5"}.
   */
  public static Rational parse(String text) {
    int slash = text.indexOf('/');
    return slash < 0
        ? of(new BigDecimal(text))
        : new Rational(
            new BigInteger(text.substring(0, slash)), new BigInteger(text.substring(slash + 1)));
  }

  /** This plus other. */
  public Rational plus(Rational other) {
    if (denominator.equals(other.denominator)) {
      return new Rational(numerator.add(other.numerator), denominator);
    }
    return new Rational(
        numerator.multiply(other.denominator).add(other.numerator.multiply(denominator)),
        denominator.multiply(other.denominator));
  }

  /** This minus other. */
  public Rational minus(Rational other) {
    return plus(other.negate());
  }

  /** This times other. */
  public Rational times(Rational other) {
    if (other.isOne()) {
      return this;
    }
    return new Rational(
        numerator.multiply(other.numerator), denominator.multiply(other.denominator));
  }

  /** This divided by other; refuses a divisor of nought. */
  public Rational dividedBy(Rational other) {
    if (other.isOne()) {
      return this;
    }
    return new Rational(
        numerator.multiply(other.denominator), denominator.multiply(other.numerator));
  }

  private boolean isOne() {
    return numerator.equals(BigInteger.ONE) && denominator.equals(BigInteger.ONE);
  }

  /** The same with the other sign. */
  public Rational negate() {
    return new Rational(numerator.negate(), denominator);
  }

  /** The size without its sign. */
  public Rational abs() {
    return signum() < 0 ? negate() : this;
  }

  /** -1, 0 or 1. */
  public int signum() {
    return numerator.signum();
  }

  /** The nearest decimal to 34 significant digits (exact where it ends earlier). */
  public BigDecimal toBigDecimal() {
    return new BigDecimal(numerator).divide(new BigDecimal(denominator), MathContext.DECIMAL128);
  }

  /**
   * For computations whose uncertainty is far larger than a double's rounding; never for what is
   * stored or compared.
   */
  public double toDouble() {
    if (numerator.bitLength() <= BITS_OF_A_DOUBLE && denominator.bitLength() <= BITS_OF_A_DOUBLE) {
      return (double) numerator.longValue() / denominator.longValue();
    }
    return toBigDecimal().doubleValue();
  }

  @Override
  public int compareTo(Rational other) {
    if (denominator.equals(other.denominator)) {
      return numerator.compareTo(other.numerator);
    }
    return numerator.multiply(other.denominator).compareTo(other.numerator.multiply(denominator));
  }
}
