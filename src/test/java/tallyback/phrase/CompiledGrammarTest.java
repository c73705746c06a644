package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class CompiledGrammarTest {

  private static CompiledGrammar compile(String rules) {
    JsgfFile file = JsgfReader.read("test.jsgf", "#JSGF V1.0;\ngrammar test;\n" + rules);
    return CompiledGrammar.compile(List.of(file), "entry");
  }

  private static List<String> read(CompiledGrammar grammar, String phrase) {
    return grammar.parse(List.of(phrase.split(" "))).stream().map(Parse::toString).toList();
  }

  private static final String DRAINED =
      """
      public <entry> = drained {out} <volume> [from <place>] | <item> off {off};
      <volume> = <NULL> {number<} <digit> [point <digit>+] {>} (litre | litres) {L};
      <digit> = one | two | three;
      <place> = the (block plug {place:block} | radiator {place:radiator});
      <item> = [the] (splash guard) {item:guard};
      """;

  @Test
  void wordsOfASpanAreGivenOutAndOthersAreNot() {
    CompiledGrammar grammar = compile(DRAINED);
    assertEquals(
        List.of("{out} {number<} two point one two {>} {L} {place:block}"),
        read(grammar, "drained two point one two litres from the block plug"));
  }

  @Test
  void whatIsNoPhraseHasNoParse() {
    CompiledGrammar grammar = compile(DRAINED);
    assertEquals(List.of(), read(grammar, "drained two point litres"));
    assertEquals(List.of(), read(grammar, "drained two"));
    assertEquals(List.of(), grammar.parse(List.of()));
  }

  @Test
  void graphAcceptsWhatIsParsed() {
    CompiledGrammar grammar = compile(DRAINED);
    assertTrue(grammar.graph().accepts(List.of("splash", "guard", "off")));
    assertEquals(List.of("{item:guard} {off}"), read(grammar, "splash guard off"));
  }
}
