package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Threads, classes and grades against ISO 898-1 and SAE J429 as printed. */
class BoltsTest {

  private static ScrewThread thread(String written) {
    return ScrewThread.read(written).orElseThrow();
  }

  private static PropertyClass grade(String written) {
    return PropertyClass.read(written).orElseThrow();
  }

  @Test
  void stressAreasAndProofLoadsAreWithinOnePercentOfIso898() {
    int compared = 0;
    for (ReferenceTable.Row row : ReferenceTable.read("iso898_1_coarse.csv").rows()) {
      ScrewThread thread = thread(row.text("thread"));
      assertEquals(row.number("pitch_mm"), thread.pitchMm(), row::toString);
      assertEquals(1, thread.stressAreaMm2() / row.number("As_nom_tab_mm2"), 0.01, row::toString);
      assertEquals(
          1,
          grade(row.text("class")).proofLoadN(thread) / row.number("proof_load_tab_N"),
          0.01,
          row::toString);
      compared++;
    }
    assertEquals(72, compared);
  }

  /** Tabulated areas of fine threads are from memory; the formula is ISO 898-1's. */
  @Test
  void fineThreadsFollowTheSameFormula() {
    for (ReferenceTable.Row row : ReferenceTable.read("iso898_1_fine_areas.csv").rows()) {
      assertEquals(row.number("As_formula_mm2"), thread(row.text("thread")).stressAreaMm2(), 0.01);
    }
  }

  @Test
  void gradesAreThoseOfSaeJ429() {
    double psi = 0.006894757293168;
    for (ReferenceTable.Row row : ReferenceTable.read("sae_j429.csv").rows()) {
      boolean large = row.text("size_range_in").startsWith(">");
      ScrewThread thread = large ? thread("1-1/8-7") : thread("1/2-13");
      assertEquals(
          row.number("proof_psi") * psi,
          grade("grade " + row.text("grade")).proofMPa(thread),
          0.01);
    }
  }

  /** MIL-HDBK-60 takes 0.1419 square inches for 1/2-13. */
  @Test
  void theStressAreaOfAHalfInchThreadIsThatOfTheHandbook() {
    assertEquals(0.1419 * 25.4 * 25.4, thread("1/2-13 UNC").stressAreaMm2(), 0.1);
  }

  @Test
  void threadsAreReadAsPeopleWriteThem() {
    assertEquals(new ScrewThread(8, 1.25, false), thread("M8x1.25"));
    assertEquals(new ScrewThread(8, 1.25, false), thread("m8"));
    assertEquals(new ScrewThread(10, 1, false), thread("M10 × 1"));
    assertEquals(5.0 / 16 * 25.4, thread("5/16-18").diameterMm());
    assertEquals(1.125 * 25.4, thread("1-1/8-12 UNF").diameterMm());
    assertEquals(25.4, thread("1-14").diameterMm());
    assertEquals(0.190 * 25.4, thread("#10-24").diameterMm(), 1e-9);
  }

  @Test
  void whatIsNoThreadIsNotRead() {
    for (String written :
        new String[] {
          "", "M", "M8x", "M8x0", "M8x9", "M99", "8", "5/0-18", "5/16-0", "hose tail"
        }) {
      assertTrue(ScrewThread.read(written).isEmpty(), written);
    }
  }

  @Test
  void classesAreReadAsPeopleWriteThem() {
    assertEquals(PropertyClass.CLASS_8_8, grade("8.8"));
    assertEquals(PropertyClass.CLASS_10_9, grade("class 10.9"));
    assertEquals(PropertyClass.SAE_5, grade("grade 5"));
    assertEquals(PropertyClass.SAE_8, grade("SAE grade 8"));
    assertEquals(PropertyClass.SAE_8, grade("SAE 8"));
    assertTrue(PropertyClass.read("8").isEmpty(), "the class of a nut");
    assertTrue(PropertyClass.read("A2-70").isEmpty());
  }

  @Test
  void eightPointEightIsStrongerAboveSixteenMillimetres() {
    assertEquals(580, PropertyClass.CLASS_8_8.proofMPa(thread("M16")));
    assertEquals(600, PropertyClass.CLASS_8_8.proofMPa(thread("M18")));
  }

  @Test
  void socketSizesAreThoseOfTheStandards() {
    for (ReferenceTable.Row row : ReferenceTable.read("width_across_flats.csv").rows()) {
      WidthAcrossFlats sizes = WidthAcrossFlats.of(thread(row.text("thread"))).orElseThrow();
      assertEquals(
          Double.parseDouble(row.text("ISO4014_4017_ISO272").split(" ", 2)[0]),
          sizes.iso(),
          row::toString);
      assertEquals(row.number("DIN931_933(withdrawn)"), sizes.din(), row::toString);
      same(row, "JIS_B1180_annex_small_hex", sizes.jisSmall());
      same(row, "ISO4162_and_JISB1189_flange_small", sizes.smallFlange());
      same(row, "EN1665_flange_large", sizes.largeFlange());
    }
  }

  private static void same(ReferenceTable.Row row, String column, int size) {
    assertEquals(row.has(column) ? row.number(column) : 0, size, () -> column + " " + row);
  }

  @Test
  void aHeadOfTenMillimetresSitsOnM6OrOnASmallFlangeOfM8() {
    assertEquals(java.util.Set.of(6, 8), WidthAcrossFlats.diametersMm(10));
    assertEquals(
        java.util.Set.of(13, 12, 10), WidthAcrossFlats.of(thread("M8")).orElseThrow().sizesMm());
    assertTrue(WidthAcrossFlats.of(thread("5/16-18")).isEmpty());
  }
}
