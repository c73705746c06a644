package tallyback.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RationalTest {

  private static final long SEED = 1202;
  private static final int ROUNDS = 2000;

  private record Draw(Rational a, Rational b, Rational c) {}

  private interface Law {
    void holdsFor(Rational a, Rational b, Rational c, String where);
  }

  private static void always(Law law) {
    Random random = new Random(SEED);
    for (int round = 0; round < ROUNDS; round++) {
      Draw draw = new Draw(fraction(random), fraction(random), fraction(random));
      law.holdsFor(draw.a(), draw.b(), draw.c(), "seed " + SEED + ", round " + round + ": " + draw);
    }
  }

  /** Often small, sometimes nought, sometimes near the limits of a long. */
  private static Rational fraction(Random random) {
    long numerator =
        random.nextInt(5) == 0 ? random.nextInt(3) - 1L : random.nextLong() >> random.nextInt(60);
    long denominator = 1L + random.nextInt(random.nextBoolean() ? 12 : 1_000_000_000);
    return Rational.of(numerator, random.nextBoolean() ? denominator : -denominator);
  }

  @Test
  void sumsAndProductsObeyTheLawsOfFractions() {
    always(
        (a, b, c, where) -> {
          assertEquals(a.plus(b), b.plus(a), where);
          assertEquals(a.times(b), b.times(a), where);
          assertEquals(a.plus(b).plus(c), a.plus(b.plus(c)), where);
          assertEquals(a.times(b).times(c), a.times(b.times(c)), where);
          assertEquals(a.times(b.plus(c)), a.times(b).plus(a.times(c)), where);
          assertEquals(a, a.plus(Rational.ZERO), where);
          assertEquals(Rational.ZERO, a.minus(a), where);
          assertEquals(a.minus(b), b.minus(a).negate(), where);
        });
  }

  @Test
  void divisionUndoesMultiplication() {
    always(
        (a, b, c, where) -> {
          if (b.signum() != 0) {
            assertEquals(a, a.dividedBy(b).times(b), where);
            assertEquals(a, a.times(b).dividedBy(b), where);
          }
        });
  }

  @Test
  void orderIsTheOrderOfTheDifference() {
    always(
        (a, b, c, where) -> {
          assertEquals(a.minus(b).signum(), a.compareTo(b), where);
          assertEquals(a.compareTo(b), -b.compareTo(a), where);
          assertEquals(a.equals(b), a.compareTo(b) == 0, where);
          assertTrue(a.abs().signum() >= 0, where);
          assertEquals(a.abs(), a.negate().abs(), where);
        });
  }

  @Test
  void equalFractionsAreOneRecordInLowestTerms() {
    BigInteger stretch = BigInteger.valueOf(-42);
    always(
        (a, b, c, where) -> {
          assertEquals(
              a,
              new Rational(a.numerator().multiply(stretch), a.denominator().multiply(stretch)),
              where);
          assertTrue(a.denominator().signum() > 0, where);
          assertEquals(BigInteger.ONE, a.numerator().gcd(a.denominator()), where);
        });
  }

  @Test
  void aDecimalComesBackAsItself() {
    always(
        (a, b, c, where) -> {
          BigDecimal decimal = new BigDecimal(a.numerator(), b.numerator().intValue() & 15);
          assertEquals(0, decimal.compareTo(Rational.of(decimal).toBigDecimal()), where);
        });
  }

  @Test
  void parsesDecimalsAndFractions() {
    assertEquals(Rational.of(25, 2), Rational.parse("12.5"));
    assertEquals(Rational.of(25, 2), Rational.parse("50/4"));
    assertEquals(Rational.of(-1, 8), Rational.parse("-0.125"));
    assertEquals(Rational.of(1200, 1), Rational.parse("1.2E+3"));
  }

  @Test
  void showsThirtyFourDigits() {
    assertEquals(
        new BigDecimal("0.3333333333333333333333333333333333"), Rational.of(1, 3).toBigDecimal());
    assertEquals(0.125, Rational.of(1, 8).toDouble());
  }

  @Test
  void nothingIsDividedByNought() {
    assertThrows(ArithmeticException.class, () -> Rational.of(1, 0));
    assertThrows(ArithmeticException.class, () -> Rational.of(1, 2).dividedBy(Rational.ZERO));
  }
}
