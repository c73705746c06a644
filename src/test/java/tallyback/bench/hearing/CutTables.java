package tallyback.bench.hearing;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tallyback.bench.hearing.CutterBench.CutCell;

/** What the cutters did, as tables. */
final class CutTables {

  private static final String ALL = "all noises";

  private CutTables() {}

  /** Each set at each ratio over all noises with the worst named, then each noise. */
  static String markdown(List<CutCell> cells) {
    StringBuilder text =
        new StringBuilder(
            "Per cent of n with 95 % Wilson intervals. Missed: clips hold no more than half of it;"
                + " starts and ends: more than "
                + CutCounts.TOLERATED_MS
                + " ms of speech cut away; extra: clips that hold nothing spoken, how many a minute"
                + " and their share of the time. Worst: the noise with most of these faults.\n\n"
                + "| set | SNR | cutter | n | missed | missed starts | cut ends | splits | joins"
                + " | extra a minute | extra time | worst noise | time ratio |\n"
                + "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n");
    for (CutCell cell : pooled(cells)) {
      CutCounts counts = cell.counts();
      text.append(
          String.format(
              Locale.ROOT,
              "| %s | %s | %s | %d | %s | %s | %s | %s | %s | %.2f | %.3f | %s | %.4f |\n",
              cell.set(),
              cell.snr(),
              cell.cutter(),
              counts.utterances(),
              share(counts.missed(), counts),
              share(counts.missedStarts(), counts),
              share(counts.cutEnds(), counts),
              share(counts.splits(), counts),
              share(counts.joins(), counts),
              counts.extraPerMinute(),
              counts.extraTime(),
              worst(cell, cells),
              cell.timeRatio()));
    }
    return text + byNoise(cells);
  }

  private static String byNoise(List<CutCell> cells) {
    Map<String, CutCounts> noises = new LinkedHashMap<>();
    for (CutCell cell : cells) {
      boolean isTalkInNoise = !cell.snr().isClean() && !cell.set().equals(CutterBench.NOISE_ALONE);
      if (isTalkInNoise && cell.cutter().equals(cells.get(0).cutter())) {
        noises.merge(cell.noise(), cell.counts(), CutCounts::plus);
      }
    }
    StringBuilder text =
        new StringBuilder(
            "\nBy noise, all sets and ratios\n\n"
                + "| noise | n | missed | missed starts | cut ends | splits | joins"
                + " | extra a minute |\n"
                + "| --- | --- | --- | --- | --- | --- | --- | --- |\n");
    noises.forEach(
        (noise, counts) ->
            text.append(
                String.format(
                    Locale.ROOT,
                    "| %s | %d | %d | %d | %d | %d | %d | %.2f |\n",
                    noise,
                    counts.utterances(),
                    counts.missed(),
                    counts.missedStarts(),
                    counts.cutEnds(),
                    counts.splits(),
                    counts.joins(),
                    counts.extraPerMinute())));
    return text.toString();
  }

  private static List<CutCell> pooled(List<CutCell> cells) {
    Map<String, CutCell> pooled = new LinkedHashMap<>();
    for (CutCell cell : cells) {
      pooled.merge(
          key(cell),
          cell,
          (one, other) ->
              new CutCell(
                  one.set(),
                  ALL,
                  one.snr(),
                  one.cutter(),
                  one.counts().plus(other.counts()),
                  one.cpuNanos() + other.cpuNanos()));
    }
    return List.copyOf(pooled.values());
  }

  private static String key(CutCell cell) {
    return cell.set() + "\t" + cell.snr() + "\t" + cell.cutter();
  }

  private static String worst(CutCell pooled, List<CutCell> cells) {
    CutCell worst = null;
    for (CutCell cell : cells) {
      if (key(cell).equals(key(pooled))
          && badness(cell) > 0
          && (worst == null || badness(cell) > badness(worst))) {
        worst = cell;
      }
    }
    return worst == null || worst.snr().isClean() ? "" : worst.noise();
  }

  private static double badness(CutCell cell) {
    return cell.set().equals(CutterBench.NOISE_ALONE)
        ? cell.counts().extraTime()
        : cell.counts().faults();
  }

  private static String share(long count, CutCounts counts) {
    return new Share(count, counts.utterances()).percent();
  }
}
