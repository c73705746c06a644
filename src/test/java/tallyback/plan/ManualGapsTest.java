package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tallyback.plan.ManualGaps.Filled;
import tallyback.plan.ManualGaps.Gap;

class ManualGapsTest {

  private static final String IN_LINES =
      """
      tallyback-plan: 1
      name: Pump # of the old one
      items:
        - say: [pump bolts]   # six, two of them long
          thing: bolt
          count: 6
          from-manual: [head, torque] # p. 40
        - say: [pump]
      """;

  private static final Map<String, String> TORQUE =
      Map.of("value", "25 N·m", "tolerance", "3 N·m", "tolerance-from", "workshop manual p. 40");

  private static Filled fill(String text, String field, Map<String, String> written) {
    Gap gap =
        ManualGaps.of(text).stream()
            .filter(each -> each.field().equals(field))
            .findFirst()
            .orElseThrow();
    return ManualGaps.fill("plan.yaml", text, gap.line(), gap.column(), written);
  }

  private static Plan.Torque torque(Plan plan) {
    return Objects.requireNonNull(plan.items().get(0).torque());
  }

  @Test
  void tellsWhatIsOpenAndWhere() {
    assertEquals(
        List.of(new Gap(7, 19, "pump bolts", "head"), new Gap(7, 25, "pump bolts", "torque")),
        ManualGaps.of(IN_LINES));
    assertEquals(
        List.of("value", "tolerance", "tolerance-from"), ManualGaps.of(IN_LINES).get(1).answers());
  }

  @Test
  void putsAValueInAndLeavesEveryOtherLetterAsItIs() {
    Filled filled = fill(IN_LINES, "torque", TORQUE);

    assertEquals(List.of(), filled.wrong());
    assertEquals(8, filled.line());
    assertEquals(
        """
        tallyback-plan: 1
        name: Pump # of the old one
        items:
          - say: [pump bolts]   # six, two of them long
            thing: bolt
            count: 6
            from-manual: [head]
            torque: {value: 25 N·m, tolerance: 3 N·m, tolerance-from: workshop manual p. 40} # p. 40
          - say: [pump]
        """,
        filled.text());
  }

  @Test
  void takesTheWordAwayWithTheLastValue() {
    String once = fill(IN_LINES, "torque", TORQUE).text();
    Filled filled = fill(once, "head", Map.of("head", "13 mm"));

    assertEquals(List.of(), filled.wrong());
    assertTrue(
        filled.text().contains("    count: 6\n    head: 13 mm\n    torque: {"), filled.text());
    assertFalse(filled.text().contains("from-manual"), filled.text());
    Plan plan = PlanReader.read("plan.yaml", filled.text()).plan().orElseThrow();
    assertEquals("25 N·m", torque(plan).value().toString());
    assertEquals(List.of(), plan.open());
  }

  @Test
  void worksBetweenBraces() {
    String text =
        """
        tallyback-plan: 1
        name: Oil
        items:
          - {say: [sump plug], thing: plug, from-manual: [head, torque], renew: false}
        """;
    Filled filled = fill(text, "head", Map.of("head", "17 mm"));

    assertEquals(List.of(), filled.wrong());
    assertTrue(
        filled
            .text()
            .contains(
                "{say: [sump plug], thing: plug, from-manual: [torque], head: 17 mm, renew: false}"),
        filled.text());
  }

  @Test
  void aRemarkBehindALineOfItsOwnComesAlong() {
    String text =
        """
        tallyback-plan: 1
        name: Pump
        items:
          - say: [pump bolts]
            thing: bolt
            from-manual:
              - head # p. 39
              - torque # p. 40
        """;
    assertEquals(
        """
        tallyback-plan: 1
        name: Pump
        items:
          - say: [pump bolts]
            thing: bolt
            head: 13 mm # p. 39
            from-manual:
              - torque # p. 40
        """,
        fill(text, "head", Map.of("head", "13 mm")).text());
  }

  @Test
  void keepsTheLineEndsOfTheFileAndSignsBeyondThePlane() {
    String text = IN_LINES.replace("of the old one", "\uD83D\uDD27 old").replace("\n", "\r\n");
    String filled = fill(text, "torque", TORQUE).text();

    assertFalse(filled.replace("\r\n", "").contains("\n"), filled);
    assertTrue(filled.contains("\uD83D\uDD27 old"), filled);
    assertTrue(filled.contains("    from-manual: [head]\r\n    torque: {"), filled);
  }

