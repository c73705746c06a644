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
    assertEquals(List.of("second = none  (default)"), none.outLines());
    assertEquals(
        new Ran(0, Ran.lines("second recogniser  none  (default)"), ""),
        Ran.command("doctor", "--home", home));
    Path file = write("second = /nowhere/second\n");
    Ran sick = Ran.command("doctor", "--home", home);
    assertEquals(1, sick.code());
    assertTrue(
        sick.out().startsWith("second recogniser  doesn't hear: /nowhere/second can't be started"),
        sick.out());
    assertTrue(sick.out().strip().endsWith("(" + file + ")"), sick.out());
    assertEquals(
        new Ran(0, Ran.lines("second recogniser  answers  (--second)"), ""),
        Ran.command(
            "doctor", "--home", home, "--second", "sh -c \"while read -r path; do echo; done\""));
  }
}
