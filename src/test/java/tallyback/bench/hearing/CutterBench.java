package tallyback.bench.hearing;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;

/**
 * How well utterances are cut out of a stream: phrases with known gaps between them, in noise, and
 * noise alone; by the program's own cutter and by a ready-made detector in its place.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=CutterBench} with the
 * properties of {@link HearingBench} that name speech, noise, ratios, n and seed. On standard
 * output one JSON object for each cell; {@code cutter.md} in the folder {@code bench.out}.
 */
public final class CutterBench {

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
  private static final int UTTERANCES_IN_A_STREAM = 20;

  /** The set that says nothing. */
  static final String NOISE_ALONE = "noise alone";

  private CutterBench() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      BenchSettings settings = BenchSettings.of(HearingBench.properties());
      List<Cutting> cuttings = new ArrayList<>(List.of(Cutting.own()));
      ReadyMade.detector().ifPresent(cuttings::add);
      List<CutCell> cells =
          run(
              settings,
              Language.read(settings.grammar()),
              cuttings,
              cell -> System.out.println(cell.json()));
      Files.createDirectories(settings.out());
      Path table = settings.out().resolve("cutter.md");
      Files.writeString(table, CutTables.markdown(cells));
      System.err.println("table: " + table.toAbsolutePath());
    } catch (IllegalArgumentException | AudioRefused e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /**
   * Cuts.
   *
   * @param cuttings by what
   * @param each told about each cell as soon as it is whole
   * @return all cells
   */
  static List<CutCell> run(
      BenchSettings settings, Language language, List<Cutting> cuttings, Consumer<CutCell> each)
      throws IOException, InterruptedException {
    Path folder = settings.noise();
    List<Noise> noises = folder == null ? List.of() : Noise.of(folder, settings.noises());
    List<CutCell> cells = new ArrayList<>();
    for (SpeechSet set : settings.sets(language)) {
      List<TalkStream> streams = streams(set, settings.seed());
      cells.addAll(cells(set.name(), streams, noises, settings, cuttings, each));
    }
    List<TalkStream> silence = List.of(TalkStream.silence());
    cells.addAll(cells(NOISE_ALONE, silence, noises, settings, cuttings, each));
    return cells;
  }

  private static List<CutCell> cells(
      String set,
      List<TalkStream> streams,
      List<Noise> noises,
      BenchSettings settings,
      List<Cutting> cuttings,
      Consumer<CutCell> each) {
    List<CutCell> cells = new ArrayList<>();
    for (Snr snr : settings.snrs()) {
      List<@Nullable Noise> here = new ArrayList<>(snr.isClean() ? List.of() : noises);
      if (snr.isClean()) {
        here.add(null);
      }
      for (Noise noise : here) {
        for (Cutting cutting : cuttings) {
          CutCell cell = cell(set, streams, noise, snr, settings.seed(), cutting);
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
      String set,
      List<TalkStream> streams,
      @Nullable Noise noise,
      Snr snr,
      long seed,
      Cutting cutting) {
    CutCounts counts = CutCounts.NONE;
    long nanos = 0;
    for (int i = 0; i < streams.size(); i++) {
      TalkStream stream = streams.get(i);
      Random random = new Random(seed + i);
      Clip sound = noise == null ? stream.clean(random) : stream.in(noise, snr.db(), random);
      long begun = THREADS.getCurrentThreadCpuTime();
      List<Clip> clips = cutting.cut(sound);
      nanos += THREADS.getCurrentThreadCpuTime() - begun;
      counts = counts.plus(CutCounts.of(stream.spoken(), clips, sound.durationMs()));
    }
    return new CutCell(
        set, noise == null ? "none" : noise.name(), snr, cutting.name(), counts, nanos);
  }

  /**
   * The counts of one set in one noise at one ratio.
   *
   * @param set the set of speech
   * @param noise the noise, {@code none} for clean speech
   * @param snr the ratio
   * @param cutter what cut
   * @param counts the counts
   * @param cpuNanos processor time of the cutting
   */
  record CutCell(
      String set, String noise, Snr snr, String cutter, CutCounts counts, long cpuNanos) {

    double timeRatio() {
      return counts.soundMs() == 0 ? 0 : cpuNanos / 1e6 / counts.soundMs();
    }

    String json() {
      return String.format(
          Locale.ROOT,
          "{\"set\":\"%s\",\"noise\":\"%s\",\"snrDb\":%s,\"cutter\":\"%s\",\"n\":%d,"
              + "\"missed\":%d,\"missedStarts\":%d,\"cutEnds\":%d,\"splits\":%d,\"joins\":%d,"
              + "\"extra\":%d,\"extraPerMinute\":%.2f,\"extraTime\":%.3f,\"timeRatio\":%.5f}",
          set,
          noise,
          snr.isClean() ? "null" : snr.number(),
          cutter,
          counts.utterances(),
          counts.missed(),
          counts.missedStarts(),
          counts.cutEnds(),
          counts.splits(),
          counts.joins(),
          counts.extra(),
          counts.extraPerMinute(),
          counts.extraTime(),
          timeRatio());
    }
  }
}
