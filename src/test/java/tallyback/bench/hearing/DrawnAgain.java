package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tallyback.speech.ByTrust;

/**
 * Tables and picture of the kept hearings of several runs together: {@code -Dbench.main=DrawnAgain
 * -Dbench.speech=OUT1,OUT2 -Dbench.out=OUT -Dbench.picture=FILE}. So a long run can be shared out,
 * and little be heard where it is noisiest. Entries are judged by the limits as they are now;
 * answers have a judge of their own and are no matter for this.
 */
public final class DrawnAgain {

  private DrawnAgain() {}

  /** Writes them. */
  public static void main(String[] args) throws IOException {
    try {
      BenchSettings settings = BenchSettings.of(HearingBench.properties());
      List<Cell> cells =
          cells(
              ThresholdCurve.readNewest(settings.speech()).stream()
                  .map(heard -> heard.judged(ByTrust.defaults()))
                  .toList());
      Tables.of(cells).write(settings.out());
      Files.createDirectories(settings.picture().toAbsolutePath().getParent());
      Files.writeString(settings.picture(), Curves.draw(cells));
      System.err.println("tables: " + settings.out() + "; picture: " + settings.picture());
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /** One cell for each set, noise and ratio, in the order in which they were heard. */
  static List<Cell> cells(List<Heard> heard) {
    Map<List<String>, List<Heard>> rows = new LinkedHashMap<>();
    for (Heard each : heard) {
      rows.computeIfAbsent(
              List.of(each.set(), each.noise(), each.snr().replace(" dB", "")),
              unused -> new ArrayList<>())
          .add(each);
    }
    List<Cell> cells = new ArrayList<>();
    rows.forEach(
        (row, here) ->
            cells.add(Cell.of(row.get(0), row.get(1), Snr.list(row.get(2)).get(0), here)));
    return cells;
  }
}
