package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * The picture: for each set, over the ratio of speech to noise, how much is heard exactly and how
 * much is noted wrong, over all noises, with 95 % intervals. A self-contained SVG file that can be
 * read in black and white: sets differ by dashes and marks too.
 */
final class Curves {

  private static final int WIDTH = 760;
  private static final int LEFT = 60;
  private static final int RIGHT = 200;
  private static final int TOP = 40;
  private static final int PANEL_HEIGHT = 220;
  private static final int GAP = 50;

  /** Okabe and Ito's colours, told apart by all kinds of eyes; each on white. */
  private static final List<String> COLOURS =
      List.of("#0072B2", "#D55E00", "#009E73", "#000000", "#CC79A7", "#56B4E9");

  private static final List<String> DASHES = List.of("", "7 4", "2 3", "10 3 2 3", "4 2", "1 4");

  private static final int HEIGHT = TOP + 2 * PANEL_HEIGHT + GAP + 50;
  private static final String GREY = "#cccccc";
  private static final String BLACK = "#000000";

  private final Svg svg = new Svg(WIDTH, HEIGHT, "Hearing over the ratio of speech to noise");
  private final List<Snr> ratios = new ArrayList<>();
  private final Map<String, Map<Integer, Cell>> sets = new LinkedHashMap<>();

  private Curves(List<Cell> cells) {
    cells.stream()
        .map(Cell::snr)
        .distinct()
        .sorted((a, b) -> Double.compare(b.db(), a.db()))
        .forEach(ratios::add);
    Map<String, Map<Integer, List<Cell>>> groups = new LinkedHashMap<>();
    for (Cell cell : cells) {
      groups
          .computeIfAbsent(cell.set(), each -> new TreeMap<>())
          .computeIfAbsent(ratios.indexOf(cell.snr()), each -> new ArrayList<>())
          .add(cell);
    }
    groups.forEach(
        (set, byRatio) -> {
          Map<Integer, Cell> pooled = new TreeMap<>();
          byRatio.forEach((place, group) -> pooled.put(place, Cell.pooled(set, "", group)));
          sets.put(set, pooled);
        });
  }

  /** Draws cells. */
  static String draw(List<Cell> cells) {
    return new Curves(cells).draw();
  }

  private String draw() {
    panel(TOP, "heard exactly, noted without asking, %", Outcome.EXACT, 100);
    panel(TOP + PANEL_HEIGHT + GAP, "noted wrong, %", Outcome.NOTED_WRONG, scale());
    svg.text(
        LEFT,
        HEIGHT - 12,
        "start",
        BLACK,
        "speech to noise (active speech level to mean power of the noise); bars: 95 % intervals");
    return svg.toString();
  }

  /** The top of the lower panel: above every interval, and a quarter of it is round. */
  private double scale() {
    double highest =
        sets.values().stream()
            .flatMap(each -> each.values().stream())
            .mapToDouble(cell -> 100 * cell.share(Outcome.NOTED_WRONG).high())
            .max()
            .orElse(1);
    for (double round : new double[] {1, 2, 4, 8, 20, 40}) {
      if (highest <= round) {
        return round;
      }
    }
    return 100;
  }

  private void panel(int top, String title, Outcome outcome, double full) {
    svg.text(LEFT, top - 12, "start", BLACK, title);
    for (int tick = 0; tick <= 4; tick++) {
      double y = top + PANEL_HEIGHT * (1 - tick / 4.0);
      svg.line(LEFT, y, WIDTH - RIGHT, y, GREY, "");
      svg.text(LEFT - 8, y + 4, "end", BLACK, trimmed(full * tick / 4));
    }
    for (int place = 0; place < ratios.size(); place++) {
      svg.text(x(place), top + PANEL_HEIGHT + 18, "middle", BLACK, ratios.get(place).toString());
    }
    int number = 0;
    for (Map.Entry<String, Map<Integer, Cell>> set : sets.entrySet()) {
      curve(top, outcome, full, set.getValue(), number);
      label(top, set.getKey(), number++);
    }
  }

  private void curve(int top, Outcome outcome, double full, Map<Integer, Cell> cells, int number) {
    String colour = COLOURS.get(number % COLOURS.size());
    double aside = (number - (sets.size() - 1) / 2.0) * 5;
    List<String> points = new ArrayList<>();
    cells.forEach(
        (place, cell) -> {
          Share share = cell.share(outcome);
          double x = x(place) + aside;
          double y = y(top, share.value(), full);
          points.add(String.format(Locale.ROOT, "%.1f,%.1f", x, y));
          svg.line(x, y(top, share.low(), full), x, y(top, share.high(), full), colour, "");
          svg.dot(x, y, colour);
        });
    svg.path(points, colour, DASHES.get(number % DASHES.size()));
  }

  private void label(int top, String name, int number) {
    String colour = COLOURS.get(number % COLOURS.size());
    int x = WIDTH - RIGHT + 12;
    int y = top + 14 + number * 18;
    svg.line(x, y - 4, x + 24, y - 4, colour, DASHES.get(number % DASHES.size()));
    svg.text(x + 30, y, "start", colour, name);
  }

  private double x(int place) {
    double room = WIDTH - RIGHT - LEFT;
    return LEFT + room * (place + 0.5) / ratios.size();
  }

  private static double y(int top, double share, double full) {
    return top + PANEL_HEIGHT * (1 - Math.min(1, 100 * share / full));
  }

  private static String trimmed(double value) {
    return value == Math.rint(value)
        ? Long.toString((long) value)
        : String.format(Locale.ROOT, "%.2f", value);
  }
}
