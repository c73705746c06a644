package tallyback.bench.hearing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cut;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.audio.WavSource;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.web.TestPage;

/**
 * How soon an entry spoken into a page is on disk and on the page, by the clock: {@code serve} runs
 * as a program of its own, a page made of Java sends what its microphone hears as fast as it is
 * spoken, and is told what became of it. With several pages each has a program of its own and all
 * speak at once. Over hours it is the soak: what it uses after garbage collection, whether the
 * times of entries drift, whether anything is lost.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=PageBench} with {@code
 * -Dbench.n=100} utterances or {@code -Dbench.minutes=120}, {@code -Dbench.pages=1}, {@code
 * -Dbench.heap=512m}. What is said are the demo's recordings, in order, over and over; the next is
 * said one to three seconds after the page was told of the last. On standard output one JSON object
 * a page; every five minutes a line of what is used on standard error.
 */
public final class PageBench {

  private static final ObjectMapper JSON = new ObjectMapper();

  /** What a page sends at once: 100 ms. */
  private static final int PIECE = Clip.SAMPLE_RATE_HZ / 10;

  private static final int PIECE_MS = 100;
  private static final int FLAGS = 1 | 4;
  private static final int HISS = 9;
  private static final int NEVER_TOLD_MS = 15_000;
  private static final int WARM_UPS = 5;
  private static final long USE_EVERY_NANOS = TimeUnit.MINUTES.toNanos(5);
  private static final Pattern OPEN = Pattern.compile("open (http://\\S+) in a browser.*");
  private static final Pattern USED = Pattern.compile("(generation|heap) .*used (\\d+)K");

  private PageBench() {}

  /** What is asked for. */
  private record Wanted(int utterances, double minutes, int pages, String heap, long seed) {

    static Wanted of(Map<String, String> properties) {
      double minutes = number(properties, "minutes", 0);
      return new Wanted(
          minutes > 0 ? Integer.MAX_VALUE - WARM_UPS : (int) number(properties, "n", 100),
          minutes > 0 ? minutes : Double.MAX_VALUE,
          (int) number(properties, "pages", 1),
          text(properties, "heap", "512m"),
          (long) number(properties, "seed", 1));
    }

    private static String text(Map<String, String> properties, String name, String otherwise) {
      String text = properties.getOrDefault("bench." + name, "").strip();
      return text.isEmpty() ? otherwise : text;
    }

    private static double number(Map<String, String> properties, String name, double otherwise) {
      String text = text(properties, name, "");
      try {
        return text.isEmpty() ? otherwise : Double.parseDouble(text);
      } catch (NumberFormatException e) {
        throw new IllegalArgumentException(
            "bench." + name + ": expected a number such as 100, found " + text, e);
      }
    }
  }

