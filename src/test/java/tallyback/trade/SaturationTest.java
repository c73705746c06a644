package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Against the verification values of IAPWS R7-97(2012), region 4, and printed steam tables. */
class SaturationTest {

  @Test
  void pressuresAreThoseOfTheVerificationTable() {
    assertEquals(3.53658941, Saturation.pressureKPa(300 - 273.15), 5e-9);
    assertEquals(2638.89776, Saturation.pressureKPa(500 - 273.15), 5e-6);
    assertEquals(12344.3146, Saturation.pressureKPa(600 - 273.15), 5e-5);
  }

  @Test
  void temperaturesAreThoseOfTheVerificationTable() {
    assertEquals(372.755919 - 273.15, Saturation.boilsAtC(100), 5e-7);
    assertEquals(453.035632 - 273.15, Saturation.boilsAtC(1_000), 5e-7);
    assertEquals(584.149488 - 273.15, Saturation.boilsAtC(10_000), 5e-7);
  }

  /** The standard atmosphere gives 99.974 degC, printed as 100.0 by older steam tables. */
  @Test
  void boilingUnderACapRisesByTwoAndAHalfDegreesFahrenheitPerPsi() {
    assertEquals(99.974, underCapPsi(0), 0.001);
    assertEquals(118.755, underCapPsi(13), 0.001);
    assertEquals(120.955, underCapPsi(15), 0.001);
    assertEquals(122.009, underCapPsi(16), 0.001);
    assertEquals(2.52, (underCapPsi(15) - underCapPsi(0)) * 1.8 / 15, 0.005);
  }

  /** A maker's dry saturated steam tables, gauge pressure: 0.5, 1.0 and 1.5 bar. */
  @Test
  void gaugePressuresAgreeWithAPrintedSteamTable() {
    assertEquals(111.6, Saturation.boilsUnderCapC(50, Saturation.ATMOSPHERE_KPA), 0.05);
    assertEquals(120.4, Saturation.boilsUnderCapC(100, Saturation.ATMOSPHERE_KPA), 0.05);
    assertEquals(127.6, Saturation.boilsUnderCapC(150, Saturation.ATMOSPHERE_KPA), 0.05);
  }

  @Test
  void thereAndBackIsTheSame() {
    for (double celsius = 5; celsius < 200; celsius += 7) {
      assertEquals(celsius, Saturation.boilsAtC(Saturation.pressureKPa(celsius)), 1e-6);
    }
  }

  private static double underCapPsi(double psi) {
    return Saturation.boilsUnderCapC(psi * 6.894757293168, Saturation.ATMOSPHERE_KPA);
  }
}