  @Test
  void aFigureWithoutItsUnitIsTurnedAwayAndTheTextStays() {
    Filled filled =
        fill(
            IN_LINES,
            "torque",
            Map.of("value", "25", "tolerance", "3 N·m", "tolerance-from", "p."));

    assertEquals(IN_LINES, filled.text());
    assertEquals(1, filled.wrong().size(), filled.wrong().toString());
    assertTrue(
        filled.wrong().get(0).text().contains("torque.value: expected"),
        filled.wrong().get(0).text());
  }

  @Test
  void whatIsLeftOutIsAskedFor() {
    Filled filled = fill(IN_LINES, "torque", Map.of("value", "25 N·m"));

    assertEquals(IN_LINES, filled.text());
    assertTrue(
        filled.wrong().stream().anyMatch(fault -> fault.text().contains("tolerance-from")),
        filled.wrong().toString());
  }

  @Test
  void nothingThatIsWrittenGetsOutOfItsPlace() {
    Filled filled =
        fill(
            IN_LINES,
            "torque",
            Map.of(
                "value", "25 N·m}, renew: true, x: {",
                "tolerance", "3 N·m",
                "tolerance-from", "p. \"40\"\n    renew: true"));
    assertEquals(IN_LINES, filled.text());

    String kept =
        fill(
                IN_LINES,
                "torque",
                Map.of(
                    "value", "25 N·m",
                    "tolerance", "3 N·m",
                    "tolerance-from", "p. \"40\" \\ # {a, b}\n    renew: true"))
            .text();
    Plan plan = PlanReader.read("plan.yaml", kept).plan().orElseThrow();
    assertEquals("p. \"40\" \\ # {a, b}     renew: true", torque(plan).toleranceFrom());
    assertFalse(plan.items().get(0).renew());
  }

  @Test
  void aGapThatIsNoLongerThereIsTold() {
    IllegalArgumentException told =
        assertThrows(
            IllegalArgumentException.class,
            () -> ManualGaps.fill("plan.yaml", IN_LINES, 6, 3, TORQUE));
    assertEquals("line 6: nothing is left to the manual there any more", told.getMessage());
  }

  @Test
  void whatIsNoYamlHasNoGaps() {
    assertEquals(List.of(), ManualGaps.of("items: [\n"));
    assertEquals(List.of(), ManualGaps.of(""));
  }

  static Stream<Path> seeds() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("seeds"))) {
      return files.filter(file -> file.toString().endsWith(".yaml")).sorted().toList().stream();
    }
  }

  /** The places of gaps are those that the plan's reader knows, and every one can be filled. */
  @ParameterizedTest
  @MethodSource("seeds")
  void everyGapOfASeedCanBeFilled(Path seed) throws IOException {
    String text = Files.readString(seed);
    int open = PlanReader.read("plan.yaml", text).plan().orElseThrow().open().size();
    assertEquals(open, ManualGaps.of(text).size());
    for (int left = open; left > 0; left--) {
      Gap gap = ManualGaps.of(text).get(0);
      Filled filled =
          ManualGaps.fill("plan.yaml", text, gap.line(), gap.column(), written(gap, text));
      assertEquals(List.of(), filled.wrong(), () -> gap + " " + filled.text());
      text = filled.text();
      assertEquals(left - 1, ManualGaps.of(text).size());
    }
    assertEquals(List.of(), PlanReader.read("plan.yaml", text).plan().orElseThrow().open());
  }

  private static Map<String, String> written(Gap gap, String text) {
    return switch (gap.field()) {
      case "torque" -> TORQUE;
      case "head" -> Map.of("head", "13 mm");
      case "thread" -> Map.of("thread", "M8x1.25");
      case "minutes" -> Map.of("minutes", "10");
      case "capacity" -> Map.of("capacity", "9.5 L");
      case "drop" -> Map.of("drop", "5 kPa");
      case "from" -> Map.of("from", reading(gap.of(), "1"));
      case "to" -> Map.of("to", reading(gap.of(), "90"));
      default -> throw new AssertionError(gap + " in " + text);
    };
  }

  private static String reading(String of, String figure) {
    String measure = of.substring(of.indexOf(": ") + 2);
    return figure
        + switch (measure) {
          case "voltage" -> " V";
          case "pressure" -> " kPa";
          case "temperature" -> " °C";
          case "strength" -> " %";
          case "gap", "thickness", "runout", "length", "play" -> " mm";
          default -> throw new AssertionError(measure);
        };
  }
}
