package tallyback.bench.hearing;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tallyback.app.Ear;
import tallyback.app.LoadedPlan;
import tallyback.app.WrongUse;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.speech.Judgement;

/**
 * What the program makes of a shop in which nobody speaks to it: noises and talk in one stream
 * through its own cutter and its own ear, with the grammar of a plan. Nothing of it may be noted.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=NoiseStreamBench
 * -Dbench.noise=DIR} with any of {@code -Dbench.talk=DIR} (talk that is no entry), {@code
 * -Dbench.minutes=30}, {@code -Dbench.attention=none|WORD}, {@code -Dbench.grammar=PLAN}, {@code
 * -Dbench.noises}, {@code -Dbench.seed}. On standard output a line for each clip that was noted or
 * asked about, then one JSON object: minutes, seed, attention, clips, noted, asked, rejected,
 * timeRatio.
 */
public final class NoiseStreamBench {

  /** What of a run is counted. */
  record Outcome(Map<Judgement, Integer> counts, double minutes, double cpuMs) {

    Outcome {
      counts = Map.copyOf(counts);
    }

    int count(Judgement judgement) {
      return counts.getOrDefault(judgement, 0);
    }

    String json(Settings settings) {
      return String.format(
          Locale.ROOT,
          "{\"minutes\":%.1f,\"seed\":%d,\"attention\":\"%s\",\"clips\":%d,\"noted\":%d,"
              + "\"asked\":%d,\"rejected\":%d,\"timeRatio\":%.4f}",
          minutes,
          settings.seed(),
          settings.attention() == null ? "none" : settings.attention(),
          counts.values().stream().mapToInt(Integer::intValue).sum(),
          count(Judgement.NOTE),
          count(Judgement.ASK),
          count(Judgement.REJECT),
          cpuMs / (60_000 * minutes));
    }
  }

  /**
   * What is asked for.
   *
   * @param noise a folder of noises
   * @param noises which of them
   * @param talk a folder of talk, or null
   * @param minutes how long
   * @param attention the word every entry must begin with, or null for none
   * @param plan whose entries are listened for
   * @param seed draws it all
   */
  record Settings(
      Path noise,
      Noise.Half noises,
      @Nullable Path talk,
      double minutes,
      @Nullable String attention,
      Path plan,
      long seed) {

    /** Reads {@code bench.*}. */
    static Settings of(Map<String, String> properties) {
      BenchSettings common = BenchSettings.of(properties);
      Path noise = common.noise();
      if (noise == null) {
        throw new IllegalArgumentException(
            "bench.noise: expected a folder of noises, found none; name one with -Dbench.noise");
      }
      String talk = text(properties, "talk", "");
      String attention = text(properties, "attention", "none").toLowerCase(Locale.ROOT);
      return new Settings(
          noise,
          common.noises(),
          talk.isEmpty() ? null : Path.of(talk),
          minutes(text(properties, "minutes", "30")),
          attention.equals("none") ? null : attention,
          common.grammar(),
          common.seed());
    }

    private static String text(Map<String, String> properties, String name, String otherwise) {
      String text = properties.getOrDefault("bench." + name, "").strip();
      return text.isEmpty() ? otherwise : text;
    }

    private static double minutes(String text) {
      try {
        return Double.parseDouble(text);
      } catch (NumberFormatException e) {
        throw new IllegalArgumentException(
            "bench.minutes: expected a number of minutes, found " + text, e);
      }
    }
  }

  private NoiseStreamBench() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    try {
      Settings settings = Settings.of(HearingBench.properties());
      Outcome outcome = run(settings, System.out::println);
      System.out.println(outcome.json(settings));
    } catch (IllegalArgumentException | AudioRefused | WrongUse e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /**
   * Listens.
   *
   * @param told about each clip that was not rejected
   */
  static Outcome run(Settings settings, Consumer<String> told) throws IOException {
    Path talk = settings.talk();
    NoiseStream stream =
        new NoiseStream(
            Noise.of(settings.noise(), settings.noises()),
            talk == null ? List.of() : Recordings.in(talk),
            new Random(settings.seed()));
    Map<Judgement, Integer> counts = new TreeMap<>();
    long wanted = Math.round(settings.minutes() * 60 * NoiseStream.SECOND);
    long heard = 0;
    try (Ear ear = Ear.open(LoadedPlan.of(settings.plan()), settings.attention())) {
      double before = cpuMs();
      Cutter cutter = new Cutter(CutterSettings.defaults());
      while (heard < wanted) {
        short[] piece = stream.next();
        int count = (int) Math.min(piece.length, wanted - heard);
        heard += count;
        hear(cutter.accept(piece, count), ear, counts, told);
      }
      hear(cutter.finish(), ear, counts, told);
      return new Outcome(counts, settings.minutes(), cpuMs() - before);
    }
  }

  /** As recordings are heard: without the word, where there is one, nothing is listened to. */
  private static Ear.Heard hear(Ear ear, Clip clip) {
    if (!ear.needsCalling()) {
      return ear.entry(clip);
    }
    return ear.call(clip) == Ear.Call.NONE ? ear.passedOver(clip) : ear.calledEntry(clip);
  }

  private static void hear(
      List<Clip> clips, Ear ear, Map<Judgement, Integer> counts, Consumer<String> told) {
    for (Clip clip : clips) {
      Ear.Heard heard = hear(ear, clip);
      counts.merge(heard.judgement(), 1, Integer::sum);
      if (heard.judgement() != Judgement.REJECT) {
        told.accept(
            String.format(
                Locale.ROOT,
                "%8.2f s, %5.2f s long, %4.1f dB  %-5s  %s",
                clip.startMs() / 1000.0,
                clip.durationMs() / 1000.0,
                heard.snrDb(),
                heard.judgement() == Judgement.NOTE ? "noted" : "asked",
                String.join(" | ", heard.readings())));
      }
    }
  }

  private static double cpuMs() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1e6;
  }
}
