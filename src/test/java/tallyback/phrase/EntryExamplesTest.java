package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tallyback.plan.PlanReader;

class EntryExamplesTest {

  @Test
  void theyMayAllBeSaidAndEachWordIsAmongThem() throws IOException {
    EntryGrammar grammar =
        EntryGrammar.of(PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow());

    List<List<String>> examples = grammar.examples();

    Set<String> said = new HashSet<>();
    for (List<String> phrase : examples) {
      assertTrue(grammar.entries().accepts(phrase), phrase.toString());
      said.addAll(phrase);
    }
    assertEquals(grammar.entries().words(), said);
    assertEquals(examples.size(), new HashSet<>(examples).size());
    assertTrue(examples.size() > 15_000 && examples.size() < 40_000, examples.size() + " examples");
    assertEquals(examples, grammar.examples());
  }
}
