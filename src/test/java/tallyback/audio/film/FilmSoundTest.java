package tallyback.audio.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.AudioRefused;
import tallyback.audio.WavSource;

/** Films that ffmpeg made, and what it makes of them; programs that don't do what they should. */
class FilmSoundTest {

  private static final Path FFMPEG = Path.of("/usr/bin/ffmpeg");

  @TempDir private Path folder;

  @BeforeEach
  void installed() {
    assumeTrue(Files.isExecutable(FFMPEG), "no ffmpeg here: install it");
  }

  private Path film(String name, String... arguments) throws Exception {
    Path film = folder.resolve(name);
    List<String> command =
        new ArrayList<>(List.of(FFMPEG.toString(), "-nostdin", "-v", "error", "-y"));
    command.addAll(List.of(arguments));
    command.add("file:" + film);
    Process process = new ProcessBuilder(command).inheritIO().start();
    assertEquals(0, process.waitFor());
    return film;
  }

  /** A beep of a tenth of a second at each of these seconds. */
  private static String beeps(int lengthSeconds, int... at) {
    StringBuilder on = new StringBuilder();
    for (int second : at) {
      on.append(on.length() == 0 ? "" : "+").append("between(t,").append(second).append(',');
      on.append(second).append(".1)");
    }
    return "aevalsrc='0.5*sin(2*PI*800*t)*(" + on + ")':s=44100:d=" + lengthSeconds;
  }

  private static List<Long> beginsMs(Path wav) throws IOException {
    List<Long> begins = new ArrayList<>();
    try (WavSource source = WavSource.open(wav)) {
      short[] block = new short[160];
      boolean loud = false;
      long ms = 0;
      int quiet = 0;
      for (int count = source.read(block); count >= 0; count = source.read(block), ms += 10) {
        boolean now = false;
        for (int i = 0; i < count; i++) {
          now |= Math.abs(block[i]) > 4000;
        }
        if (now && !loud && quiet > 5) {
          begins.add(ms);
        }
        quiet = now ? 0 : quiet + 1;
        loud = now;
      }
    }
    return begins;
  }

  private long take(Path film, Path wav) throws IOException {
    FilmSound program = FilmSound.by("ffmpeg");
    return program.write(film, program.about(film), wav, done -> {});
  }

  @Test
  void aFilmTellsItsLengthAndWhenItWasBegun() throws Exception {
    Path film =
        film(
            "a.mp4",
            "-f",
            "lavfi",
            "-i",
            "testsrc=size=64x36:rate=5:duration=3",
            "-f",
            "lavfi",
            "-i",
            beeps(3, 1),
            "-metadata",
            "creation_time=2026-03-02T08:15:00Z");
    FilmSound.About about = FilmSound.by("ffmpeg").about(film);
    assertEquals(Instant.parse("2026-03-02T08:15:00Z"), about.begun());
    Duration length = about.length();
    assertTrue(length != null && Math.abs(length.toMillis() - 3000) < 100, about::toString);
  }

  @Test
  void aClockThatWasNeverSetTellsNothing() throws Exception {
    Path film =
        film(
            "a.m4a",
            "-f",
            "lavfi",
            "-i",
            beeps(1, 0),
            "-metadata",
            "creation_time=1970-01-01T00:00:00Z");
    assertNull(FilmSound.by("ffmpeg").about(film).begun());
  }

  @Test
  void namesAreNamesWhateverIsInThem() throws Exception {
    for (String name :
        List.of(
            "-i.mkv",
            "a b'c\"d.mkv",
            "%d.mkv",
            "$(touch x).mkv",
            "<script>.mkv",
            "concat:a|b.mkv")) {
      Path film = film(name, "-f", "lavfi", "-i", beeps(2, 1));
      Path wav = folder.resolve("sound.wav");
      assertTrue(Math.abs(take(film, wav) - 2000) <= 30, name);
      assertEquals(1, beginsMs(wav).size(), name);
    }
    assertFalse(Files.exists(Path.of("x")));
  }

  @Test
  void aTrackThatBeginsLateOrHasAHoleKeepsTheFilmsTimes() throws Exception {
    Path film =
        film(
            "hole.mkv",
            "-f",
            "lavfi",
            "-i",
            "testsrc=size=64x36:rate=5:duration=60",
            "-itsoffset",
            "7",
            "-f",
            "lavfi",
            "-i",
            beeps(50, 1, 40),
            "-af",
            "aselect='lt(t,17)+gt(t,37)'",
            "-map",
            "0:v",
            "-map",
            "1:a",
            "-c:a",
            "flac");
    Path wav = folder.resolve("sound.wav");
    long unused = take(film, wav);
    List<Long> begins = beginsMs(wav);
    assertEquals(2, begins.size(), begins::toString);
    assertEquals(8000, begins.get(0), 60);
    assertEquals(47_000, begins.get(1), 60);
  }

