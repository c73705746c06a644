package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PrepCommandTest {

  private static final String PLAN = "demo-data/plan.yaml";

  @TempDir private Path folder;

  private List<String> box(Ran ran, String heading) {
    List<String> lines = ran.outLines();
    int from = lines.indexOf(heading) + 1;
    int to = from + lines.subList(from, lines.size()).indexOf("");
    return lines.subList(from, to).stream().map(String::strip).toList();
  }

  @Test
  void whatToLayOutIsPrinted() {
    Ran ran = Ran.command("prep", PLAN, "--home", folder);

    assertEquals(0, ran.code(), ran.err());
    assertEquals(
        "Lay out before the job: Coolant pump, belt, thermostat and hoses renewed",
        ran.outLines().get(0));
    assertTrue(
        box(ran, "Sockets and wrenches")
            .contains("[ ] 12 mm hex: 4 pulley bolts (pump pulley), 2 outlet nuts (outlet pipe)"));
    assertTrue(
        box(ran, "Torque wrenches")
            .contains(
                "Torque from your manual: 4 hood bolts (engine hood), 6 panel screws (side panel)"));
    assertEquals(
        List.of(
            "Clean and dry: 6 pump bolts (coolant pump)",
            "[ ] Thread-lock: 2 long bolts (coolant pump)"),
        box(ran, "On the threads"));
  }

  @Test
  void inTheMiddleOfAJobItSaysWhatIsStillToGet() {
    Path data = folder.resolve("job.tallyback");
    for (String words :
        List.of(
            "drained three litres from the radiator drain",
            "two pump bolts sheared",
            "new thermostat in")) {
      Ran noted = Ran.command("enter", "--plan", PLAN, "--data", data, words);
      assertEquals(0, noted.code(), noted.out() + noted.err());
    }
    String job = Ran.command("jobs", "--data", data).outLines().get(0).split("\\s+", -1)[0];
    Ran ran = Ran.command("prep", "--data", data, "--job", job);

    assertEquals(0, ran.code(), ran.err());
    List<String> parts = box(ran, "Parts still to get");
    assertTrue(
        parts.contains(
            "[ ] 2 pump bolts: for the coolant pump, M8x1.25, 35 mm long, class 8.8, broken, thrown"
                + " away, or not there any more"),
        parts.toString());
    assertTrue(parts.contains("[ ] drive belt"), parts.toString());
    assertFalse(parts.contains("[ ] thermostat"), parts.toString());
    assertTrue(
        box(ran, "Fluids still to pour").get(0).startsWith("[ ] 3.00 L of coolant"), ran.out());
    assertFalse(ran.out().contains("Sockets and wrenches"));
  }

  @Test
  void thePageEscapesWhatThePlanSays() throws IOException {
    Path plan = folder.resolve("plan.yaml");
    Files.writeString(
        plan,
        """
        tallyback-plan: 1
        name: <script>alert(1)</script>
        machine: {name: Test & machine, sides: as seen from behind}
        items:
          - {say: [cover bolts], thing: bolt, count: 4, head: 10 mm}
        """);
    Path page = folder.resolve("prep.html");

    Ran ran = Ran.command("prep", plan, "--home", folder, "--out", page);

    assertEquals(new Ran(0, Ran.lines(page.toAbsolutePath().toString()), ""), ran);
    String html = Files.readString(page);
    assertFalse(html.contains("<script>"));
    assertTrue(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    assertTrue(html.contains("Test &amp; machine"));
    assertTrue(html.contains("What to say"));
  }

  @Test
  void whatIsWrongIsSaid() {
    assertEquals(
        Ran.failed(2, "prep: expected a plan file, or --job and none; name one of them"),
        Ran.command("prep"));
    assertEquals(2, Ran.command("prep", PLAN, "--job", "x").code());
    assertEquals(2, Ran.command("prep", PLAN, "--out", folder.resolve("prep.pdf")).code());
    assertEquals(2, Ran.command("prep", folder.resolve("none.yaml")).code());
  }
}
