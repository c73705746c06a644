package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MarginsTest {

  private static final Margins MARGINS = new Margins(1, 2, 3, 4, 5);

  @ParameterizedTest
  @CsvSource({
    "engine hot, engine off, 2",
    "filled two litres, spilled two litres, 2",
    "four dropped, five dropped, 3",
    "correction five one, correction point one, 3",
    "six oh litres, six litres, 3",
    "six tens off, six nines off, 3",
    "fifteen litres, fifty litres, 4",
    "six forty, six fourteen, 4",
    "eighty bolts, eighteen bolts, 4",
    "nine point five, nought point five, 5",
    "nought point five, nine point five, 3",
    "six litres, six oh litres, 1",
    "sixteen more, sixty nine more, 1",
  })
  void whatTheyDifferInSetsTheMargin(String best, String rival, double margin) {
    assertEquals(margin, MARGINS.between(List.of(best.split(" ")), List.of(rival.split(" "))), 0);
  }
}
