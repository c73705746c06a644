package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Printed densities at 20 degC. */
class LiquidDensityTest {

  /** Kell 1975 as quoted with PubMed Central 4909168. */
  @Test
  void aLitreOfWaterWeighsTwoGramsLessThanAKilogram() {
    assertEquals(0.9982041, LiquidDensity.water(), 1e-6);
  }

  /** ASHRAE Fundamentals 2001, 20 degC. */
  @Test
  void halfAndHalf() {
    assertEquals(1.07335, LiquidDensity.mixture(Glycol.ETHYLENE, 0.50).orElseThrow(), 1e-6);
    assertEquals(1.04287, LiquidDensity.mixture(Glycol.PROPYLENE, 0.50).orElseThrow(), 1e-6);
  }

  /** ASHRAE Fundamentals, another printing, 70 degF: 67.05 lb/ft3; a pound is 0.45359237 kg. */
  @Test
  void halfAndHalfInPoundsToTheCubicFoot() {
    assertEquals(
        67.05 * 0.45359237 / 28.316846592,
        LiquidDensity.mixture(Glycol.ETHYLENE, 0.50).orElseThrow(),
        0.001);
  }

  @Test
  void aboveTheTableNothingIsMadeUp() {
    assertTrue(LiquidDensity.mixture(Glycol.ETHYLENE, 0.61).isEmpty());
    assertTrue(LiquidDensity.mixture(Glycol.PROPYLENE, 1).isEmpty());
  }
}
