package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import tallyback.speech.Trust;

/**
 * What a limit costs: over all hearings of the last run of the bench, how much is asked and how
 * much is noted wrong when everything below a limit is asked; and how often the best reading is
 * right where the score is such and such. Any score that a hearing holds will do.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=ThresholdCurve
 * -Dbench.score=trust|lead|fit|overFiller|snr}, after a run of the bench, from the same {@code
 * bench.out}. Two tables on standard output, and in that folder a picture of both for the trust,
 * {@code reliability.svg}.
 */
public final class ThresholdCurve {

  private static final int STEPS = 20;
  private static final int BINS = 10;

  private ThresholdCurve() {}

  /** Prints it. */
  public static void main(String[] args) throws IOException {
    try {
      String score = Objects.requireNonNullElse(System.getProperty("bench.score"), "");
      Path file = newest(BenchSettings.of(HearingBench.properties()).out());
      System.out.println(file + ":");
      List<Heard> heard = read(file);
      System.out.print(of(heard, score.isEmpty() ? "trust" : score));
      Path picture = file.resolveSibling("reliability.svg");
      Files.writeString(
          picture,
          ReliabilityPicture.draw(
              heard.stream().filter(each -> !each.readings().isEmpty()).toList(),
              each -> Trust.defaults().in(each.evidence())));
      System.err.println("picture: " + picture.toAbsolutePath());
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /** Runs of another grammar, other settings or other classes lie beside it. */
  static Path newest(Path folder) throws IOException {
    Path newest = null;
    for (Path file : Files.isDirectory(folder) ? files(folder) : List.<Path>of()) {
      if (newest == null
          || Files.getLastModifiedTime(file).compareTo(Files.getLastModifiedTime(newest)) > 0) {
        newest = file;
      }
    }
    if (newest == null) {
      throw new IllegalArgumentException(
          folder + ": expected the hearings of a run, found none; run HearingBench first");
    }
    return newest;
  }

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.getFileName().toString().startsWith("heard-")).toList();
    }
  }

  /** The hearings of the newest run in each of some folders; there must be any. */
  static List<Heard> readNewest(List<Path> folders) throws IOException {
    List<Heard> heard = new ArrayList<>();
    for (Path folder : folders) {
      heard.addAll(read(newest(folder)));
    }
    if (heard.isEmpty()) {
      throw new IllegalArgumentException(
          "bench.speech: expected folders with the hearings of a run, found none");
    }
    return heard;
  }

  static List<Heard> read(Path file) throws IOException {
    List<Heard> heard = new ArrayList<>();
    for (String line : Files.readAllLines(file, StandardCharsets.UTF_8)) {
      Heard one = Heard.of(line);
      if (one != null) {
        heard.add(one);
      }
    }
    return heard;
  }

  /** Both tables for a score by its name. */
  static String of(List<Heard> heard, String score) {
    ToDoubleFunction<Heard> value =
        switch (score) {
          case "trust" -> each -> Trust.defaults().in(each.evidence());
          case "lead" -> ThresholdCurve::lead;
          case "fit" -> Heard::fit;
          case "overFiller" -> Heard::overFillerLog;
          case "snr" -> Heard::measuredSnrDb;
          default ->
              throw new IllegalArgumentException(
                  "bench.score: expected trust, lead, fit, overFiller or snr, found " + score);
        };
    List<Heard> read = heard.stream().filter(each -> !each.readings().isEmpty()).toList();
    double[] values = read.stream().mapToDouble(value).sorted().toArray();
    return String.format(
            Locale.ROOT,
            "%d hearings, %d with a reading. Per cent with 95 %% Wilson intervals.%n%n",
            heard.size(),
            read.size())
        + limits(read, value, values, score)
        + "\n"
        + reliability(read, value, values, score);
  }

  /** How far the nearest rival is behind; without a rival, infinitely far. */
  private static double lead(Heard heard) {
    return heard.readings().stream()
        .skip(1)
        .mapToDouble(Heard.Offered::behindLog)
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  private static String limits(
      List<Heard> read, ToDoubleFunction<Heard> value, double[] values, String score) {
    StringBuilder table =
        new StringBuilder(
            "| ask below, "
                + score
                + " | noted right | noted wrong | asked, right offered | asked, wrong |\n"
                + "| --- | --- | --- | --- | --- |\n");
    for (int step = 0; step < STEPS && values.length > 0; step++) {
      double limit = values[values.length * step / STEPS];
      if (step > 0 && limit == values[values.length * (step - 1) / STEPS]) {
        continue;
      }
      long right = 0;
      long wrong = 0;
      long askedRight = 0;
      long askedWrong = 0;
      for (Heard heard : read) {
        if (value.applyAsDouble(heard) >= limit) {
          right += heard.rightAt() == 0 ? 1 : 0;
          wrong += heard.rightAt() == 0 ? 0 : 1;
        } else {
          askedRight += heard.rightAt() >= 0 ? 1 : 0;
          askedWrong += heard.rightAt() >= 0 ? 0 : 1;
        }
      }
      table.append(row(written(limit, score), read.size(), right, wrong, askedRight, askedWrong));
    }
    return table.toString();
  }

  private static String row(String limit, long n, long... counts) {
    StringBuilder row = new StringBuilder("| " + limit + " |");
    for (long count : counts) {
      row.append(" ").append(new Share(count, n).percent()).append(" |");
    }
    return row.append("\n").toString();
  }

  private static String written(double value, String score) {
    return String.format(Locale.ROOT, score.equals("trust") ? "%.3f" : "%.1f", value);
  }

  /** Tenths of the hearings by their score. */
  private static String reliability(
      List<Heard> read, ToDoubleFunction<Heard> value, double[] values, String score) {
    StringBuilder table =
        new StringBuilder("| " + score + " from | n | best reading right |\n| --- | --- | --- |\n");
    for (int bin = 0; bin < BINS && values.length > 0; bin++) {
      double from = values[values.length * bin / BINS];
      double to = bin == BINS - 1 ? Double.NaN : values[values.length * (bin + 1) / BINS];
      List<Heard> here =
          read.stream()
              .filter(
                  heard ->
                      value.applyAsDouble(heard) >= from && !(value.applyAsDouble(heard) >= to))
              .toList();
      if (!here.isEmpty()) {
        long right = here.stream().filter(heard -> heard.rightAt() == 0).count();
        table.append(
            String.format(
                Locale.ROOT,
                "| %s | %d | %s |\n",
                written(from, score),
                here.size(),
                new Share(right, here.size()).percent()));
      }
    }
    return table.toString();
  }
}
