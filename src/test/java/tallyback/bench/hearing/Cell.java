package tallyback.bench.hearing;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The counts of one set in one noise at one ratio.
 *
 * @param set the set of speech
 * @param noise the noise, {@code none} for clean speech, or what else is wrong with the sound
 * @param snr the ratio
 * @param counts how many there are of each outcome
 * @param cpuMs processor time of all
 * @param soundMs length of all
 */
record Cell(
    String set, String noise, Snr snr, Map<Outcome, Long> counts, double cpuMs, double soundMs) {

  /** What stands in place of a noise where there is none. */
  static final String NO_NOISE = "none";

  private static final ObjectMapper JSON = new ObjectMapper();

  Cell {
    counts = Map.copyOf(counts);
  }

  static Cell of(String set, String noise, Snr snr, List<Heard> heard) {
    Map<Outcome, Long> counts = new EnumMap<>(Outcome.class);
    heard.forEach(each -> counts.merge(each.outcome(), 1L, Long::sum));
    return new Cell(
        set,
        noise,
        snr,
        counts,
        heard.stream().mapToDouble(Heard::cpuMs).sum(),
        heard.stream().mapToDouble(Heard::soundMs).sum());
  }

  /** Cells of one ratio counted together. */
  static Cell pooled(String set, String noise, Collection<Cell> cells) {
    Map<Outcome, Long> counts = new EnumMap<>(Outcome.class);
    cells.forEach(
        cell -> cell.counts.forEach((each, count) -> counts.merge(each, count, Long::sum)));
    return new Cell(
        set,
        noise,
        cells.iterator().next().snr(),
        counts,
        cells.stream().mapToDouble(Cell::cpuMs).sum(),
        cells.stream().mapToDouble(Cell::soundMs).sum());
  }

  /** Whether something other than noise is wrong with the sound: see {@link Damage}. */
  boolean isDamaged() {
    return snr.isClean() && !noise.equals(NO_NOISE);
  }

  long n() {
    return counts.values().stream().mapToLong(Long::longValue).sum();
  }

  long count(Outcome outcome) {
    return counts.getOrDefault(outcome, 0L);
  }

  Share share(Outcome outcome) {
    return new Share(count(outcome), n());
  }

  /** Processor time over the length of the sound. */
  double timeRatio() {
    return soundMs == 0 ? 0 : cpuMs / soundMs;
  }

  /** One JSON object in one line. */
  String json() {
    ObjectNode cell = JSON.createObjectNode();
    cell.put("set", set);
    cell.put("noise", noise);
    if (snr.isClean()) {
      cell.putNull("snrDb");
    } else {
      cell.put("snrDb", new BigDecimal(snr.number()));
    }
    cell.put("n", n());
    cell.put("exact", count(Outcome.EXACT));
    cell.put("askedRight", count(Outcome.ASKED_RIGHT));
    cell.put("askedWrong", count(Outcome.ASKED_WRONG));
    cell.put("notedWrong", count(Outcome.NOTED_WRONG));
    cell.put("rejected", count(Outcome.REJECTED));
    cell.put("timeRatio", BigDecimal.valueOf(timeRatio()).setScale(4, RoundingMode.HALF_UP));
    return cell.toString();
  }
}
