package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Unit;

/**
 * Ratios: 12 from lbf·in to lbf·ft by definition of the foot; 1.3558 and 8.85 after NIST Special
 * Publication 811, Appendix B.
 */
class TorqueUnitsTest {

  private static List<Unit> slips(String said, Unit unit, String lowest, String highest) {
    return TorqueUnits.slips(
        Amount.of(said, unit), Rational.parse(lowest), Rational.parse(highest));
  }

  @Test
  void inchPoundsSetAsFootPoundsAreTwelveTimesTooMuch() {
    // 80 lbf·in is 9.04 N·m.
    assertEquals(List.of(Unit.POUND_INCH), slips("80", Unit.POUND_FOOT, "8", "10"));
  }

  @Test
  void newtonMetresSetAsFootPoundsAreTheLeastVisibleSlip() {
    assertEquals(List.of(Unit.NEWTON_METRE), slips("24", Unit.POUND_FOOT, "22", "26"));
  }

  @Test
  void newtonMetresSetAsInchPoundsAreNineTimesTooLittle() {
    assertEquals(List.of(Unit.NEWTON_METRE), slips("9", Unit.POUND_INCH, "8", "10"));
  }

  @Test
  void kilogramCentimetresCloseToInchPoundsAreBothNamed() {
    // 1 lbf·in is 0.113 N·m and 1 kgf·cm is 0.098 N·m: both bring 100 into a wide range.
    assertEquals(
        List.of(Unit.POUND_INCH, Unit.KILOGRAM_CENTIMETRE),
        slips("100", Unit.NEWTON_METRE, "9", "12"));
  }

  @Test
  void aRightValueIsNoSlip() {
    assertEquals(List.of(), slips("24", Unit.NEWTON_METRE, "22", "26"));
  }

  @Test
  void aValueThatIsWrongInEveryUnitIsNoSlip() {
    assertEquals(List.of(), slips("42", Unit.NEWTON_METRE, "22", "26"));
  }

  @Test
  void aNumberWithoutUnitIsNotJudged() {
    assertEquals(List.of(), slips("24", Unit.UNSAID, "22", "26"));
  }
}
