package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Against the CRC Handbook, 53rd edition, p. F-4, and a table of densities after ITS-90. */
class WaterTest {

  @Test
  void densityAgreesWithThePrintedTables() {
    int compared = 0;
    for (ReferenceTable.Row row : ReferenceTable.read("water_density.csv").rows()) {
      double celsius = row.number("T_C");
      String printed = "CRC_53rd_p.F4_g_mL(read on scribd 434940524)";
      if (row.has(printed)) {
        assertEquals(
            row.number(printed) * 1000, Water.densityKgPerM3(celsius), 0.02, row::toString);
        compared++;
      }
      if (row.has("table_wfrjr.com_kgm3")) {
        assertEquals(
            row.number("table_wfrjr.com_kgm3"), Water.densityKgPerM3(celsius), 0.05, row::toString);
        compared++;
      }
    }
    assertEquals(17, compared);
  }

  @Test
  void outsideItsRangeTheNearestValueIsTaken() {
    assertEquals(Water.densityKgPerM3(0), Water.densityKgPerM3(-5));
    assertEquals(Water.densityKgPerM3(150), Water.densityKgPerM3(200));
  }
}
