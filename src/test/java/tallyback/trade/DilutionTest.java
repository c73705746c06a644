package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.model.Rational;
import tallyback.trade.Dilution.DrainFirst;
import tallyback.trade.Dilution.OutOfReach;
import tallyback.trade.Dilution.Pour;
import tallyback.trade.Dilution.Recipe;

/** Against textbook and examination examples, and against the identities themselves. */
class DilutionTest {

  private static final long SEED = Long.getLong("seed", 20260302L);

  private static Rational of(String number) {
    return Rational.parse(number);
  }

  /** A pharmacy course: 1.5 L of 20 % and 3.0 L of 12.5 % make 15 %. */
  @Test
  void twoSolutionsMix() {
    assertEquals(of("0.15"), Dilution.mixed(of("1.5"), of("0.20"), of("3.0"), of("0.125")));
  }

  /** OpenStax Chemistry, example 6.13: 0.850 L of 5.00 M to 1.80 L is 2.36 M. */
  @Test
  void dilutingWithWaterFollowsTheSameRule() {
    Rational mixed = Dilution.mixed(of("0.850"), of("5.00"), of("0.95"), Rational.ZERO);
    assertEquals(2.361, mixed.toDouble(), 0.0005);
  }

  /**
   * A pharmacy course: 70 % and 20 % to 30 % is 10 parts to 40. A tutor: 50 and 100 to 70 is 12 to
   * 8.
   */
  @Test
  void alligationGivesTheParts() {
    assertEquals(of("10/50"), Dilution.partOfStronger(of("0.20"), of("0.70"), of("0.30")));
    assertEquals(of("8/20"), Dilution.partOfStronger(of("0.50"), of("1.00"), of("0.70")));
  }

  /** Examination examples of repeated replacement. */
  @Test
  void repeatedReplacementLeavesLessEachTime() {
    assertEquals(of("0.729"), Dilution.oldLeft(of("50"), of("500"), 3));
    assertEquals(of("0.6561"), Dilution.oldLeft(of("4"), of("40"), 4));
    assertEquals(of("32.805"), Dilution.oldLeft(of("5"), of("50"), 4).times(of("50")));
    assertEquals(of("64.8"), Dilution.oldLeft(of("8"), of("80"), 2).times(of("80")));
    assertEquals(of("51.2"), Dilution.oldLeft(of("20"), of("100"), 3).times(of("100")));
  }

  @Test
  void replacingStepByStepIsTheSameAsTheFormula() {
    Random random = new Random(SEED);
    for (int run = 0; run < 2_000; run++) {
      Rational content = Rational.of(1 + random.nextInt(200), 10);
      Rational drained = content.times(Rational.of(1 + random.nextInt(99), 100));
      int rounds = random.nextInt(8);
      Rational old = content;
      for (int round = 0; round < rounds; round++) {
        Rational share = old.dividedBy(content);
        old = old.minus(drained.times(share));
      }
      assertEquals(
          old.dividedBy(content), Dilution.oldLeft(drained, content, rounds), "seed " + SEED);
    }
  }

  @Test
  void roundsAreCountedUpToTheWantedShare() {
    assertEquals(OptionalInt.of(3), Dilution.roundsTo(of("50"), of("500"), of("1"), of("0.729")));
    assertEquals(OptionalInt.of(4), Dilution.roundsTo(of("50"), of("500"), of("1"), of("0.7")));
    assertEquals(OptionalInt.of(0), Dilution.roundsTo(of("1"), of("5"), of("0.1"), of("0.2")));
    assertTrue(Dilution.roundsTo(of("0"), of("5"), of("1"), of("0.2")).isEmpty());
  }

  @Test
  void anEmptySystemIsFilledHalfAndHalf() {
    assertEquals(
        new Pour(of("4"), of("4")),
        Dilution.toReach(of("8"), Rational.ZERO, Rational.ZERO, of("1"), of("0.5")));
  }

  @Test
  void whatIsInsideCountsTowardsTheStrength() {
    // 3 L of 30 % hold 0.9 L of glycol; 8 L of 50 % need 4.0 L.
    assertEquals(
        new Pour(of("3.1"), of("1.9")),
        Dilution.toReach(of("8"), of("3"), of("0.3"), of("1"), of("0.5")));
  }

  @Test
  void tooMuchWeakFluidInsideMustComeOutFirst() {
    // 6 of 8 L are water; 2 L of neat concentrate only make 25 %.
    assertEquals(
        new DrainFirst(of("2"), new Pour(of("4"), of("0"))),
        Dilution.toReach(of("8"), of("6"), Rational.ZERO, of("1"), of("0.5")));
  }

  @Test
  void tooMuchStrongFluidInsideMustComeOutFirst() {
    // 7 of 8 L are neat; half is 4 L, so 3 L come out and water goes in.
    assertEquals(
        new DrainFirst(of("3"), new Pour(of("0"), of("4"))),
        Dilution.toReach(of("8"), of("7"), of("1"), of("1"), of("0.5")));
  }

  @Test
  void noConcentrateMakesMoreThanItself() {
    assertInstanceOf(
        OutOfReach.class, Dilution.toReach(of("8"), of("2"), of("0.9"), of("0.5"), of("0.6")));
  }

  @Test
  void everyRecipeEndsAtTheWantedStrengthAndFillsTheSystem() {
    Random random = new Random(SEED + 1);
    for (int run = 0; run < 2_000; run++) {
      Rational content = Rational.of(10 + random.nextInt(200), 10);
      Rational inside = content.times(Rational.of(random.nextInt(101), 100));
      Rational share = Rational.of(random.nextInt(101), 100);
      Rational neat = Rational.of(50 + random.nextInt(51), 100);
      Rational wanted = Rational.of(random.nextInt(101), 100);
      Recipe recipe = Dilution.toReach(content, inside, share, neat, wanted);
      if (recipe instanceof OutOfReach) {
        assertTrue(wanted.compareTo(neat) > 0, "seed " + SEED);
        continue;
      }
      Rational drained = recipe instanceof DrainFirst first ? first.drain() : Rational.ZERO;
      Pour pour = recipe instanceof DrainFirst first ? first.then() : (Pour) recipe;
      Rational stays = inside.minus(drained);
      assertEquals(content, stays.plus(pour.concentrate()).plus(pour.water()), "seed " + SEED);
      assertEquals(
          content.times(wanted),
          stays.times(share).plus(pour.concentrate().times(neat)),
          "seed " + SEED);
      assertTrue(
          stays.signum() >= 0 && pour.concentrate().signum() >= 0 && pour.water().signum() >= 0,
          () -> "seed " + SEED + " " + recipe);
    }
  }
}