  /** Runs it. */
  public static void main(String[] args)
      throws IOException, InterruptedException, ExecutionException {
    try {
      Wanted wanted = Wanted.of(HearingBench.properties());
      List<short[]> phrases = demo();
      List<Future<String>> each = new ArrayList<>();
      ExecutorService pages = Executors.newFixedThreadPool(wanted.pages());
      for (int i = 0; i < wanted.pages(); i++) {
        int number = i;
        Callable<String> work = () -> spoken(wanted, phrases, number);
        each.add(pages.submit(work));
      }
      pages.shutdown();
      for (Future<String> page : each) {
        System.out.println(page.get());
      }
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /** The demo's recordings, from the first to the last audible 10 ms, as loud as they are. */
  private static List<short[]> demo() throws IOException {
    JsonNode clips =
        JSON.readTree(Files.readString(Path.of("demo-data/manifest.json"))).path("clips");
    List<short[]> phrases = new ArrayList<>();
    for (JsonNode clip : clips) {
      try (WavSource source = WavSource.open(Path.of("demo-data", clip.path("file").asText()))) {
        double[] trimmed = TalkStream.trimmed(source.readAll());
        short[] samples = new short[trimmed.length];
        for (int i = 0; i < samples.length; i++) {
          samples[i] = (short) Math.round(trimmed[i]);
        }
        phrases.add(samples);
      }
    }
    return phrases;
  }

  private static String spoken(Wanted wanted, List<short[]> phrases, int number)
      throws IOException, InterruptedException {
    Path folder = Files.createTempDirectory("tallyback-bench");
    Path data = folder.resolve("job.tallyback");
    Process served = serve(data, wanted.heap());
    try {
      URI address = address(served);
      Told told;
      try (TestPage page = TestPage.open(address, "bench-" + number, "tab-" + number)) {
        told = new Speaker(page, wanted, phrases, served.pid(), number).speak();
      }
      served.toHandle().destroy();
      if (!served.waitFor(30, TimeUnit.SECONDS)) {
        throw new IOException("serve does not end");
      }
      return told.json(wanted, onDisk(data));
    } finally {
      served.destroyForcibly();
      try (Stream<Path> files = Files.list(folder)) {
        for (Path file : files.toList()) {
          Files.delete(file);
        }
      }
      Files.delete(folder);
    }
  }

  private static Process serve(Path data, String heap) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx" + heap,
            "-cp",
            System.getProperty("java.class.path"),
            "tallyback.cli.Main",
            "serve",
            "--plan",
            "demo-data/plan.yaml",
            "--data",
            data.toString(),
            "--attention",
            "none",
            "--silent",
            "--port",
            "0")
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  private static URI address(Process served) throws IOException {
    BufferedReader lines =
        new BufferedReader(
            new java.io.InputStreamReader(served.getInputStream(), StandardCharsets.UTF_8));
    String line = lines.readLine();
    Matcher open = OPEN.matcher(line == null ? "" : line);
    if (!open.matches()) {
      throw new IOException("serve says: " + line);
    }
    return URI.create(open.group(1));
  }

  private static List<Entry> onDisk(Path data) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return log.entries(log.choose(null).id()).stream()
          .filter(entry -> entry.source() != Source.TOOL)
          .toList();
    }
  }

  /** Speaks in real time, and listens to what it is told. */
  private static final class Speaker {
    private final TestPage page;
    private final Wanted wanted;
    private final List<short[]> phrases;
    private final long pid;
    private final Random random;
    private final UUID stream = TestPage.recording();
    private final Cutter cutter = new Cutter(CutterSettings.defaults());
    private final BlockingQueue<Told.One> heard = new LinkedBlockingQueue<>();
    private final Told told = new Told();
    private final int number;
    private double beganMs;
    private long began;
    private long sent;

    /** When the piece was sent with which the last utterance was seen to be over. */
    private long endSeen;

    Speaker(TestPage page, Wanted wanted, List<short[]> phrases, long pid, int number) {
      this.page = page;
      this.wanted = wanted;
      this.phrases = phrases;
      this.pid = pid;
      this.number = number;
      this.random = new Random(wanted.seed() + number);
    }

    Told speak() throws IOException, InterruptedException {
      page.listen(stream, 0, true);
      Thread ear = new Thread(this::listen, "told-" + number);
      ear.setDaemon(true);
      ear.start();
      beganMs = System.currentTimeMillis();
      began = System.nanoTime();
      room(1000 + 250 * number);
      long used = began;
      for (int i = 0; i < wanted.utterances() + WARM_UPS && minutes() < wanted.minutes(); i++) {
        utterance(phrases.get(i % phrases.size()), i >= WARM_UPS);
        room(1000 + random.nextInt(2000));
        if (System.nanoTime() - used > USE_EVERY_NANOS) {
          used = System.nanoTime();
          use();
        }
      }
      use();
      return told;
    }

    private double minutes() {
      return (System.nanoTime() - began) / 60e9;
    }

    private void utterance(short[] phrase, boolean counts) throws InterruptedException {
      heard.clear();
      endSeen = 0;
      long from = sent;
      int whole = (phrase.length + PIECE - 1) / PIECE * PIECE;
      short[] padded = hiss(whole);
      for (int i = 0; i < phrase.length; i++) {
        padded[i] = (short) (padded[i] + phrase[i]);
      }
      send(padded);
      long ended = due(from + phrase.length);
      Told.@Nullable One one = null;
      while (one == null && (System.nanoTime() - ended) / 1e6 < NEVER_TOLD_MS) {
        room(PIECE_MS);
        one = heard.poll();
      }
      if (counts) {
        told.take(one, ended, endSeen, beganMs + from * 1000.0 / Clip.SAMPLE_RATE_HZ);
      }
    }

    private void room(int ms) throws InterruptedException {
      send(hiss((ms + PIECE_MS - 1) / PIECE_MS * PIECE));
    }

    private short[] hiss(int length) {
      short[] samples = new short[length];
      for (int i = 0; i < length; i++) {
        samples[i] = (short) Math.round(HISS * random.nextGaussian());
      }
      return samples;
    }

    /** A piece leaves when its last sample has been spoken. */
    private void send(short[] samples) throws InterruptedException {
      for (int at = 0; at < samples.length; at += PIECE) {
        long waitNanos = due(sent + PIECE) - System.nanoTime();
        if (waitNanos > 0) {
          TimeUnit.NANOSECONDS.sleep(waitNanos);
        }
        short[] piece = Arrays.copyOfRange(samples, at, at + PIECE);
        long now = System.nanoTime();
        page.sendPiece(stream, sent, piece, beganMs, FLAGS);
        sent += PIECE;
        for (Cut cut : cutter.follow(piece, piece.length)) {
          endSeen = cut instanceof Cut.Ended ? now : endSeen;
        }
      }
    }

    private long due(long sample) {
      return began + Math.round(sample * 1e9 / Clip.SAMPLE_RATE_HZ);
    }

    private void listen() {
      try {
        while (true) {
          JsonNode message = next();
          String status = message.path("status").asText();
          if (!status.equals("unconfirmed")) {
            told.notedInAll.addAndGet(status.equals("noted") ? 1 : 0);
            heard.add(
                new Told.One(
                    status,
                    System.nanoTime(),
                    Instant.parse(message.path("at").asText()),
                    message.path("says").asText()));
          }
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }

    /** Waits as long as it takes: somebody who is at lunch is told nothing. */
    private JsonNode next() throws InterruptedException {
      while (true) {
        try {
          return page.await(each -> each.path("type").asText().equals("told"));
        } catch (AssertionError nothingSoFar) {
          // The page gives up after a minute and a half.
        }
      }
    }

    private void use() throws IOException, InterruptedException {
      jcmd("GC.run");
      long usedKb = 0;
      Matcher used = USED.matcher(jcmd("GC.heap_info"));
      while (used.find()) {
        usedKb += Long.parseLong(used.group(2));
      }
      String status = Files.readString(Path.of("/proc/" + pid + "/status"));
      long files;
      try (Stream<Path> open = Files.list(Path.of("/proc/" + pid + "/fd"))) {
        files = open.count();
      }
      double heapMb = usedKb / 1024.0;
      told.heapMb.add(heapMb);
      told.residentMb.add(field(status, "VmRSS") / 1024.0);
      System.err.printf(
          Locale.ROOT,
          "page %d: %.0f min, %d said, heap %.0f MB after collection, resident %.0f MB, %d threads,"
              + " %d files%n",
          number,
          minutes(),
          told.afterSpeech.size() + told.never,
          heapMb,
          field(status, "VmRSS") / 1024.0,
          field(status, "Threads"),
          files);
    }

    private static long field(String status, String name) {
      Matcher field = Pattern.compile(name + ":\\s+(\\d+)").matcher(status);
      return field.find() ? Long.parseLong(field.group(1)) : -1;
    }

    private String jcmd(String what) throws IOException, InterruptedException {
      Process run =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "jcmd").toString(),
                  Long.toString(pid),
                  what)
              .redirectErrorStream(true)
              .start();
      String said = new String(run.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      run.waitFor();
      return said;
    }
  }

  /** What was measured, one number an utterance. */
  private static final class Told {

    /** One message: what became of an utterance. */
    record One(String status, long nanos, Instant at, String says) {}

    private final List<Double> afterSpeech = new ArrayList<>();
    private final List<Double> afterEnd = new ArrayList<>();
    private final List<Double> late = new ArrayList<>();
    private final List<Double> heapMb = new ArrayList<>();
    private final List<Double> residentMb = new ArrayList<>();
    private int noted;
    private final AtomicInteger notedInAll = new AtomicInteger();
    private int asked;
    private int other;
    private int never;

    void take(@Nullable One one, long ended, long endSeen, double saidMs) {
      if (one == null) {
        never++;
        return;
      }
      afterSpeech.add((one.nanos() - ended) / 1e6);
      afterEnd.add(Math.max(0, (one.nanos() - endSeen) / 1e6));
      switch (one.status()) {
        case "noted" -> {
          noted++;
          late.add(one.at().toEpochMilli() - saidMs);
        }
        case "asked" -> asked++;
        default -> other++;
      }
    }

    String json(Wanted wanted, List<Entry> onDisk) {
      // What was asked and left open is on disk too, unconfirmed: more is no fault.
      int missing = Math.max(0, notedInAll.get() - onDisk.size());
      int some = Math.min(50, late.size());
      return String.format(
          Locale.ROOT,
          "{\"pages\":%d,\"xmx\":\"%s\",\"n\":%d,\"noted\":%d,\"asked\":%d,\"other\":%d,"
              + "\"neverTold\":%d,\"notOnDisk\":%d,\"speechToToldMedianMs\":%.0f,"
              + "\"speechToToldP95Ms\":%.0f,\"speechToToldMostMs\":%.0f,\"endToToldMedianMs\":%.0f,"
              + "\"endToToldP95Ms\":%.0f,\"firstTimesOffMs\":%.0f,\"lastTimesOffMs\":%.0f,"
              + "\"heapMb\":[%.0f,%.0f],\"residentMb\":[%.0f,%.0f]}",
          wanted.pages(),
          wanted.heap(),
          afterSpeech.size() + never,
          noted,
          asked,
          other,
          never,
          missing,
          quantile(afterSpeech, 0.5),
          quantile(afterSpeech, 0.95),
          quantile(afterSpeech, 1),
          quantile(afterEnd, 0.5),
          quantile(afterEnd, 0.95),
          quantile(late.subList(0, some), 0.5),
          quantile(late.subList(late.size() - some, late.size()), 0.5),
          heapMb.get(0),
          heapMb.get(heapMb.size() - 1),
          residentMb.get(0),
          residentMb.get(residentMb.size() - 1));
    }

    private static double quantile(List<Double> values, double share) {
      if (values.isEmpty()) {
        return Double.NaN;
      }
      List<Double> sorted = values.stream().sorted().toList();
      return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
    }
  }
}
