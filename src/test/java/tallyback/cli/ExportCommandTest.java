package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.audio.WavWriter;
import tallyback.voice.Voice;
import tallyback.voice.freetts.FreeTtsVoice;

class ExportCommandTest {

  private static final Path PLAN = Path.of("demo-data/plan.yaml");
  private static final String FFMPEG = "/usr/bin/ffmpeg";

  @TempDir private Path folder;

  private Path told(String... lines) throws IOException {
    Path data = folder.resolve("job.tallyback");
    List<Object> command = new ArrayList<>(List.of("enter", "--plan", PLAN, "--data", data));
    for (String line : lines) {
      List<Object> one = new ArrayList<>(command);
      one.add(line);
      Ran ran = Ran.command(one.toArray());
      assertEquals(0, ran.code(), ran.err());
    }
    return data;
  }

  private Ran export(Path data, String out, Object... more) {
    List<Object> command =
        new ArrayList<>(List.of("export", "--data", data, "--out", folder.resolve(out)));
    command.addAll(List.of(more));
    return Ran.command(command.toArray());
  }

  @ParameterizedTest
  @ValueSource(strings = {"job.csv", "job.jsonl", "job.md", "JOB.CSV"})
  void writesWhatTheEndingSays(String name) throws IOException {
    Path data = told("engine stopped");
    Path out = folder.resolve(name);
    assertEquals(new Ran(0, Ran.lines(out.toString()), ""), export(data, name));
    assertTrue(Files.readString(out).contains("engine stopped"));
  }

  @Test
  void writesWhatIsToBeLookedAtAgain() throws IOException {
    Path data = told("look again at the outlet nuts in two weeks");
    assertEquals(0, export(data, "again.ics").code());
    // Two weeks after the noon at which these tests run.
    assertTrue(
        Files.readString(folder.resolve("again.ics")).contains("DTSTART;VALUE=DATE:20260316"));
  }

  @Test
  void withNothingToWriteThereIsNoFile() throws IOException {
    Path data = told("engine stopped");
    assertEquals(
        Ran.failed(
            2,
            "nothing is to be looked at again, so there is no calendar; say such as \"look again at"
                + " the level in two weeks\""),
        export(data, "again.ics"));
    assertFalse(Files.exists(folder.resolve("again.ics")));
  }

  @Test
  void anUnknownEndingIsRefusedBeforeAnythingIsRead() {
    assertEquals(
        Ran.failed(
            2,
            folder.resolve("job.xls")
                + ": expected a name that ends in .vtt, .csv, .jsonl, .ics, .md, found another"
                + " ending; give it one of these"),
        export(folder.resolve("none.tallyback"), "job.xls"));
  }

  @Test
  void aFolderThatIsNotThereIsRefused() throws IOException {
    assertEquals(
        Ran.failed(
            2,
            folder.resolve("no/job.csv") + ": its folder doesn't exist; make it or name another"),
        export(told("engine stopped"), "no/job.csv"));
  }

  @Test
  void aFilmsOptionsBelongToAFilm() throws IOException {
    assertEquals(
        Ran.failed(
            2,
            "expected a film's options with a file that ends in .vtt, found another ending; leave"
                + " them out, or name the file so"),
        export(told("engine stopped"), "job.csv", "--mark", "1=0:12"));
  }

