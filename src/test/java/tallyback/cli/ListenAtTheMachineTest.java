package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.ShortBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Source;

/**
 * The command at a machine whose microphone and loudspeaker are made of software, with the real
 * recogniser. Needs pulseaudio, its tools and its plugin for ALSA; {@code .ci/run} installs them,
 * and forbids that this is skipped.
 */
@Tag("slow")
@Timeout(300)
class ListenAtTheMachineTest {

  private static final Path SAID = Path.of("demo-data/audio");
  private static final int LOUD = 1000;

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private SoundServer sound;

  private @Nullable OwnProcess listening;

  @BeforeEach
  void start() throws Exception {
    assumeTrue(
        SoundServer.isThere(),
        "no sound server here: install pulseaudio, pulseaudio-utils and libasound2-plugins");
    sound = SoundServer.start(folder);
  }

  @AfterEach
  void end() {
    if (listening != null) {
      ProcessHandle.of(listening.pid()).ifPresent(ProcessHandle::destroyForcibly);
    }
    if (sound != null) {
      sound.close();
    }
  }

  private OwnProcess listen(Object... more) throws IOException {
    Stream<Object> args =
        Stream.concat(
            Stream.of(
                "listen",
                "--plan",
                "demo-data/plan.yaml",
                "--data",
                data(),
                "--home",
                folder,
                "--attention",
                "none"),
            Stream.of(more));
    OwnProcess started =
        OwnProcess.start(folder, sound.before(), List.of("-Xmx1g"), args.toArray());
    listening = started;
    return started;
  }

  private Path data() {
    return folder.resolve("job.tallyback");
  }

  private void awaitMessage(String part) throws Exception {
    Instant until = Instant.now().plusSeconds(90);
    while (!messages().contains(part)) {
      assertTrue(Instant.now().isBefore(until), () -> "expected " + part + " in " + messages());
      Thread.sleep(50);
    }
  }

  private String messages() {
    StringBuilder all = new StringBuilder();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(each -> each.toString().contains("messages")).toList()) {
        all.append(Files.readString(file));
      }
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    return all.toString();
  }

  private static void awaitLine(OwnProcess process, String part) throws IOException {
    String line = process.line();
    while (line != null && !line.contains(part)) {
      line = process.line();
    }
    assertNotNull(line, part);
  }

  private List<Entry> said() {
    try (LogReader log = SqliteLogs.openForReading(data())) {
      return log.entries(log.choose(null).id()).stream()
          .filter(entry -> entry.source() == Source.SPOKEN)
          .toList();
    }
  }

  @Test
  void itTalksWithWhoeverSpeaksNearItAndGoesOnWhenTheMicrophoneWasUnpluggedMidWord()
      throws Exception {
    sound.plugIn();
    Path aloud = folder.resolve("aloud.pcm");
    Process ear = sound.writeDown(aloud);
    OwnProcess command = listen();
    awaitMessage("listening, job");
    Instant first = Instant.now();
    assertEquals(0, sound.say(SAID.resolve("004-090120.wav")).waitFor());
    awaitLine(command, "noted     key out");
    awaitLoud(aloud);

    Process mid = sound.say(SAID.resolve("005-090150.wav"));
    Thread.sleep(600);
    sound.unplug();
    awaitMessage("the microphone is gone: plug it in again");
    mid.waitFor();
    Thread.sleep(4000);
    sound.plugIn();
    awaitMessage("the microphone is back");
    Thread.sleep(2500);
    Instant last = Instant.now();
    assertEquals(0, sound.say(SAID.resolve("006-090215.wav")).waitFor());
    awaitLine(command, "noted     implement down");

    ProcessHandle.of(command.pid()).orElseThrow().destroy();
    command.finish();
    ear.destroy();
    List<Entry> entries = said();
    assertEquals("key out", entries.get(0).words());
    assertEquals("implement down", entries.get(entries.size() - 1).words());
    assertTrue(
        Set.of("key out", "wheels chocked", "implement down")
            .containsAll(
                entries.stream()
                    .filter(entry -> entry.certainty() == tallyback.model.Certainty.CONFIRMED)
                    .map(Entry::words)
                    .toList()),
        () -> entries.toString());
    assertNear(first, entries.get(0));
    assertNear(last, entries.get(entries.size() - 1));
  }

  private static void assertNear(Instant began, Entry entry) {
    Duration after = Duration.between(began, entry.happenedAt());
    assertTrue(Math.abs(after.toMillis()) < 1500, () -> entry.words() + " " + after);
  }

  private static void awaitLoud(Path file) throws Exception {
    Instant until = Instant.now().plusSeconds(30);
    while (loudest(file) < LOUD) {
      assertTrue(Instant.now().isBefore(until), "nothing was said aloud");
      Thread.sleep(100);
    }
    // Until it has ended: what is said into it is not listened to.
    Thread.sleep(4000);
  }

  private static int loudest(Path file) throws IOException {
    ShortBuffer samples =
        ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN).asShortBuffer();
    int loudest = 0;
    while (samples.hasRemaining()) {
      loudest = Math.max(loudest, Math.abs(samples.get()));
    }
    return loudest;
  }

  @Test
  void withNoMicrophoneItSaysWhatToDo() throws Exception {
    Ran ran = listen("--silent").finish();
    assertEquals(2, ran.code());
    assertTrue(ran.err().contains("microphone"), ran::err);
    assertTrue(
        ran.err().contains("plug one in and see that the system shows it")
            || ran.err().contains("see that it is plugged in"),
        ran::err);
  }
}
