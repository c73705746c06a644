package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.web.TestPage;
import tallyback.web.lan.Devices;
import tallyback.web.lan.Lan;

/** The command as a user starts it, in a process of its own. */
@Timeout(240)
class ServeCommandTest {

  private static final Path PLAN = Path.of("demo-data/plan.yaml");
  private static final int LISTENED = 5;

  @TempDir private Path folder;

  private OwnProcess start(Object... more) throws Exception {
    List<Object> words = new ArrayList<>();
    words.addAll(List.of("serve", "--plan", PLAN, "--data", data(), "--home", folder));
    words.addAll(List.of("--port", 0, "--silent"));
    words.addAll(List.of(more));
    return OwnProcess.start(folder, List.of(), List.of("-Xmx1g"), words.toArray());
  }

  private Path data() {
    return folder.resolve("job.tallyback");
  }

  private static URI address(OwnProcess process) throws Exception {
    String line = process.line();
    assertNotNull(line);
    assertTrue(line.matches("open http://localhost:\\d+/ in a browser on this machine"), line);
    return URI.create(line.split(" ", 3)[1]);
  }

  private List<String> said() {
    try (LogReader log = SqliteLogs.openForReading(data())) {
      return log.entries(log.choose(null).id()).stream()
          .filter(entry -> entry.source() == Source.SPOKEN)
          .map(Entry::words)
          .toList();
    }
  }

  @Test
  void whatWasNotedOutlastsAKilledServerAndThePageGoesOnWhereItWas() throws Exception {
    UUID stream = TestPage.recording();
    short[] sound = TestPage.room(2, "004-090120.wav", "005-090150.wav", "006-090215.wav");
    double beganMs = System.currentTimeMillis();
    OwnProcess first = start("--attention", "none");
    long settled;
    try (TestPage page = TestPage.open(address(first), "p1", "t1")) {
      page.listen(stream, 0, false);
      // To the middle of the third.
      page.play(stream, sound, 0, sound.length - 3 * 16_000, beganMs, LISTENED);
      page.await(message -> message.path("says").asText().equals("wheels chocked"));
      settled = page.settled();
      ProcessHandle.of(first.pid()).orElseThrow().destroyForcibly();
      first.finish();
    }
    assertEquals(List.of("key out", "wheels chocked"), said());

    OwnProcess second = start("--attention", "none");
    try (TestPage page = TestPage.open(address(second), "p1", "t1")) {
      page.listen(stream, settled, false);
      page.play(stream, sound, settled, sound.length, beganMs, LISTENED);
      page.await(message -> message.path("says").asText().equals("implement down"));
    } finally {
      ProcessHandle.of(second.pid()).orElseThrow().destroy();
      second.finish();
    }
    assertEquals(List.of("key out", "wheels chocked", "implement down"), said());
  }

  @Test
  void whatIsWronglyUsedIsToldInALine() {
    assertEquals(
        Ran.failed(2, "--port 70000: expected 0 to 65535; the usual one is 7117"),
        Ran.command("serve", "--plan", PLAN, "--port", 70_000));
    assertEquals(
        Ran.failed(2, "--address: only with --lan; without it only this machine is answered"),
        Ran.command("serve", "--plan", PLAN, "--address", "127.0.0.1"));
    assertEquals(
        Ran.failed(2, "--port 65535: with --lan the port after it is needed too; take another"),
        Ran.command("serve", "--plan", PLAN, "--lan", "--port", 65_535));
    assertEquals(
        Ran.failed(
            2,
            "--address 8.8.8.8: that address can be reached from the Internet; --lan opens the page"
                + " to a local network only"),
        Ran.command("serve", "--plan", PLAN, "--home", folder, "--lan", "--address", "8.8.8.8"));
  }

  @Test
  void pairedDevicesAreListedAndTakenAway() {
    assertEquals(
        new Ran(0, "", Ran.lines("no device is paired")),
        Ran.command("serve", "--home", folder, "--devices"));
    Devices devices = Lan.devicesIn(folder.resolve("lan"), InstantSource.fixed(Ran.NOON));
    devices.pair("p1a2b3c4");
    devices.pair("p5");
    assertEquals(
        new Ran(
            0, Ran.lines("p1a2b3c4  paired 2026-03-02 12:00", "p5  paired 2026-03-02 12:00"), ""),
        Ran.command("serve", "--home", folder, "--devices"));
    assertEquals(
        new Ran(0, "", Ran.lines("taken away: p1a2b3c4")),
        Ran.command("serve", "--home", folder, "--forget", "p1a2b3c4"));
    assertEquals(
        Ran.failed(2, "--forget p1a2b3c4: no such device is paired; 'serve --devices' lists them"),
        Ran.command("serve", "--home", folder, "--forget", "p1a2b3c4"));
  }

  @Test
  void theTerminalShowsHowAPhoneIsLetInAndEnterShowsANewCode() throws Exception {
    OwnProcess process = start("--lan", "--address", "127.0.0.1");
    try {
      String first = code(process);
      process.input().println();
      String second = code(process);
      assertNotEquals(first, second);
    } finally {
      ProcessHandle.of(process.pid()).orElseThrow().destroy();
      process.finish();
    }
    assertTrue(Files.exists(folder.resolve("lan/authority.crt")));
  }

  /** The digits of the next code that is shown, with all that stands around them. */
  private static String code(OwnProcess process) throws Exception {
    Pattern typed =
        Pattern.compile(".* or open https://127\\.0\\.0\\.1:\\d+/pair and type (\\d{4} \\d{4})");
    String digits = "";
    for (String line = process.line(); line != null; line = process.line()) {
      Matcher matcher = typed.matcher(line);
      if (matcher.matches()) {
        digits = matcher.group(1);
      }
      if (line.matches("Good once, until \\d\\d:\\d\\d\\. Enter shows a new code\\.")) {
        return digits;
      }
    }
    throw new AssertionError("no code was shown");
  }
}
