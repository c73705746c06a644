package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.CheckedJob;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.TypedLines;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;
import tallyback.audio.WavWriter;
import tallyback.model.Verdict;
import tallyback.voice.Voice;
import tallyback.voice.freetts.FreeTtsVoice;

/**
 * A whole job of two days spoken into the browser's microphone in real time: after "Listen" was
 * pressed in the morning nobody touches anything. Needs chromium, chromedriver and flite. It takes
 * its time, so it runs when it is asked for: {@code mvn test -Dtest=WholeJobInBrowserTest
 * -Dleft.out=}.
 *
 * <p>Without a voice that answers, so that it takes no longer than it must. With {@code
 * -Dtallyback.aloud=true} everything is said back too, and each line waits until that is over.
 */
@Tag("slow")
@Tag("spoken")
@Timeout(1800)
class WholeJobInBrowserTest {

  private static final Path SCRIPT = Path.of("src/test/resources/spoken/job.tsv");
  private static final LoadedPlan PLAN =
      LoadedPlan.of(Path.of("src/test/resources/spoken/plan.yaml"));
  private static final boolean ALOUD = Boolean.getBoolean("tallyback.aloud");
  private static final int HISS = 9;

  /** Until the page listens, and the room is known. */
  private static final double LEAD_SECONDS = 4;

  /** A pause that ends an utterance; what takes longer to deal with waits its turn. */
  private static final double GAP_SECONDS = 1;

  /** Longer than a slow machine takes for what was said last. */
  private static final int PATIENCE_SECONDS = 60;

  private static final String WATCH =
      "window.seen = []; new MutationObserver(() => { const last ="
          + " document.getElementById('last'); window.seen.push([last.dataset.status,"
          + " document.getElementById('last-says').textContent]); })"
          + ".observe(document.getElementById('last'), {attributes: true, childList: true,"
          + " characterData: true, subtree: true})";

  @TempDir private Path folder;

  /** A line of the script. */
  private record Line(int day, String status, String says, String words) {

    static List<Line> read() throws IOException {
      return Files.readAllLines(SCRIPT).stream()
          .filter(line -> !line.startsWith("#"))
          .map(line -> line.split("\t", -1))
          .map(parts -> new Line(Integer.parseInt(parts[0]), parts[1], parts[2], parts[3]))
          .toList();
    }
  }

  @Test
  void aJobIsSpokenFromBeginningToEndAndNothingStandsAgainstIt()
      throws IOException, InterruptedException {
    TestBrowser.assumeInstalled();
    Path flite = TestBrowser.program("flite");
    assumeTrue(Files.isExecutable(flite), "no voice here: install flite");
    List<Line> lines = Line.read();
    double[] answering = ALOUD ? answering(lines) : new double[lines.size()];
    Path data = folder.resolve("job.tallyback");
    InstantSource today = InstantSource.system();
    InstantSource tomorrow = InstantSource.offset(today, Duration.ofHours(14));
    for (int day = 1; day <= 2; day++) {
      Path microphone = microphone(flite, lines, answering, day);
      List<Line> said = ofDay(lines, day);
      try (Running served = serve(data, day == 1 ? today : tomorrow)) {
        Path own = Files.createDirectories(folder.resolve("browser-" + day));
        try (TestBrowser browser = TestBrowser.open(own, microphone, List.of())) {
          browser.go(served.server().address().toString());
          browser.run(WATCH);
          browser.awaitText("#connection", "Connected");
          browser.click("#listen");
          List<String> expected =
              said.stream().map(line -> line.words() + ": " + line.status()).toList();
          assertEquals(
              String.join("\n", expected), String.join("\n", became(browser, said)), "day " + day);
        }
      }
    }
    CheckedJob checked = CheckedJob.read(data, null);
    assertEquals(List.of(), checked.outcome().findings());
    assertEquals(
        new Verdict(Verdict.Answer.CLEAR, Verdict.Answer.CLEAR, Verdict.Answer.CLEAR),
        checked.outcome().verdict());
  }

  private static List<Line> ofDay(List<Line> lines, int day) {
    return lines.stream().filter(line -> line.day() == day).toList();
  }