  @Test
  void withoutABeginningTheFilmMarksOfTheJobAreTold() throws IOException {
    assertEquals(
        Ran.failed(
            2,
            "expected to be told when the film began; give --film-begins TIME, --mark NUMBER=PLACE,"
                + " or --film FILM with a spoken camera mark in it. Camera marks of this job: it has"
                + " camera mark 1 at 2026-03-02T12:00:00.000+00:00"),
        export(told("camera mark one"), "film.vtt"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"1", "one=0:12", "1=", "1=0:61", "=0:12"})
  void aMarkThatIsNoneIsRefused(String mark) throws IOException {
    Ran ran = export(told("camera mark one"), "film.vtt", "--mark", mark);
    assertEquals(2, ran.code());
    assertTrue(ran.err().startsWith("--mark: expected "), ran.err());
    assertFalse(Files.exists(folder.resolve("film.vtt")));
  }

  @Test
  void aMarkLaysTheFilmBesideTheJob() throws IOException {
    Path data = told("camera mark", "engine stopped");
    Ran ran = export(data, "film.vtt", "--mark", "1=0:12.5", "--film-lasts", "1:00");
    assertEquals(
        "the film begins 2026-03-02T11:59:47.500+00:00" + System.lineSeparator(), ran.err());
    assertTrue(
        Files.readString(folder.resolve("film.vtt"))
            .contains("\n00:00:12.500 --> 00:00:14.000\ncamera mark 1\n"),
        Files.readString(folder.resolve("film.vtt")));
  }

  @Test
  void whatStoodThereIsReplacedWhole() throws IOException {
    Path data = told("engine stopped");
    Files.writeString(folder.resolve("job.md"), "x".repeat(100_000));
    assertEquals(0, export(data, "job.md").code());
    assertFalse(Files.readString(folder.resolve("job.md")).contains("xxx"));
    try (var files = Files.list(folder)) {
      assertEquals(List.of(), files.filter(each -> each.toString().endsWith(".part")).toList());
    }
  }

  private Path speech(String name, String words) throws IOException {
    Path file = folder.resolve(name);
    try (Voice voice = FreeTtsVoice.open()) {
      WavWriter.write(voice.speak(words), file);
    }
    return file;
  }

  /**
   * "Camera mark one" at 5 s, "key out" at 30 s and "camera mark two" at 60 s; a picture besides.
   */
  private Path film(String name) throws Exception {
    assumeTrue(Files.isExecutable(Path.of(FFMPEG)), "no ffmpeg here: install it");
    Path one = speech("one.wav", "camera mark one");
    Path two = speech("two.wav", "camera mark two");
    Path film = folder.resolve(name);
    List<String> command =
        List.of(
            FFMPEG,
            "-nostdin",
            "-v",
            "error",
            "-f",
            "lavfi",
            "-i",
            "testsrc=size=64x36:rate=5:duration=90",
            "-i",
            one.toString(),
            "-i",
            "demo-data/audio/004-090120.wav",
            "-i",
            two.toString(),
            "-f",
            "lavfi",
            "-i",
            "anoisesrc=d=90:c=pink:a=0.0005:r=44100:seed=1",
            "-filter_complex",
            "[1]aresample=44100,adelay=5000[a];[2]aresample=44100,adelay=30000[b];"
                + "[3]aresample=44100,adelay=60000[c];[4][a][b][c]amix=inputs=4:normalize=0[o]",
            "-map",
            "0:v",
            "-map",
            "[o]",
            "-metadata",
            "creation_time=2026-03-02T07:00:00Z",
            "file:" + film);
    assertEquals(0, new ProcessBuilder(command).inheritIO().start().waitFor());
    return film;
  }

  @Test
  void aFilmIsHeardIntoAJobWithTheRightTimesAndFoundAgainByItsMarks() throws Exception {
    Path film = film("-strip & fit <1>.mp4");
    Path data = folder.resolve("job.tallyback");
    assertEquals(
        Ran.failed(
            2,
            film
                + ": expected to be told when it began, found no --at; give --at"
                + " 2026-03-02T07:00:00.000+00:00 if the camera's clock was right: that is what the film"
                + " says of itself"),
        Ran.command("hear", film, "--plan", PLAN, "--data", data));
    assertFalse(Files.exists(data));

    Ran heard =
        Ran.command("hear", film, "--plan", PLAN, "--data", data, "--at", "2026-03-02T09:00:00Z");
    assertEquals(0, heard.code(), heard.err());
    Ran again =
        Ran.command("hear", film, "--plan", PLAN, "--data", data, "--at", "2026-03-02T09:00:00Z");
    assertEquals(0, again.code(), again.err());
    assertEquals(0, export(data, "job.csv").code());
    List<String> rows = Files.readAllLines(folder.resolve("job.csv"));
    assertEquals(5, rows.size(), rows::toString);
    near(rows.get(2), 5, "film-mark");
    near(rows.get(3), 30, "state");
    near(rows.get(4), 60, "film-mark");

    Ran found = export(data, "film.vtt", "--film", film);
    assertEquals(0, found.code(), found.err());
    // One voice may leave one of the marks in doubt; one that is sure is enough.
    assertTrue(
        Pattern.compile("camera mark [12] heard at ").matcher(found.err()).find(), found.err());
    assertTrue(found.err().contains("the film begins 2026-03-02T09:00:00"), found.err());
    assertTrue(found.err().contains("by the camera's clock; that was not taken"), found.err());
    String captions = Files.readString(folder.resolve("film.vtt"));
    assertTrue(captions.contains("key out"), captions);
  }

  /** An utterance begins a little before its first sound. */
  private static void near(String row, int seconds, String kind) {
    Instant told = OffsetDateTime.parse(row.split(",", -1)[2]).toInstant();
    assertEquals(
        seconds,
        Duration.between(Instant.parse("2026-03-02T09:00:00Z"), told).toMillis() / 1000.0,
        0.5,
        row);
    assertTrue(row.contains("," + kind + ","), row);
  }

  @Test
  void aFilmWhereThereIsNoFfmpegIsRefusedWithTheRemedy() throws IOException {
    Path film = Files.writeString(folder.resolve("a.mp4"), "not looked into");
    Ran ran =
        Ran.command(
            "hear",
            film,
            "--plan",
            PLAN,
            "--at",
            "2026-03-02T09:00:00Z",
            "--ffmpeg",
            "/nowhere/ffmpeg");
    assertEquals(
        Ran.failed(
            2,
            film
                + ": expected 16-bit PCM WAV, or ffmpeg and ffprobe to take the sound out of anything"
                + " else, found no program at /nowhere/ffmpeg; install ffmpeg, or name where it is with"
                + " --ffmpeg, or save the sound as 16-bit PCM WAV"),
        ran);
  }
}
