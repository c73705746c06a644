package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TeachCommandTest {

  private static final String VOICE_FILE =
      "{\"schema\":1,\"taughtAt\":\"2026-03-02T09:00:00Z\",\"before\":{\"lines\":20,\"noted\":15,"
          + "\"right\":18,\"wrong\":0,\"fit\":31.0},\"after\":{\"lines\":20,\"noted\":17,\"right\":19,"
          + "\"wrong\":0,\"fit\":44.0},\"model\":\"another\",\"maps\":[],\"shifts\":[]}\n";

  @TempDir private Path home;
  private String out = "";
  private String err = "";

  private int run(Object... args) {
    StringWriter outText = new StringWriter();
    StringWriter errText = new StringWriter();
    String[] words = new String[args.length];
    for (int i = 0; i < args.length; i++) {
      words[i] = args[i].toString();
    }
    int code =
        Main.run(
            new Console(
                new PrintWriter(outText),
                new PrintWriter(errText),
                false,
                InstantSource.fixed(Instant.parse("2026-03-02T12:00:00Z")),
                ZoneOffset.UTC),
            words);
    out = outText.toString();
    err = errText.toString();
    return code;
  }

  private void keep(String name, String text) throws IOException {
    Path folder = Files.createDirectories(home.resolve("voices").resolve(name));
    Files.writeString(folder.resolve("voice.json"), text);
  }

  @Test
  void voicesAreListedAndForgotten() throws IOException {
    assertEquals(0, run("teach", "--list", "--home", home));
    assertTrue(err.contains("no voice was taught"), err);
    keep("anna", VOICE_FILE);
    keep("victor", "shopping list");
    assertEquals(0, run("teach", "--list", "--home", home));
    assertEquals(
        List.of(
            "anna  2026-03-02 09:00  understood 15 of 20 lines before, 17 after",
            "victor  damaged; teach --voice victor --again learns it again"),
        out.lines().toList());
    assertEquals(0, run("teach", "--forget", "Victor", "--home", home));
    assertEquals("forgotten: voice victor, its sound and what was learned of it\n", out);
    assertEquals(2, run("teach", "--forget", "victor", "--home", home));
    assertTrue(err.contains("there is no voice of that name"), err);
    assertTrue(Files.exists(home.resolve("voices/anna/voice.json")));
  }

  @Test
  void wrongUseIsToldWithTheRemedy() throws IOException {
    assertEquals(2, run("teach", "--home", home));
    assertTrue(err.startsWith("--voice: expected whose voice"), err);
    assertEquals(2, run("teach", "--voice", "../anna", "--home", home));
    assertTrue(err.startsWith("--voice ../anna: expected a name of letters"), err);
    assertEquals(2, run("teach", "--voice", "anna", "--more", "--anew", "--home", home));
    assertTrue(err.startsWith("--more, --anew, --again: expected one"), err);
    assertEquals(2, run("teach", "--voice", "anna", "--again", "--home", home));
    assertTrue(err.startsWith("--again: only"), err);
    assertEquals(2, run("teach", "--voice", "anna", "--from", home.resolve("no"), "--home", home));
    assertTrue(err.contains("there is no such folder"), err);
  }

  @Test
  void aVoiceThatCantBeListenedForIsRefusedBeforeAnythingIsHeard() throws IOException {
    Path sound = Path.of("src/test/resources/attention");
    Path wav;
    try (var files = Files.list(sound)) {
      wav =
          files.filter(file -> file.toString().endsWith(".wav")).sorted().findFirst().orElseThrow();
    }
    assertEquals(
        2, run("hear", wav, "--plan", "demo-data/plan.yaml", "--voice", "anna", "--home", home));
    assertTrue(err.startsWith("--voice anna: there is no voice of that name"), err);
    keep("anna", VOICE_FILE);
    assertEquals(
        2, run("hear", wav, "--plan", "demo-data/plan.yaml", "--voice", "anna", "--home", home));
    assertTrue(err.startsWith("--voice anna: it was taught to another version"), err);
    assertEquals("", out);
  }
}
