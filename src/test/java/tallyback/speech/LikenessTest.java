package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LikenessTest {

  @ParameterizedTest
  @CsvSource({
    "six bolts off,                 six bolts back off,             LONGER",
    "six bolts off,                 and six bolts off,              FOLLOW_ON",
    "and six bolts off,             six bolts off,                  FOLLOW_ON",
    "and six bolts off,             ten bolts off,                  NUMBER",
    "fifty newton metres,           fifteen newton metres,          TEEN_FOR_TEN",
    "fifteen newton metres,         fifty newton metres,            TEN_FOR_TEEN",
    "eight bolts off,               ten bolts off,                  NUMBER",
    "two oh point five litres,      two point five litres,          NUMBER",
    "nine point five litres,        nought point five litres,       NOUGHT_FOR_NINE",
    "six zero zero,                 six zero zero oh,               OH_DROPPED",
    "six zero zero oh,              six zero zero,                  NUMBER",
    "six litres,                    oh six point two litres,        LONGER",
    "five pump bolts off,           four pump bolts off,            NEAR_DIGIT",
    "nine clamps,                   one clamp,                      NEAR_DIGIT",
    "radiator cap off,              radiator cap on,                WORD",
    "fifty off the long bolts,      fifteen off the hub bolts,      TEEN_FOR_TEN",
  })
  void theMostDangerousDifferenceCounts(String best, String rival, Likeness likeness) {
    assertEquals(
        likeness, Likeness.of(List.of(best.split(" ", -1)), List.of(rival.split(" ", -1))));
  }
}
