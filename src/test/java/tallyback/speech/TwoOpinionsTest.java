package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TwoOpinionsTest {

  /** "Six bolt" and "six bolts" mean the same here. */
  private static final Meaning MEANING =
      words -> words.stream().map(word -> word.equals("bolt") ? "bolts" : word).toList();

  @ParameterizedTest
  @CsvSource(
      nullValues = "-",
      delimiter = ';',
      value = {
        // both alike
        "six bolts; true; NOTE; six bolts; NOTE; six bolts",
        "six bolts; true; ASK;  six bolts; NOTE; six bolts",
        "six bolts, ten bolts; true; ASK; six bolt; NOTE; six bolts, ten bolts",
        // both alike, but spoilt, or doubted too much
        "six bolts; false; ASK; six bolts; ASK; six bolts",
        // not
        "six bolts; true; NOTE; ten bolts; ASK; six bolts, ten bolts",
        "six bolts; true; ASK;  ten bolts; ASK; six bolts, ten bolts",
        "six bolts, two bolts, ten bolts; true; ASK; ten bolt; ASK; six bolts, ten bolt, two bolts",
        // no opinion
        "six bolts; true; NOTE; -; NOTE; six bolts",
        "six bolts, ten bolts; true; ASK; -; ASK; six bolts, ten bolts",
        // what the first turned down stays turned down
        "six bolts; false; REJECT; six bolts; REJECT; six bolts",
        "six bolts; false; REJECT; ten bolts; REJECT; six bolts",
        "-; false; REJECT; six bolts; REJECT; -",
      })
  void becomes(
      String readings,
      boolean clearToTwo,
      Judgement first,
      String second,
      Judgement both,
      String offered) {
    assertEquals(
        new TwoOpinions(both, phrases(offered)),
        TwoOpinions.of(
            phrases(readings),
            first,
            clearToTwo,
            second == null ? Optional.empty() : Optional.of(words(second)),
            MEANING));
  }

  private static List<List<String>> phrases(String lines) {
    return lines == null
        ? List.of()
        : Arrays.stream(lines.split(", ", -1)).map(TwoOpinionsTest::words).toList();
  }

  private static List<String> words(String phrase) {
    return List.of(phrase.split(" ", -1));
  }
}
