package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** One small grammar for each thing that is refused. */
class GrammarLintTest {

  private static List<JsgfFile> files(String... rules) {
    List<JsgfFile> files = new java.util.ArrayList<>();
    for (int i = 0; i < rules.length; i++) {
      files.add(JsgfReader.read("file" + (i + 1), "#JSGF V1.0; grammar f" + i + ";\n" + rules[i]));
    }
    return files;
  }

  private static List<String> faults(String... rules) {
    return GrammarLint.check(files(rules), "entry").stream().map(GrammarFault::toString).toList();
  }

  private static String onlyFault(String... rules) {
    List<String> faults = faults(rules);
    assertEquals(1, faults.size(), faults.toString());
    return faults.get(0);
  }

  @Test
  void goodGrammarHasNoFault() {
    assertEquals(
        List.of(),
        faults("<entry> = <item> off {off};", "<item> = belt {belt} | [fan] guard {guard};"));
  }

  @Test
  void missingRootIsNamed() {
    assertEquals(
        "the grammar:1: expected a rule <entry> to begin with, found none. Write it, or name another rule to begin with.",
        onlyFault("public <other> = a;"));
  }

  @Test
  void undefinedRuleIsNamedWithItsLine() {
    assertEquals(
        "file1:3: expected a rule that exists, found <itme> in rule <entry>. Write that rule, or correct its name.",
        onlyFault("<entry> = a\n | <itme>;"));
  }

  @Test
  void rulesOfAnotherFileAreFound() {
    assertEquals(List.of(), faults("<entry> = <item>;", "<item> = a;"));
  }

  @Test
  void doubledRuleNamesBothPlaces() {
    assertEquals(
        "file2:2: expected each rule once, found <item> again, first at file1:3. Rename one, or join the two with '|'.",
        onlyFault("<entry> = <item>;\n<item> = a;", "<item> = b;"));
  }

  @Test
  void unusedRuleIsNamed() {
    assertTrue(
        onlyFault("<entry> = a;\n<item> = b;")
            .contains("file1:3: expected every rule to be used, found <item>"));
  }

  @Test
  void recursionNamesTheRing() {
    assertEquals(
        "file1:3: expected no rule that leads back to itself, found <a> -> <b> -> <a>. Write a repeat with '*' or '+' instead.",
        onlyFault("<entry> = <a>;\n<a> = x [<b>];\n<b> = y <a>;"));
  }

  @Test
  void ruleThatNamesItselfIsRecursive() {
    assertTrue(onlyFault("<entry> = a [<entry>];").contains("<entry> -> <entry>"));
  }

  @Test
  void loopThatCanMatchNothingIsNamed() {
    String expected =
        "file1:2: expected at least one word each time round a '*' or '+', found a repeat in rule <entry> whose inside can be"
            + " said by saying nothing. Take the option, '*' or <NULL> out of the repeat.";
    assertEquals(expected, onlyFault("<entry> = a ([b])*;"));
    assertEquals(expected, onlyFault("<entry> = a (b*)+;"));
    assertEquals(expected, onlyFault("<entry> = a (<NULL> {x})+;"));
    assertTrue(
        onlyFault("<entry> = a <quiet>+;\n<quiet> = b | <quieter>;\n<quieter> = [c] [d];")
            .startsWith("file1:2:"));
  }

  @Test
  void grammarThatMatchesNothingIsRefused() {
    assertTrue(
        onlyFault("<entry> = off <item>;\n<item> = <VOID>;")
            .contains("found <entry>, which matches nothing"));
  }

  @Test
  void voidInsideABranchIsRefused() {
    assertEquals(
        "file1:2: expected <VOID> only as a whole rule, '<name> = <VOID>;', found <VOID> inside rule <entry>, where it takes its"
            + " branch away silently. Take the branch away, or give the missing part a rule of its own.",
        onlyFault("<entry> = a | b <VOID>;"));
  }

  @Test
  void emptyNamesOfAPlanAreNoFaultButNoted() {
    List<JsgfFile> files = files("<entry> = a | <moved>;\n<moved> = off <item>;\n<item> = <VOID>;");
    assertEquals(List.of(), GrammarLint.check(files, "entry"));
    assertEquals(
        List.of(
            "file1:3: expected <moved> to be sayable, found that it needs <item>, which is empty. Fill that rule if phrases of"
                + " <moved> are wanted."),
        GrammarLint.emptied(CompiledGrammar.compile(files, "entry")).stream()
            .map(GrammarFault::toString)
            .toList());
  }

