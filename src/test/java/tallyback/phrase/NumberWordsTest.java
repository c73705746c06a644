package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumberWordsTest {

  @ParameterizedTest
  @CsvSource({
    "two point one, 2.1",
    "two point one zero, 2.10",
    "two point one oh, 2.10",
    "two point oh five, 2.05",
    "point nine, 0.9",
    "oh point nine, 0.9",
    "nought point four five, 0.45",
    "zero point oh three five, 0.035",
    "twenty one hundred, 2100",
    "twenty one hundred and fifty, 2150",
    "twenty one fifty, 2150",
    "twenty fifty, 2050",
    "nineteen fifty, 1950",
    "twelve hundred, 1200",
    "nine fifty, 950",
    "nine hundred and fifty, 950",
    "nine five zero, 950",
    "nine oh five, 905",
    "two ten, 210",
    "two one zero, 210",
    "one twenty, 120",
    "one fifteen, 115",
    "a hundred and twenty, 120",
    "a hundred, 100",
    "two hundred forty, 240",
    "one thousand two hundred, 1200",
    "a thousand and five, 1005",
    "two thousand one hundred and twenty five, 2125",
    "one five, 15",
    "one two five zero, 1250",
    "three and a half, 3.5",
    "two and a quarter, 2.25",
    "one and three quarters, 1.75",
    "twenty four and a half, 24.5",
    "minus thirty, -30",
    "minus thirty five point five, -35.5",
    "one hundred twenty three thousand four hundred fifty six, 123456",
    "twelve thousand three hundred and forty, 12340",
    "zero, 0",
    "nought, 0"
  })
  void saidNumberHasItsExactValue(String words, String value) {
    assertEquals(new BigDecimal(value), NumberWords.value(Arrays.asList(words.split(" ", -1))));
  }

  @Test
  void everyWholeNumberToTenThousandSurvivesItsWords() {
    for (int number = 0; number <= 10_000; number++) {
      List<String> words = Arrays.asList(NumberWords.cardinal(number).split(" ", -1));
      assertEquals(
          BigDecimal.valueOf(number), NumberWords.value(words), () -> String.join(" ", words));
    }
  }

  @Test
  void everyWholeNumberToTenThousandSurvivesItsReadBack() {
    for (int number = 0; number <= 9_999; number++) {
      String words = NumberWords.readBack(BigDecimal.valueOf(number));
      assertEquals(
          BigDecimal.valueOf(number),
          NumberWords.value(Arrays.asList(words.split(" ", -1))),
          words);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "15, one five", "50, five zero", "13, one three", "2.10, two point one zero",
        "950, nine five zero",
    "12, twelve", "100, one hundred", "19.5, one nine point five", "-30, minus three zero",
        "2100, two thousand one hundred",
    "0.05, zero point zero five"
  })
  void teensAndTensAreReadBackDigitByDigit(String value, String words) {
    assertEquals(words, NumberWords.readBack(new BigDecimal(value)));
  }

  @Test
  void whatIsNoNumberIsRefusedByName() {
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> NumberWords.value(List.of("gasket")));
    assertEquals("expected a number, found \"gasket\"", refused.getMessage());
  }

  @ParameterizedTest
  @CsvSource({
    "two point one oh, two point one",
    "two point one zero nought litres, two point one litres",
    "two point oh oh, two point oh",
    "point oh, point oh",
    "two point oh five, two point oh five",
    "nine oh mils, nine oh mils",
    "one point two oh bar at three point zero zero volts, one point two bar at three point zero volts",
  })
  void noughtsAtTheEndOfDecimalsAddNothing(String said, String shorter) {
    assertEquals(
        List.of(shorter.split(" ")), NumberWords.withoutTrailingNoughts(List.of(said.split(" "))));
  }
}
