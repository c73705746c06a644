package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.report.TextTables.Paint;

class TextTablesTest {

  @Test
  void areTheTablesAsAgreed() {
    Golden.assertSame("check.txt", TextTables.of(OrchardJob.record(), Paint.PLAIN).all());
  }

  @Test
  void areTheSameInAnotherLanguageAndZone() {
    assertEquals(
        TextTables.of(OrchardJob.record(), Paint.PLAIN).all(),
        HtmlRecordTest.Elsewhere.call(() -> TextTables.of(OrchardJob.record(), Paint.PLAIN).all()));
  }

  @Test
  void colourOnlyRepeatsWhatTheWordsSay() {
    String coloured = TextTables.of(OrchardJob.record(), Paint.COLOUR).all();
    assertTrue(coloured.contains("\u001b["));
    List<String> plain = TextTables.of(OrchardJob.record(), Paint.PLAIN).all().lines().toList();
    assertEquals(
        plain,
        coloured.replaceAll("\u001b\\[[0-9;]*m", "").lines().map(String::stripTrailing).toList());
  }

  @Test
  void theFirstFindingIsAStop() {
    String findings = TextTables.of(OrchardJob.record(), Paint.PLAIN).findings();
    assertTrue(findings.indexOf("STOP") < findings.indexOf("CHECK"));
    assertTrue(findings.indexOf("CHECK") < findings.indexOf("NOTE "));
  }

  @Test
  void hostileTextSteersNoTerminalAndBreaksNoTable() {
    long seed = 20260303;
    System.out.println("TextTablesTest.hostileText seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 200; round++) {
      String text = TextTables.of(OrchardJob.named(HostileText.from(random)), Paint.PLAIN).all();
      assertFalse(
          text.chars().anyMatch(each -> each < ' ' && each != '\n'),
          "a control character came through");
      text.lines()
          .forEach(
              line ->
                  assertTrue(
                      line.codePointCount(0, line.length()) <= 100,
                      () -> "over 100 columns: " + line));
    }
  }

  @Test
  void wrappingKeepsEveryWordAndEveryLineInside() {
    long seed = 20260304;
    System.out.println("TextTablesTest.wrapping seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 2000; round++) {
      StringBuilder text = new StringBuilder();
      for (int word = random.nextInt(12); word >= 0; word--) {
        text.append("w".repeat(1 + random.nextInt(30))).append(' ');
      }
      int width = 5 + random.nextInt(40);
      List<String> lines = Columns.wrap(text.toString(), width);
      assertEquals(text.toString().replace(" ", ""), String.join("", lines).replace(" ", ""));
      lines.forEach(line -> assertTrue(line.length() <= width, () -> width + ": " + line));
    }
  }

  @Test
  void aNumberIsNotPartedFromItsUnit() {
    assertEquals(List.of("3.95 L out,", "3.35 L in"), Columns.wrap("3.95 L out, 3.35 L in", 14));
    assertEquals(List.of("torqued to", "24 N·m"), Columns.wrap("torqued to 24 N·m", 14));
    assertEquals(List.of("see", "no. 14"), Columns.wrap("see no. 14", 8));
  }
}
