package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.WavSource;

/** WAV files of other kinds, as recorders and sound editors write them, go through ffmpeg. */
class FilmSoundsTest {

  private static final Path SPOKEN = spoken();

  @TempDir private Path folder;

  private static Path spoken() {
    try (var files = Files.list(Path.of("demo-data/audio"))) {
      return files
          .filter(file -> file.toString().endsWith(".wav"))
          .sorted()
          .findFirst()
          .orElseThrow();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static short[] samples(Path wav) throws IOException {
    try (WavSource source = WavSource.open(wav)) {
      return source.readAll().samples();
    }
  }

  @BeforeEach
  void installed() {
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/ffmpeg")), "no ffmpeg here: install it");
  }

  private Path turned(String name, String... how) throws Exception {
    Path made = folder.resolve(name);
    List<String> command = new ArrayList<>(List.of("/usr/bin/ffmpeg", "-v", "error", "-i"));
    command.add(SPOKEN.toString());
    command.addAll(List.of(how));
    command.add(made.toString());
    assertEquals(0, new ProcessBuilder(command).inheritIO().start().waitFor());
    return made;
  }

  @Test
  void moreBitsMoreChannelsAndTheLongFormAreTurned() throws Exception {
    List<Path> others =
        List.of(
            turned("24.wav", "-c:a", "pcm_s24le"),
            turned("float.wav", "-c:a", "pcm_f32le"),
            turned("six.wav", "-ac", "6"),
            turned("fast.wav", "-ar", "192000"),
            turned("long.wav", "-rf64", "always"));
    short[] wanted = samples(SPOKEN);
    try (FilmSounds films = new FilmSounds("ffmpeg", (film, done, of) -> {})) {
      List<RecordedSound.Recording> ready = films.ready(others);
      for (int i = 0; i < ready.size(); i++) {
        assertEquals(others.get(i), ready.get(i).file());
        assertTrue(!ready.get(i).sound().equals(others.get(i)), "turned");
        short[] heard = samples(ready.get(i).sound());
        assertEquals(wanted.length, heard.length, wanted.length * 0.01, others.get(i)::toString);
        assertTrue(likeness(wanted, heard) > 0.98, others.get(i)::toString);
      }
      Path plain = films.ready(List.of(SPOKEN)).get(0).sound();
      assertEquals(SPOKEN, plain, "what can be heard is left as it is");
    }
  }

  /** The correlation of what both have, at the best of a few shifts: a filter delays. */
  private static double likeness(short[] one, short[] other) {
    double best = 0;
    for (int shift = -40; shift <= 40; shift++) {
      double product = 0;
      double power = 0;
      double otherPower = 0;
      for (int i = 40; i < Math.min(one.length, other.length) - 40; i++) {
        product += one[i] * (double) other[i + shift];
        power += one[i] * (double) one[i];
        otherPower += other[i + shift] * (double) other[i + shift];
      }
      best = Math.max(best, product / Math.sqrt(power * otherPower));
    }
    return best;
  }

  @Test
  void withoutTheProgramItsRemedyIsTold() throws Exception {
    Path other = turned("24.wav", "-c:a", "pcm_s24le");
    try (FilmSounds films = new FilmSounds("/nowhere/ffmpeg", (film, done, of) -> {})) {
      WrongUse refused = assertThrows(WrongUse.class, () -> films.ready(List.of(other)));
      String told = Objects.requireNonNull(refused.lines().get(0));
      assertTrue(told.startsWith(other + ": expected 16-bit PCM WAV, or ffmpeg"), told);
      assertTrue(told.endsWith("or save the sound as 16-bit PCM WAV"), told);
    }
  }

  @Test
  void aDamagedFileIsNotTakenForAnotherKind() throws Exception {
    Path cut = folder.resolve("cut.wav");
    Files.write(cut, "RIFF1234WAVEfmt ".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
    try (FilmSounds films = new FilmSounds("ffmpeg", (film, done, of) -> {})) {
      WrongUse refused = assertThrows(WrongUse.class, () -> films.ready(List.of(cut)));
      assertTrue(refused.lines().get(0).contains("a header cut off"), refused.lines()::toString);
    }
  }
}
