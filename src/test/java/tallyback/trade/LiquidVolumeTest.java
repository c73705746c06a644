package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Ratios of printed densities. */
class LiquidVolumeTest {

  /** CRC Handbook: 0.9718 g/mL at 80 degC, 0.99821 at 20. */
  @Test
  void waterAtEightyIsTwoPointSixPercentLessWhenCold() {
    assertEquals(0.9718 / 0.99821, LiquidVolume.waterFactor(80), 1e-4);
  }

  /** ASHRAE: half and half has 1038.46 kg/m3 at 80 degC and 1073.35 at 20. */
  @Test
  void halfAndHalfAtEightyIsThreePercentLessWhenCold() {
    assertEquals(1038.46 / 1073.35, LiquidVolume.mixtureFactor(Glycol.ETHYLENE, 0.50, 80), 1e-6);
    assertEquals(1001.05 / 1042.87, LiquidVolume.mixtureFactor(Glycol.PROPYLENE, 0.50, 80), 1e-6);
  }

  /**
   * API MPMS 11.1: 0.34878 / 880 per degF is 7.134e-4 per kelvin; 60 K make 4.3 % with the second
   * term. The familiar 0.0007 per kelvin of oil is common practice, no source.
   */
  @Test
  void oilAtEightyIsFourPercentLessWhenCold() {
    assertEquals(0.957, LiquidVolume.oilFactor(880, 80), 0.001);
    assertEquals(1 - 60 * 0.0007, LiquidVolume.oilFactor(880, 80), 0.003);
  }

  @Test
  void atTwentyNothingChanges() {
    assertEquals(1, LiquidVolume.waterFactor(20));
    assertEquals(1, LiquidVolume.mixtureFactor(Glycol.ETHYLENE, 0.4, 20));
    assertEquals(1, LiquidVolume.oilFactor(880, 20));
  }
}
