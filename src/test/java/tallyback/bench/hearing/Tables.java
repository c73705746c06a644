package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The cells as tables: every cell; each set at each ratio over all noises, the worst noise named;
 * each noise over all sets.
 */
final class Tables {

  private static final String ALL = "all noises";

  private final List<Cell> cells;

  private Tables(List<Cell> cells) {
    this.cells = cells;
  }

  static Tables of(List<Cell> cells) {
    return new Tables(List.copyOf(cells));
  }

  /** Writes {@code bench.md} and {@code bench.tsv} into a folder. */
  void write(Path folder) throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("bench.md"), markdown());
    Files.writeString(folder.resolve("bench.tsv"), tsv());
  }

  String markdown() {
    StringBuilder text = new StringBuilder();
    text.append("Per cent of n with 95 % Wilson intervals; time is processor time over length.\n");
    table(text, "By set of speech", pooled(Cell::set, ""), true);
    table(text, "By noise", pooled(Cell::noise, "all sets"), false);
    table(text, "Every cell", cells, false);
    return text.toString();
  }

  /** Cells of one ratio and one key together, in the order in which the keys first stand. */
  private List<Cell> pooled(Function<Cell, String> key, String set) {
    Map<String, List<Cell>> groups = new LinkedHashMap<>();
    cells.forEach(
        cell ->
            groups
                .computeIfAbsent(key.apply(cell) + "\t" + ratio(cell), each -> new ArrayList<>())
                .add(cell));
    return groups.values().stream()
        .map(
            group ->
                Cell.pooled(
                    set.isEmpty() ? group.get(0).set() : set,
                    set.isEmpty() && group.size() > 1 ? ALL : group.get(0).noise(),
                    group))
        .toList();
  }

  /** Damaged sound is never counted together with clean sound. */
  private static String ratio(Cell cell) {
    return cell.isDamaged() ? cell.noise() : cell.snr().toString();
  }

  private void table(StringBuilder text, String title, List<Cell> rows, boolean worst) {
    text.append("\n").append(title).append("\n\n");
    List<String> heads =
        new ArrayList<>(
            List.of(
                "set",
                "noise",
                "SNR",
                "n",
                "exact",
                "asked, right offered",
                "asked, wrong",
                "noted wrong",
                "rejected",
                "time"));
    if (worst) {
      heads.add("worst noise");
    }
    text.append(row(heads.stream())).append(row(heads.stream().map(head -> "---")));
    for (Cell cell : rows) {
      List<String> fields = fields(cell);
      if (worst) {
        fields.add(worst(cell));
      }
      text.append(row(fields.stream()));
    }
  }

  private static String row(Stream<String> fields) {
    return fields.collect(Collectors.joining(" | ", "| ", " |\n"));
  }

  private static List<String> fields(Cell cell) {
    List<String> fields =
        new ArrayList<>(
            List.of(cell.set(), cell.noise(), cell.snr().toString(), Long.toString(cell.n())));
    for (Outcome outcome : Outcome.values()) {
      fields.add(cell.share(outcome).percent());
    }
    fields.add(String.format(Locale.ROOT, "%.3f", cell.timeRatio()));
    return fields;
  }

  /** The noise in which a set is heard worst at a ratio. */
  private String worst(Cell pooled) {
    return cells.stream()
        .filter(cell -> cell.set().equals(pooled.set()) && cell.snr().equals(pooled.snr()))
        .filter(cell -> !cell.snr().isClean())
        .min(Comparator.comparingDouble(cell -> cell.share(Outcome.EXACT).value()))
        .map(
            cell ->
                String.format(
                    Locale.ROOT,
                    "%s (%.1f)",
                    cell.noise(),
                    100 * cell.share(Outcome.EXACT).value()))
        .orElse("");
  }

  String tsv() {
    StringBuilder text =
        new StringBuilder(
            "set\tnoise\tsnr\tn\texact\tasked right\tasked wrong\tnoted wrong\trejected\ttime"
                + " ratio\texact low\texact high\tnoted wrong low\tnoted wrong high\n");
    for (Cell cell : cells) {
      List<String> fields = new ArrayList<>();
      fields.addAll(
          List.of(cell.set(), cell.noise(), cell.snr().toString(), Long.toString(cell.n())));
      for (Outcome outcome : Outcome.values()) {
        fields.add(Long.toString(cell.count(outcome)));
      }
      fields.add(number(cell.timeRatio()));
      for (Outcome outcome : List.of(Outcome.EXACT, Outcome.NOTED_WRONG)) {
        fields.add(number(cell.share(outcome).low()));
        fields.add(number(cell.share(outcome).high()));
      }
      text.append(String.join("\t", fields)).append("\n");
    }
    return text.toString();
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.4f", value);
  }
}