  @Test
  void spanLeftOpenIsRefused() {
    assertTrue(
        onlyFault("<entry> = a {n<} b;")
            .contains("expected every span closed before the next one opens"));
    assertTrue(
        onlyFault("<entry> = a {>} b;").contains("expected a tag such as {number<} before {>}"));
    assertTrue(
        onlyFault("<entry> = (a {n<} | b) c {>};")
            .contains("a span to open or close in all alternatives or in none"));
    assertTrue(
        onlyFault("<entry> = a {n<} (b {m<} c {>});")
            .contains("expected every span closed before the next one opens"));
    assertTrue(onlyFault("<entry> = (a {n<})+;").contains("at the end of a phrase"));
  }

  @Test
  void wordWithoutPronunciationIsNamedOnce() {
    Set<String> known = Set.of("belt", "off");
    Lexicon lexicon =
        new Lexicon() {
          @Override
          public boolean knows(String word) {
            return known.contains(word);
          }

          @Override
          public List<String> pronunciations(String word) {
            return List.of();
          }
        };
    CompiledGrammar grammar =
        CompiledGrammar.compile(
            files("<entry> = belt off\n| grommet off | grommet belt;"), "entry");
    assertEquals(
        List.of(
            "file1:3: expected words with a known pronunciation, found 'grommet' in rule <entry>. Give its pronunciation, or use"
                + " another word."),
        GrammarLint.unpronounceable(grammar, lexicon).stream()
            .map(GrammarFault::toString)
            .toList());
  }

  @Test
  void sharedPhraseNamesBothReadingsAndPlaces() {
    assertEquals(
        "file1:3: expected one meaning for each phrase, found \"fan guard off\", read as {guard} {off} and as {fan} {off}. Take"
            + " the phrase away from file1:3 <item> or from file1:4 <item>.",
        onlyFault(
            "<entry> = <item> off {off};\n<item> = [fan] guard {guard}\n | fan [guard] {fan};"));
  }

  @Test
  void sharedPhraseBehindALoopIsFound() {
    assertTrue(
        onlyFault("<entry> = (a | b)* c a {one} | (a | b)* c [b] a {two};")
            .contains("\"c a\", read as {one} and as {two}"));
  }

  @Test
  void differentWaysToOneMeaningAreNoFault() {
    assertEquals(List.of(), faults("<entry> = [a] a* b {x} | a b {x};"));
  }

  @Test
  void keptWordsThatAreCutApartDifferentlyAreAFault() {
    assertTrue(
        onlyFault(
                "<digit> = one | two;\n<entry> = <NULL> {n<} <digit>+ {>} <NULL> {m<} <digit>+ {>};")
            .contains("expected one meaning for each phrase"));
  }

  @Test
  void tagsThatComeLateButAgreeAreNoFault() {
    assertEquals(List.of(), faults("<entry> = a {x} b c | a b c {x} | a b {x} d;"));
  }

  @Test
  void faultsOfAllFilesComeTogether() {
    assertEquals(
        4, faults("<entry> = <a> <b>;\n<a> = (x;\n<c> = <c>;", "<d> = y* (;\n<entry> = z;").size());
  }

  @Test
  void ruleBombIsRefusedInsteadOfFillingMemory() {
    StringBuilder rules = new StringBuilder("<entry> = <r0>;\n");
    for (int i = 0; i < 40; i++) {
      rules.append("<r" + i + "> = <r" + (i + 1) + "> <r" + (i + 1) + ">;\n");
    }
    rules.append("<r40> = a;\n");
    assertTrue(onlyFault(rules.toString()).contains("states when all rules are written out"));
  }

  @Test
  void veryLongChainOfRulesIsRefusedAndNotAStackOverflow() {
    StringBuilder rules = new StringBuilder("<entry> = <r0>;\n");
    for (int i = 0; i < 400; i++) {
      rules.append("<r" + i + "> = a <r" + (i + 1) + ">;\n");
    }
    rules.append("<r400> = a;\n");
    assertTrue(
        onlyFault(rules.toString()).contains("expected at most 200 rules inside each other"));
  }

  @Test
  void compileThrowsWithAllFaults() {
    UnusableGrammarException refused =
        assertThrows(
            UnusableGrammarException.class,
            () -> CompiledGrammar.compile(files("<entry> = <a> <b> (<NULL>)*;"), "entry"));
    assertEquals(3, refused.faults().size());
  }
}
