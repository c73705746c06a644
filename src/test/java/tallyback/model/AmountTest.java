package tallyback.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;

class AmountTest {

  @Test
  void textKeepsTheNumberAsSpoken() {
    assertEquals("2.10 L", Amount.of("2.10", Unit.LITRE).toString());
    assertEquals("19 N·m", Amount.of("19", Unit.NEWTON_METRE).toString());
    assertEquals("12 lbf·ft", Amount.of("12", Unit.POUND_FOOT).toString());
    assertEquals("-37.5 °C", Amount.of("-37.5", Unit.CELSIUS).toString());
    assertEquals("50 %", Amount.of("50", Unit.PERCENT).toString());
  }

  @Test
  void anAngleIsWrittenWithoutASpace() {
    assertEquals("90°", Amount.of("90", Unit.DEGREE).toString());
  }

  @Test
  void aNumberWithoutUnitStaysBare() {
    Amount bare = Amount.of("19", Unit.UNSAID);

    assertEquals("19", bare.toString());
    assertTrue(bare.unitUnsaid());
    assertFalse(Amount.of("19", Unit.VOLT).unitUnsaid());
  }

  @Test
  void textHasNoExponent() {
    assertEquals("1000 mL", new Amount(new BigDecimal("1E+3"), Unit.MILLILITRE).toString());
    assertEquals("0.0000001 L", new Amount(new BigDecimal("1E-7"), Unit.LITRE).toString());
  }

  @Test
  void whatWasSaidDifferentlyIsNotTheSameRecord() {
    assertNotEquals(Amount.of("2.1", Unit.LITRE), Amount.of("2.10", Unit.LITRE));
    assertEquals(Amount.of("2.1", Unit.LITRE).base(), Amount.of("2.10", Unit.LITRE).base());
  }

  @Test
  void convertsExactly() {
    assertEquals(Rational.of(21, 10), Amount.of("2100", Unit.MILLILITRE).in(Unit.LITRE));
    assertEquals(Rational.parse("2413/1000"), Amount.of("95", Unit.THOU).in(Unit.MILLIMETRE));
    assertEquals(Amount.of("9", Unit.CELSIUS).base(), Amount.of("48.2", Unit.FAHRENHEIT).base());
  }

  @Test
  void whatMeasuresSomethingElseIsNeverConverted() {
    assertThrows(
        IllegalArgumentException.class, () -> Amount.of("2", Unit.LITRE).in(Unit.KILOGRAM));
    assertThrows(IllegalArgumentException.class, () -> Amount.of("2", Unit.UNSAID).in(Unit.LITRE));
  }

  @Test
  void showingRoundsHalfUp() {
    assertEquals(
        "2.4 N·m", Amount.of("2.35", Unit.NEWTON_METRE).shownIn(Unit.NEWTON_METRE, 1).toString());
    assertEquals(
        "1.36 N·m", Amount.of("1", Unit.POUND_FOOT).shownIn(Unit.NEWTON_METRE, 2).toString());
    assertEquals("0.95 L", Amount.of("1", Unit.US_QUART).shownIn(Unit.LITRE, 2).toString());
  }
}
