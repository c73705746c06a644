package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ReadFaultTest {

  private static ReadFault why(String line) {
    assertTrue(DemoGrammar.GRAMMAR.read(line).isEmpty(), line);
    return DemoGrammar.GRAMMAR.whyNot(line);
  }

  @Test
  void misspeltNameIsFoundAndPutRight() {
    ReadFault fault = why("five tens off the bely pan");
    assertEquals(5, fault.at());
    assertEquals("\"bely\"", fault.found());
    assertEquals("five tens off the belly pan", fault.suggestions().get(0));
  }

  @Test
  void lineThatEndsTooEarlySaysSo() {
    ReadFault fault = why("torqued the outlet nuts to");
    assertEquals("the end of the line", fault.found());
    assertEquals(6, fault.at());
  }

  @Test
  void noSuggestionEverCarriesAnotherValueOrUnit() {
    for (String line :
        List.of(
            "drained the blck plug two litres",
            "outlet nuts two nineteen newton metres pleese",
            "drained 2.1 L of tea from the block plug")) {
      List<String> typed = TypedLine.words(line);
      for (String suggestion : why(line).suggestions()) {
        assertEquals(
            values(typed), values(List.of(suggestion.split(" ", -1))), line + " -> " + suggestion);
      }
    }
  }

  private static List<String> values(List<String> words) {
    return words.stream()
        .filter(word -> NumberWords.isNumberWord(word) || UnitWords.isUnitWord(word))
        .toList();
  }

  @Test
  void decimalCommaIsRefusedWithItsRemedy() {
    assertEquals(
        "not understood from word 1 on: found \"drained 2,1 L\". A comma inside a number can mean two things: write 2.1 for two"
            + " point one, and 1200 without a comma.",
        why("drained 2,1 L").toString());
  }

  @Test
  void nothingAtAllNonsenseAndEndlessLinesAreRefusedQuietly() {
    assertFalse(why("").toString().isBlank());
    assertFalse(why("?!").toString().isBlank());
    assertFalse(why("the weather is lovely today").toString().isBlank());
    assertFalse(why("two ".repeat(10_000)).toString().isBlank());
    assertFalse(why("1e999 L").toString().isBlank());
    assertFalse(why("9".repeat(400) + " L").toString().isBlank());
    assertFalse(why("-/- 3/0 \u0000 °").toString().isBlank());
  }
}
