package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PhraseMakerTest {

  private static CompiledGrammar compile(String rules) {
    return CompiledGrammar.compile(
        List.of(JsgfReader.read("test", "#JSGF V1.0; grammar test;\n" + rules)), "entry");
  }

  private static List<List<String>> made(PhraseMaker maker, int phrases) {
    List<List<String>> made = new ArrayList<>();
    for (int i = 0; i < phrases; i++) {
      made.add(maker.next());
    }
    return made;
  }

  private static final String UNEVEN =
      """
      <entry> = <short> | <long> | <none>;
      <short> = stop;
      <long> = the (belt | fan | guard | hose | pump | pulley | bracket | strap | clamp) is (off | on);
      <none> = <VOID>;
      """;

  @Test
  void longRulesComeAsOftenAsShortOnes() {
    List<List<String>> made = made(new PhraseMaker(compile(UNEVEN), new Random(3)), 180);
    assertEquals(90, made.stream().filter(phrase -> phrase.size() == 1).count());
    assertEquals(10, made.stream().filter(phrase -> phrase.contains("strap")).count());
  }

  @Test
  void coverageTellsWhatIsMissing() {
    PhraseMaker maker = new PhraseMaker(compile(UNEVEN), new Random(3));
    assertEquals(List.of("entry", "long", "short"), maker.coverage().rulesMissed());
    made(maker, 2);
    assertEquals("5 of 14 arcs, 3 of 3 rules", maker.coverage().toString());
    made(maker, 40);
    assertEquals("14 of 14 arcs, 3 of 3 rules", maker.coverage().toString());
  }

  @Test
  void restOfCoverageGoesThroughEveryArc() {
    PhraseMaker maker = new PhraseMaker(compile(UNEVEN), new Random(3));
    assertFalse(maker.restOfCoverage().isEmpty());
    assertEquals(14, maker.coverage().arcsCovered());
    assertTrue(maker.restOfCoverage().isEmpty());
  }

  @Test
  void repeatsStayShort() {
    List<List<String>> made =
        made(new PhraseMaker(compile("<entry> = go (a | b)+ [c*];"), new Random(5)), 500);
    assertEquals(8, made.stream().mapToInt(List::size).max().orElse(0));
    assertEquals(2, made.stream().mapToInt(List::size).min().orElse(0));
  }

  @Test
  void sameSeedMakesTheSamePhrases() {
    CompiledGrammar grammar = compile(UNEVEN);
    assertEquals(
        made(new PhraseMaker(grammar, new Random(9)), 50),
        made(new PhraseMaker(grammar, new Random(9)), 50));
  }
}
