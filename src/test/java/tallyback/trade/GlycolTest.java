package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/**
 * Against ASHRAE's tables, the same densities as another manual prints them, Melinder's
 * polynomials, and the demands of JIS K 2234.
 */
class GlycolTest {

  private static double value(OptionalDouble number) {
    return number.orElseThrow();
  }

  @Test
  void freezingPointsAreThoseOfAshrae() {
    assertEquals(-36.4, value(Glycol.ETHYLENE.freezesAtC(0.496)), 1e-9);
    assertEquals(-33.5, value(Glycol.PROPYLENE.freezesAtC(0.499)), 1e-9);
    freezing(Glycol.ETHYLENE, "ashrae_eg_freeze.csv");
    freezing(Glycol.PROPYLENE, "ashrae_pg_freeze.csv");
  }

  private static void freezing(Glycol glycol, String table) {
    for (ReferenceTable.Row row : ReferenceTable.read(table).rows()) {
      double volume = row.number("vol_pct") / 100;
      double mass = row.number("mass_pct") / 100;
      double freezes = row.number("freeze_C");
      assertEquals(freezes, value(glycol.freezesAtC(volume)), 1e-9, row::toString);
      assertEquals(mass, value(glycol.massShare(volume)), 1e-9, row::toString);
      assertEquals(volume, value(glycol.volumeShare(mass)), 1e-9, row::toString);
      assertEquals(volume, value(glycol.volumeShareFreezingAt(freezes)), 1e-9, row::toString);
    }
  }

  /** The example of a glossary after ASHRAE 1993: 30 % by mass in 1,000 gal takes 277.6 gal. */
  @Test
  void thirtyPercentByMassIsTwentySevenPointSevenByVolume() {
    assertEquals(0.2776, value(Glycol.ETHYLENE.volumeShare(0.30)), 0.001);
  }

  @Test
  void densitiesAreThoseOfAshraeAlsoBetweenTheRowsKept() {
    densities(Glycol.ETHYLENE, "ashrae_eg_density.csv");
    densities(Glycol.PROPYLENE, "ashrae_pg_density.csv");
  }

  /**
   * The table has a row every 5 degrees, of which every second is kept: the others are checks. The
   * printed value for ethylene glycol of 10 % at 30 degC lies 0.24 below the course of its
   * neighbours.
   */
  private static void densities(Glycol glycol, String table) {
    for (ReferenceTable.Row row : ReferenceTable.read(table).rows()) {
      for (int percent = 10; percent <= 60; percent += 10) {
        String column = "rho_kgm3_" + percent + "volpct";
        if (row.number("T_C") >= 0 && row.has(column)) {
          assertEquals(
              row.number(column),
              glycol.densityKgPerM3(percent / 100.0, row.number("T_C")),
              0.25,
              row::toString);
        }
      }
    }
  }

  /** Another edition: within 1.5 kg/m3, which is 0.15 %. */
  @Test
  void densitiesAgreeWithTheTableInPoundsPerCubicFoot() {
    double kgPerM3 = 0.45359237 / Math.pow(0.3048, 3);
    for (ReferenceTable.Row row : ReferenceTable.read("ashrae_eg_density_lbft3.csv").rows()) {
      double celsius = (row.number("T_F") - 32) / 1.8;
      for (int percent = 10; percent <= 60; percent += 10) {
        if (celsius >= 0 && celsius <= 100) {
          assertEquals(
              row.number(percent + "volpct") * kgPerM3,
              Glycol.ETHYLENE.densityKgPerM3(percent / 100.0, celsius),
              1.5,
              row::toString);
        }
      }
    }
  }

  @Test
  void melindersPolynomialGivesItsPublishedValues() {
    for (ReferenceTable.Row row : ReferenceTable.read("melinder_poly_checks.csv").rows()) {
      assertEquals(
          row.number("T_freeze_C"),
          glycolOf(row).freezesAtCAfterMelinder(row.number("mass_frac")),
          0.001,
          row::toString);
    }
  }

  /**
   * Two sources: 1.6 K apart at most up to 40 % by mass, 3 K at 60 %; densities within 0.6 % up to
   * 20 degC and within 1.2 % above, of which half a percent is left in the ratio to 20 degC.
   */
  @Test
  void melinderAndAshraeAgreeAsFarAsTwoSourcesDo() {
    for (ReferenceTable.Row row : ReferenceTable.read("melinder_poly_checks.csv").rows()) {
      Glycol glycol = glycolOf(row);
      double volume = value(glycol.volumeShare(row.number("mass_frac")));
      assertEquals(
          row.number("T_freeze_C"),
          value(glycol.freezesAtC(volume)),
          row.number("mass_frac") <= 0.4 ? 1.6 : 3.0,
          row::toString);
      double density = row.number("rho_kgm3");
      assertEquals(
          density,
          glycol.densityKgPerM3(volume, row.number("T_C")),
          (row.number("T_C") > 20 ? 0.012 : 0.006) * density,
          row::toString);
    }
  }

  private static Glycol glycolOf(ReferenceTable.Row row) {
    return row.text("fluid").equals("MEG") ? Glycol.ETHYLENE : Glycol.PROPYLENE;
  }

  /**
   * JIS K 2234: coolant at 50 % by volume must freeze at -34.0 degC or below, at 30 % at -14.5 or
   * below, with up to 5 % water and additives in it. Pure glycol is stronger than that.
   */
  @Test
  void fiftyAndThirtyPercentAreInsideWhatTheJapaneseStandardDemands() {
    assertEquals(-37.0, value(Glycol.ETHYLENE.freezesAtC(0.50)), 0.1);
    assertTrue(value(Glycol.ETHYLENE.freezesAtC(0.50)) <= -34.0);
    assertTrue(value(Glycol.ETHYLENE.freezesAtC(0.30)) <= -14.5);
    double with5PercentWater = 0.50 * 0.95;
    assertEquals(-34.0, value(Glycol.ETHYLENE.freezesAtC(with5PercentWater)), 0.5);
  }

  @Test
  void outsideTheTableThereIsNoAnswer() {
    assertTrue(Glycol.ETHYLENE.freezesAtC(0.9).isEmpty());
    assertTrue(Glycol.ETHYLENE.massShare(-0.1).isEmpty());
    assertTrue(Glycol.PROPYLENE.volumeShareFreezingAt(-60).isEmpty());
    assertTrue(Glycol.ETHYLENE.uncertaintyOfFreezing(0.9, 0.01).isEmpty());
  }

  /** At 50 % by volume the table falls 1.5 K per percent; the sources are 2.2 K apart. */
  @Test
  void theFreezingPointIsLessSureThanTheStrength() {
    double sourcesOnly = value(Glycol.ETHYLENE.uncertaintyOfFreezing(0.50, 0));
    double differ =
        -37.0 - Glycol.ETHYLENE.freezesAtCAfterMelinder(value(Glycol.ETHYLENE.massShare(0.50)));
    assertEquals(2 * Math.abs(differ) / Math.sqrt(3), sourcesOnly, 0.1);
    double withStrength = value(Glycol.ETHYLENE.uncertaintyOfFreezing(0.50, 0.03));
    assertEquals(Math.hypot(sourcesOnly, 3 * 1.47), withStrength, 0.3);
  }
}