  /** How long each line is answered aloud: what would be said if it were typed, spoken. */
  private static double[] answering(List<Line> lines) {
    double[] seconds = new double[lines.size()];
    JobDesk.Setting setting =
        new JobDesk.Setting("keyboard", "mechanic", ZoneOffset.UTC, InstantSource.system());
    try (Voice voice = FreeTtsVoice.open();
        JobDesk desk = JobDesk.withoutData(PLAN, InstantSource.system().instant(), setting)) {
      TypedLines typed = new TypedLines(desk);
      for (int i = 0; i < seconds.length; i++) {
        Clip clip = voice.speak(typed.enter(lines.get(i).words()).line());
        seconds[i] = 1 + 1.2 * clip.length() / Clip.SAMPLE_RATE_HZ;
      }
    }
    return seconds;
  }

  private Path microphone(Path flite, List<Line> lines, double[] answering, int day)
      throws IOException, InterruptedException {
    short[] sound = new short[(int) (LEAD_SECONDS * Clip.SAMPLE_RATE_HZ)];
    for (int i = 0; i < lines.size(); i++) {
      if (lines.get(i).day() == day) {
        short[] words = spoken(flite, lines.get(i).words());
        int gap = (int) ((GAP_SECONDS + answering[i]) * Clip.SAMPLE_RATE_HZ);
        int from = sound.length;
        sound = Arrays.copyOf(sound, from + words.length + gap);
        System.arraycopy(words, 0, sound, from, words.length);
      }
    }
    // The browser plays it over and over: the quiet at its end outlasts the test.
    sound =
        Arrays.copyOf(sound, (int) (sound.length + 2.0 * PATIENCE_SECONDS * Clip.SAMPLE_RATE_HZ));
    Random hiss = new Random(day);
    for (int i = 0; i < sound.length; i++) {
      sound[i] = (short) (sound[i] + Math.round(HISS * hiss.nextGaussian()));
    }
    Path file = folder.resolve("day-" + day + ".wav");
    Files.write(file, WavWriter.toBytes(new Clip(sound, 0)));
    return file;
  }

  private short[] spoken(Path flite, String words) throws IOException, InterruptedException {
    Path file = folder.resolve("line.wav");
    Process speaks =
        new ProcessBuilder(flite.toString(), "-voice", "rms", "-t", words, "-o", file.toString())
            .inheritIO()
            .start();
    assertTrue(speaks.waitFor(30, TimeUnit.SECONDS) && speaks.exitValue() == 0, "flite fails");
    try (WavSource source = WavSource.open(file)) {
      return source.readAll().samples();
    }
  }

  private static Running serve(Path data, InstantSource clock) {
    PageServer server =
        PageServer.open(
            new PageServer.Settings(
                PLAN,
                data,
                null,
                null,
                0,
                new JobDesk.Setting("page", "mechanic", ZoneOffset.UTC, clock),
                ALOUD ? FreeTtsVoice::open : null),
            line -> {});
    return Running.start(server);
  }

  /** What the page showed for each line, in the words of the script where it is as expected. */
  private static List<String> became(TestBrowser browser, List<Line> said)
      throws InterruptedException {
    List<String> became = new ArrayList<>();
    long quietSince = System.nanoTime();
    int taken = 0;
    while (became.size() < said.size()
        && System.nanoTime() - quietSince < TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS)) {
      List<List<String>> seen = seen(browser);
      for (; taken < seen.size() && became.size() < said.size(); taken++) {
        Line line = said.get(became.size());
        String status = seen.get(taken).get(0);
        String says = seen.get(taken).get(1);
        boolean isAsExpected = status.equals(line.status()) && says.contains(line.says());
        became.add(
            line.words() + ": " + (isAsExpected ? status : status + ", and says '" + says + "'"));
        quietSince = System.nanoTime();
      }
      Thread.sleep(200);
    }
    return became;
  }

  @SuppressWarnings("unchecked") // what the script makes is a list of pairs of texts
  private static List<List<String>> seen(TestBrowser browser) {
    return (List<List<String>>) browser.value("window.seen");
  }
}
