package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.plan.PlanReader;
import tallyback.speech.CmuLexicon;

/** What recognisers of other kinds print, read on the demo job's plan. */
class PrintedWordsTest {

  @SuppressWarnings("NullAway.Init") // read before the first test
  private static EntryGrammar grammar;

  @SuppressWarnings("NullAway.Init") // read before the first test
  private static PrintedWords reader;

  @BeforeAll
  static void readPlan() throws IOException {
    grammar = EntryGrammar.of(PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow());
    reader = grammar.printedWords(CmuLexicon.load());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "6 bolts, 10 mm, out of the splash guard. | six bolts ten millimetre out of the splash guard",
        "Six bolts, 10-millimeter, out of the splashguard! | six bolts ten millimetre out of the splash guard",
        "2.1 liters out of the block plug. | two point one litres out of the block plug",
        "Two-point-one litres out of the block-plug | two point one litres out of the block plug",
        "Torqued the outlet nuts to 19 Newton-meters. | torqued the outlet nuts to nineteen newton metres",
        "Torqued the outlet nuts to 19 N·m | torqued the outlet nuts to nineteen newton metres",
        "Torqued the outlet nuts to 19Nm | torqued the outlet nuts to nineteen newton metres",
        "torqued the outlet nuts to 14 ft-lbs | torqued the outlet nuts to fourteen foot pounds",
        "Torque the outlet nuts to 19 newton meters. | torqued the outlet nuts to nineteen newton metres",
        "Torqued the outlet nuts too 19 newton meters. | torqued the outlet nuts to nineteen newton metres",
        "(engine running) belly pan off [music] | belly pan off",
        "Um, belly pan off. | belly pan off",
        "bellypan off | belly pan off",
        "BELLY PAN OFF | belly pan off",
        "Half a litre of coolant spilled. | half a litre of coolant spilled",
        "What's next? | what's next",
      })
  void isThePhrase(String printed, String phrase) {
    assertEquals(
        Optional.of(grammar.sense(words(phrase))),
        reader.phrase(printed).map(grammar::sense),
        () -> printed + ": " + reader.phrase(printed) + " of " + PrintedWords.tokens(printed));
    assertTrue(grammar.entries().accepts(words(phrase)), phrase);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "   ",
        "...",
        "[BLANK_AUDIO]",
        "Thank you for watching!",
        "six splash guard cats off",
        "2,1 litres out of the block plug",
        "Ω≈ç√∫˜µ≤≥÷",
        "six bolts off six bolts off six bolts off",
      })
  void isNone(String printed) {
    assertEquals(Optional.empty(), reader.phrase(printed));
  }

  @Test
  void whatIsFarTooLongIsNone() {
    assertEquals(Optional.empty(), reader.phrase("belly pan off ".repeat(100)));
    assertEquals(Optional.empty(), reader.phrase("a ".repeat(100_000)));
  }

  @Test
  void aNumberStaysWhatItWas() {
    for (String litres : List.of("1", "1.5", "2.05", "2.50", "0.5", "15", "50", "13", "30")) {
      String printed =
          litres + (litres.equals("1") ? " litre" : " litres") + " from the block plug";
      assertEquals(
          grammar.read(printed).map(Meaning::sense),
          reader
              .phrase(printed)
              .map(words -> grammar.read(String.join(" ", words)).orElseThrow().sense()),
          printed);
      assertTrue(reader.phrase(printed).isPresent(), printed);
    }
  }

  /** Each phrase of the grammar, written as it is, stands for itself or for nothing. */
  @Test
  void phrasesOfTheGrammarAreReadAsTheyAre() {
    Examples examples = new Examples(grammar, new java.util.Random(5));
    int read = 0;
    for (int i = 0; i < 300; i++) {
      List<String> phrase = examples.next();
      Optional<List<String>> again = reader.phrase(String.join(" ", phrase));
      if (again.isPresent()) {
        read++;
        assertEquals(grammar.sense(phrase), grammar.sense(again.get()), phrase::toString);
      }
    }
    int found = read;
    assertTrue(found >= 285, () -> found + " of 300 read");
  }

  private static List<String> words(String phrase) {
    return List.of(phrase.split(" ", -1));
  }
}
