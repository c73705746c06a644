package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.speech.CmuLexicon;
import tallyback.speech.RecogniserSettings;

/**
 * Our recogniser beside another decoder of the same family of models, on the same grammar, the same
 * pronunciations and the same clips, in one run: see {@link OtherDecoder}.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=SideBySide} with the
 * properties of {@link HearingBench}. With none of them: the voices SLT and KED on the demo plan,
 * then the people of the bench's own recordings on {@code numbers.jsgf}, clean and in the bench's
 * own noise at 15 dB. The table goes to standard output and to {@code side-by-side.md} in the
 * folder {@code bench.out}.
 *
 * <p>Exact is: the words of the best reading are the words said. Noted right is what the program
 * makes of it, which the other decoder has no equal of: it asks about nothing. Times are processor
 * time over the length of the sound, model and grammar read already.
 */
public final class SideBySide {

  private static final Path OWN = Path.of("src/test/resources/bench");
  private static final String HEAD =
      "| set | noise | SNR | n | exact, ours % | noted right, ours % | noted wrong, ours % |"
          + " exact, theirs % | time, ours | time, theirs |\n"
          + "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";

  private SideBySide() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      OtherDecoder.requireInstalled();
      StringBuilder table = new StringBuilder(HEAD);
      System.out.print(HEAD);
      Path out = Path.of("target/bench");
      for (BenchSettings settings : runs(HearingBench.properties())) {
        out = settings.out();
        run(
            settings,
            row -> {
              System.out.println(row.markdown());
              table.append(row.markdown()).append('\n');
            });
      }
      Path file = out.resolve("side-by-side.md");
      Files.writeString(file, table);
      System.err.println("table: " + file.toAbsolutePath());
    } catch (IllegalArgumentException | AudioRefused e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /** What was asked for, or voices on the plan and people on numbers. */
  static List<BenchSettings> runs(Map<String, String> properties) {
    Map<String, String> asked = new HashMap<>(properties);
    preset(asked, "noise", OWN.resolve("noise").toString());
    preset(asked, "snr", "clean,15");
    if (!isSet(asked, "speech") && !isSet(asked, "grammar")) {
      preset(asked, "voices", "SLT,KED");
      Map<String, String> people = new HashMap<>(asked);
      people.put("bench.voices", "");
      people.put("bench.speech", OWN.resolve("speech").toString());
      people.put("bench.grammar", OWN.resolve("numbers.jsgf").toString());
      return List.of(BenchSettings.of(asked), BenchSettings.of(people));
    }
    return List.of(BenchSettings.of(asked));
  }

  private static boolean isSet(Map<String, String> properties, String name) {
    return !properties.getOrDefault("bench." + name, "").isBlank();
  }

  private static void preset(Map<String, String> properties, String name, String value) {
    if (!isSet(properties, name)) {
      properties.put("bench." + name, value);
    }
  }

  /**
   * Hears everything twice.
   *
   * @param each told about each row as soon as it is whole
   */
  static void run(BenchSettings settings, Consumer<Row> each)
      throws IOException, InterruptedException {
    Language language = Language.read(settings.grammar());
    Path folder = settings.noise();
    List<Noise> noises = folder == null ? List.of() : Noise.of(folder, settings.noises());
    OtherDecoder theirs = new OtherDecoder(settings.out().resolve("side-by-side"));
    try (Ear ours =
        new Ear(
            HearingBench.open(language, settings, RecogniserSettings.defaults()),
            settings.mode(),
            language.meaning())) {
      for (SpeechSet set : settings.sets(language)) {
        for (Snr snr : settings.snrs()) {
          List<@Nullable Noise> here = new ArrayList<>(snr.isClean() ? List.of() : noises);
          if (snr.isClean()) {
            here.add(null);
          }
          for (Noise noise : here) {
            each.accept(row(settings, language, ours, theirs, new Condition(set, noise, snr)));
          }
        }
      }
    }
  }

  private record Condition(SpeechSet set, @Nullable Noise noise, Snr snr) {

    String noiseName() {
      return noise == null ? Cell.NO_NOISE : noise.name();
    }

    Clip sound(Utterance utterance, long seed) throws IOException, InterruptedException {
      Clip speech = utterance.sound().get();
      return noise == null
          ? speech
          : Mixer.mix(speech, noise, snr.db(), seed + utterance.id().hashCode());
    }
  }

  private static Row row(
      BenchSettings settings, Language language, Ear ours, OtherDecoder theirs, Condition condition)
      throws IOException, InterruptedException {
    List<Utterance> utterances = condition.set().utterances();
    List<Clip> clips = new ArrayList<>();
    for (Utterance utterance : utterances) {
      clips.add(condition.sound(utterance, settings.seed()));
    }
    for (Clip clip : clips.subList(0, Math.min(HearingBench.WARM_UP_CLIPS, clips.size()))) {
      ours.warmUp(clip);
    }
    List<Heard> heard = new ArrayList<>();
    long best = 0;
    for (int i = 0; i < clips.size(); i++) {
      Heard one =
          ours.hear(
              condition.set(),
              condition.noiseName(),
              condition.snr(),
              utterances.get(i),
              clips.get(i));
      heard.add(one);
      best += isBest(one) ? 1 : 0;
    }
    OtherDecoder.Batch batch = theirs.hear(language.graph(), CmuLexicon.load(), clips);
    long same = 0;
    for (int i = 0; i < clips.size(); i++) {
      same += batch.words().get(i).equals(utterances.get(i).said()) ? 1 : 0;
    }
    Cell cell = Cell.of(condition.set().name(), condition.noiseName(), condition.snr(), heard);
    return new Row(cell, best, same, batch.cpuMs() / cell.soundMs(), batch.startCpuMs());
  }

  private static boolean isBest(Heard heard) {
    return heard.readings().isEmpty()
        ? heard.said().isEmpty()
        : heard.readings().get(0).words().equals(heard.said());
  }

  /**
   * One set in one noise at one ratio.
   *
   * @param ours what became of it with us
   * @param ourBest how often our best reading is what was said, asked about or not
   * @param theirBest how often theirs is
   * @param theirTimeRatio their processor time over the length
   * @param theirStartMs their processor time before the first clip
   */
  record Row(Cell ours, long ourBest, long theirBest, double theirTimeRatio, double theirStartMs) {

    String markdown() {
      return String.format(
          Locale.ROOT,
          "| %s | %s | %s | %d | %s | %s | %s | %s | %.3f | %.3f (start %.1f s) |",
          ours.set(),
          ours.noise(),
          ours.snr(),
          ours.n(),
          new Share(ourBest, ours.n()).percent(),
          ours.share(Outcome.EXACT).percent(),
          ours.share(Outcome.NOTED_WRONG).percent(),
          new Share(theirBest, ours.n()).percent(),
          ours.timeRatio(),
          theirTimeRatio,
          theirStartMs / 1000);
    }
  }
}
