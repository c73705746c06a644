package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;

class JsgfReaderTest {

  private static final String HEAD = "#JSGF V1.0;\ngrammar shed;\n";

  private static JsgfFile read(String rules) {
    return JsgfReader.read("shed.jsgf", HEAD + rules);
  }

  private static List<String> faults(String text) {
    return JsgfReader.read("shed.jsgf", text).faults().stream()
        .map(GrammarFault::toString)
        .toList();
  }

  private static String onlyFault(String rules) {
    List<String> faults = faults(HEAD + rules);
    assertEquals(1, faults.size(), faults.toString());
    return faults.get(0);
  }

  private static Expansion onlyRule(String expansion) {
    JsgfFile file = read("<a> = " + expansion + ";");
    assertEquals(List.of(), file.faults());
    return file.rules().get(0).expansion();
  }

  @Test
  void rulesComeWithNamesAndLines() {
    JsgfFile file =
        read(
            "import <other.*>;\n\npublic <entry> = off;\n/* two\nlines */ <item> = bolt; // rest\n");
    assertEquals(List.of(), file.faults());
    assertEquals("shed", file.grammar());
    JsgfRule entry = file.rules().get(0);
    JsgfRule item = file.rules().get(1);
    assertTrue(entry.isPublic() && entry.name().equals("entry") && entry.line() == 5);
    assertTrue(!item.isPublic() && item.name().equals("item") && item.line() == 7);
  }

  @Test
  void headerMayNameEncodingAndLanguage() {
    assertEquals(List.of(), faults("#JSGF V1.0 UTF-8 en;\ngrammar a.b.c;\n<a> = b;"));
  }

  @Test
  void alternativesBindWeakestAndRepeatsStrongest() {
    Expansion.Choice choice = (Expansion.Choice) onlyRule("a b* | [c]");
    Expansion.Sequence first = (Expansion.Sequence) choice.branches().get(0);
    assertTrue(first.parts().get(0) instanceof Expansion.Word word && word.text().equals("a"));
    assertTrue(first.parts().get(1) instanceof Expansion.Repeat repeat && !repeat.atLeastOnce());
    assertTrue(choice.branches().get(1) instanceof Expansion.Maybe);
  }

  @Test
  void weightsAreExact() {
    Expansion.Choice choice = (Expansion.Choice) onlyRule("/10/ a | /0.25/ b");
    assertEquals(List.of(new BigDecimal("10"), new BigDecimal("0.25")), choice.weights());
  }

  @Test
  void tagsKeepTheirTextAndLoseTheirEscapes() {
    Expansion.Sequence sequence = (Expansion.Sequence) onlyRule("a { off } {b\\}c\\\\}");
    assertEquals(new Expansion.Tag("off", 3), sequence.parts().get(1));
    assertEquals(new Expansion.Tag("b}c\\", 3), sequence.parts().get(2));
  }

  @Test
  void quotedTokensMayHoldSignsAndSeveralWords() {
    assertEquals(new Expansion.Word("a|b", 3), onlyRule("\"a|b\""));
    Expansion.Sequence words = (Expansion.Sequence) onlyRule("\"o ring\"");
    assertEquals(List.of(new Expansion.Word("o", 3), new Expansion.Word("ring", 3)), words.parts());
  }

  @Test
  void missingHeaderIsNamed() {
    assertEquals(
        "shed.jsgf:1: expected '#JSGF V1.0;' as the first line, found 'grammar'. Begin the file with it.",
        faults("grammar shed;\n<a> = b;").get(0));
  }

  @Test
  void emptyFileIsNamed() {
    assertTrue(
        faults("")
            .get(0)
            .contains("expected '#JSGF V1.0;' as the first line, found the end of the file"));
  }

  @Test
  void newerVersionIsRefused() {
    assertTrue(
        faults("#JSGF V2.0;\ngrammar a;")
            .get(0)
            .contains("expected version V1.0 of the format, found 'V2.0'"));
  }

  @Test
  void leadingTagIsRefusedWithWhatToWrite() {
    assertEquals(
        "shed.jsgf:3: expected something said before a tag, found {x}. Write <NULL> {x} to begin with a tag.",
        onlyFault("<a> = {x} b;"));
  }

  @Test
  void missingSemicolonIsNamed() {
    assertEquals(
        "shed.jsgf:4: expected ';' at the end of rule <a>, found '='. Put it there, or see whether the line before is"
            + " finished.",
        onlyFault("<a> = b\n<c> = d;\n<e> = f;"));
  }

  @Test
  void unclosedBracketNamesItsLine() {
    assertEquals(
        "shed.jsgf:4: expected ')' to close the bracket opened on line 3, found ';'. Put it there, or see whether the line"
            + " before is finished.",
        onlyFault("<a> = (b\n| c;"));
  }

  @Test
  void unclosedTagEndsWithItsLine() {
    assertEquals(
        "shed.jsgf:3: expected '}' on the line of the first, found the end of the line. Close it on its line.",
        onlyFault("<a> = b {x\n;\n<c> = d;"));
  }

  @Test
  void unclosedCommentIsNamed() {
    assertTrue(onlyFault("<a> = b; /* no end").contains("expected '*/' to end this comment"));
  }

  @Test
  void emptyAlternativeIsRefused() {
    assertTrue(
        onlyFault("<a> = b | ;")
            .contains("expected a word, rule, group or option, found ';'. Write <NULL>"));
  }

  @Test
  void weightOnSomeAlternativesIsRefused() {
    assertTrue(
        onlyFault("<a> = /2/ b | c;")
            .contains("expected a weight on all 2 alternatives or on none, found 1 with a"));
  }

  @Test
  void weightThatIsNoNumberIsRefused() {
    assertTrue(onlyFault("<a> = /x/ b | /1/ c;").contains("expected a weight, found 'x'"));
    assertTrue(
        onlyFault("<a> = /-1/ b | /1/ c;").contains("expected a weight of 0 or more, found '-1'"));
  }

  @Test
  void capitalsAreRefused() {
    assertTrue(
        onlyFault("<a> = Bolt;")
            .contains("expected words in lower case, found 'Bolt'. Write \"bolt\"."));
  }

  @Test
  void namesWithDotsAreRefused() {
    assertTrue(
        onlyFault("<a> = <other.b>;").contains("expected a plain rule name, found <other.b>"));
  }

  @Test
  void ownNameForNullIsRefused() {
    assertTrue(onlyFault("<NULL> = b;").contains("expected a rule name of your own, found <NULL>"));
  }

  @Test
  void tooDeepBracketsAreRefusedAndNotAStackOverflow() {
    String deep = "<a> = " + "(".repeat(100_000) + "b" + ")".repeat(100_000) + ";";
    assertTrue(onlyFault(deep).contains("expected at most 100 brackets inside each other"));
  }

  @Test
  void allFaultsAreFoundInOneReading() {
    List<String> faults = faults(HEAD + "<a> = (b;\n<c> = ;\n<d> = {x} e;\nnonsense;\n<f> = g;");
    assertEquals(
        List.of("3", "4", "5", "6"), faults.stream().map(fault -> fault.split(":", 3)[1]).toList());
  }

  @Test
  void rulesAfterAFaultAreStillRead() {
    JsgfFile file = read("<a> = (b;\n<c> = d;");
    assertEquals(List.of("c"), file.rules().stream().map(JsgfRule::name).toList());
  }
}
