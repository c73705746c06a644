package tallyback.report.owner;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Unit;
import tallyback.report.owner.Form.Units;

class PlainAmountsTest {

  private final PlainAmounts metric = new PlainAmounts(Units.METRIC);
  private final PlainAmounts us = new PlainAmounts(Units.US);

  @Test
  void whatIsInTheOwnersUnitsStaysAsItWasSaid() {
    assertEquals("5.20 litres", metric.of(Amount.of("5.20", Unit.LITRE)));
    assertEquals("1 litre", metric.of(Amount.of("1", Unit.LITRE)));
    assertEquals("19 N\u00b7m", metric.of(Amount.of("19", Unit.NEWTON_METRE)));
    assertEquals("6 US quarts", us.of(Amount.of("6", Unit.US_QUART)));
  }

  @Test
  void theRestIsConvertedAndWhatWasSaidStaysBeside() {
    assertEquals("24 N\u00b7m (18 lbf\u00b7ft)", metric.of(Amount.of("18", Unit.POUND_FOOT)));
    assertEquals("14.0 lbf\u00b7ft (19 N\u00b7m)", us.of(Amount.of("19", Unit.NEWTON_METRE)));
    assertEquals("80 lbf\u00b7in (9 N\u00b7m)", us.of(Amount.of("9", Unit.NEWTON_METRE)));
    assertEquals("5.49 US quarts (5.20 L)", us.of(Amount.of("5.20", Unit.LITRE)));
    assertEquals("\u221233 \u00b0F (\u221236 \u00b0C)", us.of(Amount.of("-36", Unit.CELSIUS)));
    assertEquals("51 mm (2 in)", metric.of(Amount.of("2", Unit.INCH)));
  }

  @Test
  void inATextEveryAmountIsAndTheUncertaintyIsInWords() {
    assertEquals(
        "short 1.00 litre, give or take 0.17 litres", metric.inText("short 1.00 L \u00b1 0.17 L"));
    assertEquals(
        "short 1.06 US quarts (1.00 L), give or take 0.18 US quarts (0.17 L)",
        us.inText("short 1.00 L \u00b1 0.17 L"));
    assertEquals(
        "18 lbf\u00b7ft, which is 24.4 N\u00b7m",
        us.inText("18 lbf\u00b7ft, which is 24.4 N\u00b7m"));
    assertEquals("heads 13 mm", us.inText("heads 13 mm"));
  }

  @Test
  void aDifferenceOfTemperaturesHasNoNoughtOfItsOwn() {
    assertEquals("give or take 3.6 \u00b0F (2 \u00b0C)", us.inText("give or take 2 \u00b0C"));
    assertEquals("9.0 \u00b0F (5 \u00b0C) outside", us.inText("5 \u00b0C outside"));
    assertEquals("41 \u00b0F (5 \u00b0C)", us.inText("5 \u00b0C"));
  }

  @Test
  void twoThatAreInAreNoInches() {
    for (String text :
        List.of("clamp pliers: 2 in", "4 on the machine, 2 in the tray", "1 still in")) {
      assertEquals(text, metric.inText(text));
    }
    assertEquals("gap 0.38 mm (0.015 in)", metric.inText("gap 0.015 in"));
  }

  @Test
  void aRangeIsInOneUnit() {
    assertEquals(
        "16 to 20 N\u00b7m",
        metric.range(Amount.of("16", Unit.NEWTON_METRE), Amount.of("20", Unit.NEWTON_METRE)));
    assertEquals(
        "176 to 208 \u00b0F (80 to 98 \u00b0C)",
        us.range(Amount.of("80", Unit.CELSIUS), Amount.of("98", Unit.CELSIUS)));
  }

  /** However small the step over a limit, in the other units it is still over it. */
  @Test
  void roundingNeverHidesWhatIsOutOfRange() {
    long seed = 20260302;
    System.out.println("PlainAmountsTest seed " + seed);
    Random random = new Random(seed);
    Pattern first = Pattern.compile("^(\\d+(?:\\.\\d+)?) lbf");
    for (int round = 0; round < 5000; round++) {
      BigDecimal limit = BigDecimal.valueOf(random.nextInt(2000) + 10, random.nextInt(2));
      BigDecimal over = limit.add(BigDecimal.valueOf(random.nextInt(9) + 1, random.nextInt(4)));
      Amount most = new Amount(limit, Unit.NEWTON_METRE);
      Amount said = new Amount(over, Unit.NEWTON_METRE);
      BigDecimal shownLimit = value(first, us.inText(most.toString(), List.of(said.toString())));
      BigDecimal shownSaid = value(first, us.inText(said.toString(), List.of(most.toString())));
      assertTrue(shownSaid.compareTo(shownLimit) > 0, () -> said + " over " + most);
    }
  }

  private static BigDecimal value(Pattern pattern, String text) {
    Matcher matcher = pattern.matcher(text);
    assertTrue(matcher.find(), text);
    return new BigDecimal(matcher.group(1));
  }

  @Test
  void aNumberWithoutAUnitIsNoAmount() {
    assertFalse(us.inText("pass 2 of 3").contains("("));
    assertEquals("11:39 at the mark", us.inText("11:39 at the mark"));
  }
}
