package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class JsgfGrammarTest {

  private static WordGraph graph(String rules) {
    return JsgfGrammar.of("g.jsgf", "#JSGF V1.0;\ngrammar g;\n" + rules);
  }

  @Test
  void everyPublicRuleMayBeSaid() {
    WordGraph graph = graph("public <a> = <d>+;\npublic <b> = stop;\n<d> = one | two;\n");
    assertTrue(graph.accepts(List.of("one", "two", "two")));
    assertTrue(graph.accepts(List.of("stop")));
    assertFalse(graph.accepts(List.of("one", "stop")));
  }

  @Test
  void capitalsAreSmallLetters() {
    WordGraph graph = graph("public <Digits> = (ONE | <Two>) [<NULL>];\n<Two> = Two;\n");
    assertTrue(graph.accepts(List.of("one")));
    assertTrue(graph.accepts(List.of("two")));
  }

  @Test
  void aGrammarWithoutAPublicRuleIsRefused() {
    assertEquals(
        "g.jsgf: expected a public rule, found none",
        assertThrows(IllegalArgumentException.class, () -> graph("<a> = one;\n")).getMessage());
  }

  @Test
  void faultsAreNamedWithTheirLines() {
    String message =
        String.valueOf(
            assertThrows(IllegalArgumentException.class, () -> graph("public <a> = (one;\n"))
                .getMessage());
    assertTrue(message.startsWith("g.jsgf:3: expected "), message);
  }
}