  @Test
  void anHourLongFilmKeepsItsTimesToTheEnd() throws Exception {
    Path film =
        film(
            "hour.mka",
            "-f",
            "lavfi",
            "-i",
            beeps(3600, 5, 1800, 3590),
            "-c:a",
            "aac",
            "-b:a",
            "32k");
    Path wav = folder.resolve("sound.wav");
    List<Long> told = new ArrayList<>();
    FilmSound program = FilmSound.by("ffmpeg");
    long lengthMs = program.write(film, program.about(film), wav, told::add);
    assertTrue(Math.abs(lengthMs - 3_600_000) <= 100, () -> "" + lengthMs);
    List<Long> begins = beginsMs(wav);
    assertEquals(3, begins.size(), begins::toString);
    assertEquals(5000, begins.get(0), 60);
    assertEquals(1_800_000, begins.get(1), 60);
    assertEquals(3_590_000, begins.get(2), 60);
    assertEquals(told.stream().sorted().toList(), told);
  }

  private String refused(Path film) {
    return String.valueOf(
        assertThrows(AudioRefused.class, () -> take(film, folder.resolve("sound.wav")))
            .getMessage());
  }

  @Test
  void aFilmWithoutSound() throws Exception {
    Path film = film("mute.mp4", "-f", "lavfi", "-i", "testsrc=size=64x36:rate=5:duration=1");
    assertEquals(
        film + ": expected sound in it, found none; was the camera's microphone off?",
        refused(film));
  }

  @Test
  void aTextIsNoFilm() throws IOException {
    Path text = Files.writeString(folder.resolve("notes.mp4"), "no film in here at all");
    String told = refused(text);
    assertTrue(
        told.startsWith(
            text
                + ": expected a WAV file, or a film or sound that ffmpeg can read, found something else (\""),
        told);
  }

  @Test
  void aPlaylistFetchesNothing() throws IOException {
    Path list =
        Files.writeString(
            folder.resolve("list.m3u8"),
            "#EXTM3U\n#EXT-X-TARGETDURATION:10\n#EXTINF:10,\nhttp://127.0.0.1:9/a.ts\n#EXT-X-ENDLIST\n");
    assertTrue(refused(list).startsWith(list + ": expected "), refused(list));
  }

  @Test
  void noProgram() throws IOException {
    Path film = Files.writeString(folder.resolve("a.mp4"), "x");
    assertEquals(
        film
            + ": expected 16-bit PCM WAV, or ffmpeg and ffprobe to take the sound out of anything else, found no"
            + " program at /nowhere/ffmpeg; install ffmpeg, or name where it is with --ffmpeg, or"
            + " save the sound as 16-bit PCM WAV",
        assertThrows(AudioRefused.class, () -> FilmSound.by("/nowhere/ffmpeg").about(film))
            .getMessage());
  }

  private Path program(String name, String script) throws IOException {
    Path program = Files.writeString(folder.resolve(name), "#!/bin/sh\n" + script + "\n");
    assertTrue(program.toFile().setExecutable(true));
    return program;
  }

  @Test
  void aProgramThatIsStuckIsEnded() throws IOException {
    Path stuck = program("ffmpeg", "sleep 60");
    FilmSound.About about = new FilmSound.About(null, null);
    long start = System.nanoTime();
    AudioRefused refused =
        assertThrows(
            AudioRefused.class,
            () ->
                FilmSound.by(stuck.toString(), Duration.ofSeconds(1))
                    .write(folder.resolve("a.mp4"), about, folder.resolve("s.wav"), done -> {}));
    assertEquals("no progress for 1 s", refused.found());
    assertTrue(System.nanoTime() - start < 20_000_000_000L);
  }

  @Test
  void aProgramThatFailsInTheMiddleIsToldInItsOwnWords() throws IOException {
    Path failing =
        program("ffmpeg", "head -c 64000 /dev/zero; echo 'moov atom is gone' >&2; exit 1");
    AudioRefused refused =
        assertThrows(
            AudioRefused.class,
            () ->
                FilmSound.by(failing.toString())
                    .write(
                        folder.resolve("a.mp4"),
                        new FilmSound.About(null, null),
                        folder.resolve("s.wav"),
                        done -> {}));
    assertEquals("something else (\"moov atom is gone\")", refused.found());
  }
}
