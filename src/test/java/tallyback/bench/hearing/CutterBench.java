package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;

/**
 * How well utterances are cut out of a stream: phrases with known gaps between them, in noise.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=CutterBench} with the
 * properties of {@link HearingBench} that name speech, noise, ratios, n and seed. On standard
 * output one JSON object for each cell; {@code cutter.md} in the folder {@code bench.out}.
 */
public final class CutterBench {

  private static final int UTTERANCES_IN_A_STREAM = 20;

  private CutterBench() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      BenchSettings settings = BenchSettings.of(HearingBench.properties());
      List<CutCell> cells =
          run(settings, Language.read(settings.grammar()), cell -> System.out.println(cell.json()));
      Files.createDirectories(settings.out());
      Path table = settings.out().resolve("cutter.md");
      Files.writeString(table, CutCell.markdown(cells));
      System.err.println("table: " + table.toAbsolutePath());
    } catch (IllegalArgumentException | AudioRefused e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /**
   * Cuts.
   *
   * @param each told about each cell as soon as it is whole
   * @return all cells
   */
  static List<CutCell> run(BenchSettings settings, Language language, Consumer<CutCell> each)
      throws IOException, InterruptedException {
    Path folder = settings.noise();
    List<Noise> noises = folder == null ? List.of() : Noise.of(folder, settings.noises());
    List<CutCell> cells = new ArrayList<>();
    for (SpeechSet set : settings.sets(language)) {
      List<TalkStream> streams = streams(set, settings.seed());
      for (Snr snr : settings.snrs()) {
        List<@Nullable Noise> here = new ArrayList<>(snr.isClean() ? List.of() : noises);
        if (snr.isClean()) {
          here.add(null);
        }
        for (Noise noise : here) {
          CutCell cell = cell(set.name(), streams, noise, snr, settings.seed());
          cells.add(cell);
          each.accept(cell);
        }
      }
    }
    return cells;
  }

  private static List<TalkStream> streams(SpeechSet set, long seed)
      throws IOException, InterruptedException {
    List<TalkStream> streams = new ArrayList<>();
    List<Utterance> all = set.utterances();
    for (int from = 0; from < all.size(); from += UTTERANCES_IN_A_STREAM) {
      List<Clip> clips = new ArrayList<>();
      for (Utterance utterance :
          all.subList(from, Math.min(all.size(), from + UTTERANCES_IN_A_STREAM))) {
        clips.add(utterance.sound().get());
      }
      streams.add(TalkStream.of(clips, new Random(seed + from)));
    }
    return streams;
  }

  private static CutCell cell(
      String set, List<TalkStream> streams, @Nullable Noise noise, Snr snr, long seed) {
    CutCounts counts = CutCounts.NONE;
    for (int i = 0; i < streams.size(); i++) {
      TalkStream stream = streams.get(i);
      Random random = new Random(seed + i);
      Clip sound = noise == null ? stream.clean(random) : stream.in(noise, snr.db(), random);
      counts = counts.plus(CutCounts.of(stream.spoken(), cut(sound), sound.durationMs()));
    }
    return new CutCell(set, noise == null ? "none" : noise.name(), snr, counts);
  }

  private static List<Clip> cut(Clip sound) {
    Cutter cutter = new Cutter(CutterSettings.defaults());
    List<Clip> clips = new ArrayList<>(cutter.accept(sound.samples(), sound.length()));
    clips.addAll(cutter.finish());
    return clips;
  }

  /**
   * The counts of one set in one noise at one ratio.
   *
   * @param set the set of speech
   * @param noise the noise, {@code none} for clean speech
   * @param snr the ratio
   * @param counts the counts
   */
  record CutCell(String set, String noise, Snr snr, CutCounts counts) {

    String json() {
      return String.format(
          Locale.ROOT,
          "{\"set\":\"%s\",\"noise\":\"%s\",\"snrDb\":%s,\"n\":%d,\"missed\":%d,"
              + "\"missedStarts\":%d,\"cutEnds\":%d,\"splits\":%d,\"joins\":%d,\"extra\":%d,"
              + "\"extraPerMinute\":%.2f}",
          set,
          noise,
          snr.isClean() ? "null" : snr.number(),
          counts.utterances(),
          counts.missed(),
          counts.missedStarts(),
          counts.cutEnds(),
          counts.splits(),
          counts.joins(),
          counts.extra(),
          counts.extraPerMinute());
    }

    /** The cells as tables: each set at each ratio over all noises, then every cell. */
    static String markdown(List<CutCell> cells) {
      return "Per cent of n with 95 % Wilson intervals. Missed: clips hold no more than half of it;"
          + " starts and ends: more than "
          + CutCounts.TOLERATED_MS
          + " ms of speech cut away.\n\nBy set of speech\n\n"
          + table(pooled(cells))
          + "\nEvery cell\n\n"
          + table(cells);
    }

    private static List<CutCell> pooled(List<CutCell> cells) {
      Map<String, CutCell> pooled = new LinkedHashMap<>();
      for (CutCell cell : cells) {
        pooled.merge(
            cell.set() + "\t" + cell.snr(),
            cell,
            (one, other) ->
                new CutCell(one.set(), "all noises", one.snr(), one.counts().plus(other.counts())));
      }
      return List.copyOf(pooled.values());
    }

    private static String table(List<CutCell> cells) {
      StringBuilder text =
          new StringBuilder(
              "| set | noise | SNR | n | missed | missed starts | cut ends | splits | joins |"
                  + " extra clips a minute |\n"
                  + "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n");
      for (CutCell cell : cells) {
        CutCounts counts = cell.counts();
        text.append(
            String.format(
                Locale.ROOT,
                "| %s | %s | %s | %d | %s | %s | %s | %s | %s | %.2f |\n",
                cell.set(),
                cell.noise(),
                cell.snr(),
                counts.utterances(),
                share(counts.missed(), counts),
                share(counts.missedStarts(), counts),
                share(counts.cutEnds(), counts),
                share(counts.splits(), counts),
                share(counts.joins(), counts),
                counts.extraPerMinute()));
      }
      return text.toString();
    }

    private static String share(long count, CutCounts counts) {
      return new Share(count, counts.utterances()).percent();
    }
  }
}
