package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * Contrast of the page's colours by the formula of the Web Content Accessibility Guidelines 2.1
 * (W3C Recommendation of 5 June 2018), definitions "relative luminance" and "contrast ratio";
 * success criteria 1.4.3 (text, 4.5:1) and 1.4.11 (marks, 3:1).
 */
class ContrastTest {

  private static final Pattern ROOT = Pattern.compile(":root(?:\\[data-printing])? \\{([^}]*)}");
  private static final Pattern COLOUR = Pattern.compile("--([a-z-]+): #([0-9a-f]{6});");

  private static final List<List<String>> TEXTS =
      List.of(
          List.of("ink", "paper"),
          List.of("ink", "sheet"),
          List.of("faint", "paper"),
          List.of("faint", "sheet"),
          List.of("stop", "paper"),
          List.of("on-stop", "stop"),
          List.of("check", "paper"),
          List.of("note", "paper"));
  private static final List<List<String>> MARKS =
      List.of(List.of("line", "paper"), List.of("bar", "paper"));
  private static final List<List<String>> CANVAS_MARKS =
      List.of(List.of("curve", "paper"), List.of("curve", "sheet"), List.of("bar", "sheet"));

  @Test
  void theFormulaGivesTheGuidelinesOwnExtremes() {
    assertEquals(21, contrast("000000", "ffffff"), 1e-9);
    assertEquals(1, contrast("96180e", "96180e"), 1e-9);
  }

  @Test
  void everyColourCanBeReadInLightDarkAndPrint() throws IOException {
    for (Map<String, String> scheme : schemes("record.css")) {
      TEXTS.forEach(pair -> assertContrast(scheme, pair, 4.5));
      MARKS.forEach(pair -> assertContrast(scheme, pair, 3));
    }
  }

  @Test
  void soCanThoseOfTheTimelineAndOfItsCanvas() throws IOException {
    for (Map<String, String> scheme : schemes("timeline/timeline.css")) {
      TEXTS.forEach(pair -> assertContrast(scheme, pair, 4.5));
      MARKS.forEach(pair -> assertContrast(scheme, pair, 3));
      CANVAS_MARKS.forEach(pair -> assertContrast(scheme, pair, 3));
    }
  }

  private static void assertContrast(Map<String, String> scheme, List<String> pair, double least) {
    String front = scheme.get(pair.get(0));
    String back = scheme.get(pair.get(1));
    assertNotNull(front);
    assertNotNull(back);
    double contrast = contrast(front, back);
    assertTrue(contrast >= least, () -> pair + " " + front + " on " + back + ": " + contrast);
  }

  /** Light, dark, print. */
  private static List<Map<String, String>> schemes(String name) throws IOException {
    try (InputStream style = HtmlRecord.class.getResourceAsStream(name)) {
      assertNotNull(style);
      Matcher roots = ROOT.matcher(new String(style.readAllBytes(), StandardCharsets.UTF_8));
      List<Map<String, String>> schemes =
          roots.results().map(root -> colours(root.group(1))).toList();
      assertEquals(3, schemes.size(), name);
      return schemes;
    }
  }

  private static Map<String, String> colours(String rules) {
    Map<String, String> colours = new HashMap<>();
    COLOUR.matcher(rules).results().forEach(each -> colours.put(each.group(1), each.group(2)));
    return colours;
  }

  private static double contrast(String one, String other) {
    double first = luminance(one);
    double second = luminance(other);
    return (Math.max(first, second) + 0.05) / (Math.min(first, second) + 0.05);
  }

  private static double luminance(String colour) {
    return 0.2126 * channel(colour, 0) + 0.7152 * channel(colour, 2) + 0.0722 * channel(colour, 4);
  }

  private static double channel(String colour, int from) {
    double share = Integer.parseInt(colour.substring(from, from + 2), 16) / 255.0;
    return share <= 0.03928 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
  }
}
