package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Plans that are wrong, given to the commands that take one: every fault in a line of its own with
 * its remedy, and no data file comes into being.
 */
class BadPlanTest {

  private static final String HEAD =
      """
      tallyback-plan: 1
      name: odd job
      """;

  @TempDir private Path folder;

  private Path plan(String text) throws IOException {
    return Files.writeString(folder.resolve("p.yaml"), text);
  }

  private void assertRefused(Path plan, String... faults) throws IOException {
    String[] lines = List.of(faults).stream().map(each -> plan + each).toArray(String[]::new);
    Path data = folder.resolve("new.tallyback");
    assertEquals(
        Ran.failed(2, lines),
        Ran.command("enter", "--plan", plan, "--data", data, "belly pan off"),
        "enter");
    assertEquals(
        Ran.failed(2, lines),
        Ran.command(
            "hear", "demo-data/audio/004-090120.wav", "--plan", plan, "--data", data, "--json"),
        "hear");
    assertEquals(Ran.failed(2, lines), Ran.command("phrases", plan), "phrases");
    String[] weighed =
        List.of(lines).stream()
            .map(each -> each.replaceFirst("^(.*?\\.yaml(:\\d+:\\d+)?: )", "$1stop: "))
            .toArray(String[]::new);
    assertEquals(new Ran(1, Ran.lines(weighed), ""), Ran.command("lint", plan), "lint");
    try (var files = Files.list(folder)) {
      assertEquals(List.of(), files.filter(each -> !each.equals(plan)).toList());
    }
  }

  @Test
  void noSuchFile() throws IOException {
    assertRefused(
        folder.resolve("none.yaml"),
        ": expected a plan file, found no such file; check its name and folder");
  }

  @Test
  void nothingInTheFile() throws IOException {
    assertRefused(
        plan(""),
        ": expected a plan, found an empty file; begin with the line \"tallyback-plan: 1\"");
  }

  @Test
  void unknownFields() throws IOException {
    assertRefused(
        plan(HEAD + "colour: red\nsystens: []\n"),
        ":3:1: colour: expected one of the known fields, found the unknown field \"colour\"; known"
            + " here: tallyback-plan, name, basis, machine, people, fluids, systems, places, items, steps,"
            + " instruments, limits, pronunciations",
        ":4:1: systens: expected one of the known fields, found the unknown field \"systens\"; did"
            + " you mean \"systems\"?");
  }

  @Test
  void duplicateIds() throws IOException {
    assertRefused(
        plan(
            HEAD
                + """
                items:
                  - id: pump-bolts
                    say: [pump bolts]
                    count: 6
                  - id: pump-bolts
                    say: [long bolts]
                    count: 2
                """),
        ":7:9: items.pump-bolts.id: expected an id of its own, found \"pump-bolts\", which is"
            + " already an item on line 4; give one of them another id (the field \"id\")");
  }

  @Test
  void stepsThatNeedEachOther() throws IOException {
    assertRefused(
        plan(
            HEAD
                + """
                steps:
                  - id: drain
                    say: [draining]
                    needs: [strip]
                  - id: strip
                    say: [strip covers]
                    needs: [drain]
                """),
        ":9:13: steps.strip.needs: expected an order in which each comes after what it needs, found"
            + " a ring: drain -> strip -> drain; take one of these needs out");
  }

  @Test
  void negativeCounts() throws IOException {
    assertRefused(
        plan(
            HEAD
                + """
                items:
                  - id: pump-bolts
                    say: [pump bolts]
                    count: -6
                  - id: fan-nuts
                    say: [fan nuts]
                    count: 0
                """),
        ":6:12: items.pump-bolts.count: expected a whole number from 1 to 99, found \"-6\"; write it"
            + " in digits, without quotes and without a unit",
        ":9:12: items.fan-nuts.count: expected a whole number from 1 to 99, found \"0\"; write it"
            + " in digits, without quotes and without a unit");
  }

  @Test
  void aliasBomb() throws IOException {
    StringBuilder bomb = new StringBuilder(HEAD).append("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
    for (int i = 1; i < 12; i++) {
      String before = "*a" + (i - 1);
      bomb.append("a" + i + ": &a" + i + " [" + (before + ", ").repeat(8) + before + "]\n");
    }
    assertRefused(
        plan(bomb.toString()),
        ":9:35: expected at most 50 aliases (*name), found more; write the values out");
  }

  @Test
  void aPlanOfANewerFormat() throws IOException {
    assertRefused(
        plan("tallyback-plan: 7\nname: odd job\n"),
        ":1:17: tallyback-plan: expected plan format 1 or older, found format 7, from a newer"
            + " Tallyback; read it with a Tallyback that is at least as new as the plan");
  }

  @Test
  void notYamlAtAll() throws IOException {
    assertRefused(
        plan("tallyback-plan: 1\nname: [odd\n"),
        ":3:1: expected YAML or JSON, found something else (expected ',' or ']', but got <stream"
            + " end>); look at this line and the one before it: indentation, quotes, brackets,"
            + " colons");
  }

  @Test
  void aNameNobodyCanPronounce() throws IOException {
    assertRefused(
        plan(
            HEAD
                + """
                items:
                  - id: zzyzx-bolts
                    say: [zzyzx bolts]
                    count: 6
                """),
        ":5:11: items.zzyzx-bolts.say: expected words with a known pronunciation, found \"zzyzx\"; add"
            + " it under \"pronunciations\", from its letters perhaps \"zzyzx: Z AY Z K S\", or use"
            + " another word");
  }
}
