package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code hear --second}. */
class HearWithSecondTest {

  @TempDir private Path folder;

  private Ran hear(String second, String... recordings) {
    Object[] args = new Object[recordings.length + 5];
    args[0] = "hear";
    for (int i = 0; i < recordings.length; i++) {
      args[1 + i] = Path.of("demo-data/audio", recordings[i]);
    }
    args[1 + recordings.length] = "--plan";
    args[2 + recordings.length] = "demo-data/plan.yaml";
    args[3 + recordings.length] = "--second";
    args[4 + recordings.length] = second;
    return Ran.command(args);
  }

  /** The second line is for "torqued the fan nuts to twenty two", without a unit. */
  @Test
  void whatBothHearIsNotedButAMissingUnitIsStillAskedFor() throws IOException {
    Path script = folder.resolve("second.sh");
    Files.writeString(
        script,
        """
        read -r path; echo
        read -r path; echo 'Splash guard off.'
        read -r path; echo 'Torqued the fan nuts to 22.'
        read -r path
        """);
    Ran ran = hear("sh " + script, "017-091620.wav", "112-111630.wav");
    List<String> lines = ran.outLines();
    assertEquals(2, lines.size(), ran::toString);
    assertTrue(lines.get(0).endsWith("noted     off splash guard"), ran.out());
    assertTrue(lines.get(1).contains("asked     22 what? newton metres"), ran.out());
  }

  @Test
  void oneThatIsNotThereIsToldAndHearingGoesOn() {
    Ran ran = hear("/nowhere/second", "016-091600.wav");
    assertEquals(0, ran.code());
    assertTrue(ran.out().contains("noted"), ran.out());
    assertEquals(1, ran.err().lines().count(), ran.err());
    assertTrue(
        ran.err().startsWith("second recogniser: /nowhere/second can't be started"), ran.err());
    assertTrue(ran.err().strip().endsWith("hearing goes on with the first alone"), ran.err());
  }
}
