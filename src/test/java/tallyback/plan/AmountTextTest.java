package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.EnumSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Unit;

class AmountTextTest {

  private final Faults faults = new Faults("p.yaml");

  private String read(String text) {
    Amount amount = AmountText.read(text, Spot.WHOLE_FILE, faults, AmountText.anyDimension());
    return amount == null ? "refused" : amount.toString();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '=',
      quoteCharacter = '~',
      value = {
        "2.10 L        = 2.10 L",
        "2.10L         = 2.10 L",
        "0 L           = 0 L",
        "500 ml        = 500 mL",
        "500 cc        = 500 mL",
        "3 litres      = 3 L",
        "24 N·m        = 24 N·m",
        "24 Nm         = 24 N·m",
        "24 N.m        = 24 N·m",
        "24 N m        = 24 N·m",
        "24 N⋅m        = 24 N·m",
        "18 ft-lb      = 18 lbf·ft",
        "18 lbf-ft     = 18 lbf·ft",
        "18 lbf·ft     = 18 lbf·ft",
        "18 ft·lbf     = 18 lbf·ft",
        "18 lb-ft      = 18 lbf·ft",
        "90 in-lb      = 90 lbf·in",
        "90 lbf in     = 90 lbf·in",
        "2.5 kgf·m     = 2.5 kgf·m",
        "80 kgf-cm     = 80 kgf·cm",
        "9/16 in       = 0.5625 in",
        "1 1/8 in      = 1.125 in",
        "1/2 inch      = 0.5 in",
        "9/16\"        = 0.5625 in",
        "13 mm         = 13 mm",
        "4 thou        = 4 thou",
        "4 US qt       = 4 US qt",
        "1 imp pint    = 1 imp pt",
        "12 US fl. oz  = 12 US fl oz",
        "1 imperial gallon = 1 imp gal",
        "-37 °C        = -37 °C",
        "−37 °C        = -37 °C",
        "86 C          = 86 °C",
        "180 °F        = 180 °F",
        "110 kPa       = 110 kPa",
        "1.1 bar       = 1.1 bar",
        "15 psi        = 15 psi",
        "12.6 V        = 12.6 V",
        "4.7 ohm       = 4.7 Ω",
        "90°           = 90°",
        "90 deg        = 90°",
        "50 %          = 50 %",
        "1247 h        = 1247 h",
        "45 min        = 45 min",
        "2 lbs         = 2 lb",
        "850 rpm       = 850 rpm"
      })
  void asPeopleWriteThem(String written, String amount) {
    assertEquals(amount, read(written));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "L",
        "2",
        "2,1 L",
        "1,000 mL",
        "two L",
        "2.1.0 L",
        "2 furlongs",
        "1/3 in",
        "1/0 in",
        "2 qt",
        "2 oz",
        "40 mils",
        "1e3 L",
        "NaN L",
        "2. L",
        "0x10 L",
        "2 L extra",
        "1234567890 L",
        "1.2345678901 L",
        "- 3 °C",
        "3 to 4 L"
      })
  void whatIsNoCertainAmount(String written) {
    assertEquals("refused", read(written));
    assertEquals(1, faults.faults().size());
  }

  @ParameterizedTest
  @EnumSource(names = "UNSAID", mode = EnumSource.Mode.EXCLUDE)
  void everyUnitIsReadBackFromItsOwnText(Unit unit) {
    Amount amount = Amount.of("12.50", unit);

    assertEquals(
        amount,
        AmountText.read(amount.toString(), Spot.WHOLE_FILE, faults, EnumSet.of(unit.dimension())));
  }

  @Test
  void ouncesOfWeightAreCertain() {
    assertEquals(
        Amount.of("2", Unit.OUNCE),
        AmountText.read("2 oz", Spot.WHOLE_FILE, faults, EnumSet.of(Dimension.MASS)));
  }

  @Test
  void theOtherDimensionIsRefused() {
    assertNull(AmountText.read("2 L", Spot.WHOLE_FILE, faults, EnumSet.of(Dimension.TORQUE)));
  }
}
