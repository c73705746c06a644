package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.WrongUse;

class SettingTest {

  private static final Map<String, String> IN_ENVIRONMENT = Map.of("TALLYBACK_SECOND", "two");

  private static final String NO_NOISES = "noises of the shop are learned; none so far  (default)";

  @TempDir private Path home;

  private Path write(String text) throws IOException {
    return Files.writeString(home.resolve("settings.txt"), text);
  }

  @Test
  void theFlagGoesBeforeTheEnvironmentThatBeforeTheFileThatBeforeTheDefault() throws IOException {
    Path file = write("# mine\n\nsecond = sh \"a b.sh\" -x=1\n");
    assertEquals(
        new Setting.Set("one", "--second"), Setting.SECOND.value("one", IN_ENVIRONMENT, home));
    assertEquals(
        new Setting.Set("two", "$TALLYBACK_SECOND"),
        Setting.SECOND.value(null, IN_ENVIRONMENT, home));
    assertEquals(
        new Setting.Set("sh \"a b.sh\" -x=1", file.toString()),
        Setting.SECOND.value(null, Map.of("TALLYBACK_SECOND", " "), home));
    Files.delete(file);
    assertEquals(new Setting.Set("none", "default"), Setting.SECOND.value(null, Map.of(), home));
  }

  @Test
  void whatIsNoSettingIsRefusedWithItsLine() throws IOException {
    for (String line : List.of("secnd = x", "second", "second =", "= x")) {
      Path file = write("\n" + line + "\n");
      WrongUse refused =
          assertThrows(WrongUse.class, () -> Setting.SECOND.value(null, Map.of(), home), line);
      assertEquals(
          List.of(
              file
                  + " line 2: expected a setting and its value, such as \"second = none\", found \""
                  + line
                  + "\"; 'tallyback settings' lists them"),
          refused.lines());
    }
  }

  @Test
  void theCommandsListItAndTryIt() throws IOException {
    Ran none = Ran.command("settings", "--home", home);
    assertEquals(
        List.of(
            "second = none  (default)",
            "second-model = alike  (default)",
            "learn-noise = on  (default)",
            "ffmpeg = ffmpeg  (default)",
            "paper = a4  (default)",
            "units = metric  (default)"),
        none.outLines());
    assertEquals(
        new Ran(0, Ran.lines("second recogniser  none  (default)", NO_NOISES), ""),
        Ran.command("doctor", "--home", home));
    Path file = write("second = /nowhere/second\n");
    Ran sick = Ran.command("doctor", "--home", home);
    assertEquals(1, sick.code());
    assertTrue(
        sick.out().startsWith("second recogniser  doesn't hear: /nowhere/second can't be started"),
        sick.out());
    assertTrue(sick.outLines().get(0).endsWith("(" + file + ")"), sick.out());
    assertEquals(
        new Ran(0, Ran.lines("second recogniser  answers  (--second)", NO_NOISES), ""),
        Ran.command(
            "doctor", "--home", home, "--second", "sh -c \"while read -r path; do echo; done\""));
  }

  @Test
  void whatCameOfLearningTheNoisesIsTold() throws IOException {
    write("learn-noise = off\n");
    Files.writeString(
        home.resolve("noises.tsv"),
        """
        time\tphrases\tbefore\tafter\tused
        2026-03-02T09:00:00Z\t10\t7\t6\tno
        2026-03-02T10:30:00Z\t10\t7\t9\tyes
        """);

    assertEquals(
        "noises of the shop are not learned; of the last 2 tried 1 helped; 2026-03-02 10:30: 9 of 10"
            + " trial phrases right, before 7  ("
            + home.resolve("settings.txt")
            + ")",
        Ran.command("doctor", "--home", home).outLines().get(1));
    assertEquals(
        "learn-noise = on  (--learn-noise)",
        Ran.command("settings", "--home", home, "--learn-noise", "on").outLines().get(2));
  }

  @Test
  void learningNoisesIsOnOrOff() {
    Ran ran = Ran.command("doctor", "--home", home, "--learn-noise", "sometimes");

    assertEquals(2, ran.code());
    assertEquals("learn-noise sometimes (--learn-noise): expected on or off", ran.err().strip());
  }
}
