package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The picture: over the ratio of speech to noise, how many entries are noted right, how many are
 * asked about with the right reading offered, and, on a scale of its own, how many are noted wrong;
 * all sets and noises together, in bands of 95 % intervals, with the worst noise of each ratio.
 * What it shows is told in words too. Damaged sound is left out, and so is speech that is no entry.
 */
final class Curves {

  private static final int WIDTH = 720;
  private static final int LEFT = 62;
  private static final int RIGHT = 186;
  private static final int TOP = 84;
  private static final int UPPER = 210;
  private static final int BETWEEN = 52;
  private static final int LOWER = 84;

  private static final String RIGHT_COLOUR = "#0b6e6e";
  private static final String ASKED_COLOUR = "#b06a00";
  private static final String WRONG_COLOUR = "#b3261e";

  /** The worst noise stands beside the mean of all, not on it. */
  private static final int ASIDE = 16;

  /** Two numbers of one ratio closer than this stand above and below. */
  private static final int NUMBERS_APART = 30;

  /** Labels closer than this would run into each other. */
  private static final int LABEL_APART = 34;

  private final Map<Integer, Cell> pooled = new TreeMap<>();
  private final Map<Integer, Cell> worst = new TreeMap<>();
  private final List<Snr> ratios;
  private final Set<String> sets = new LinkedHashSet<>();
  private final Set<String> noises = new LinkedHashSet<>();

  private Curves(List<Cell> cells) {
    ratios =
        cells.stream()
            .map(Cell::snr)
            .distinct()
            .sorted(Comparator.comparingDouble(Snr::db).reversed())
            .toList();
    for (int place = 0; place < ratios.size(); place++) {
      Snr snr = ratios.get(place);
      List<Cell> here = cells.stream().filter(cell -> cell.snr().equals(snr)).toList();
      pooled.put(place, Cell.pooled("", "", here));
      if (!snr.isClean()) {
        worst.put(place, worst(here));
      }
    }
    cells.forEach(cell -> sets.add(cell.set()));
    cells.stream().filter(cell -> !cell.snr().isClean()).forEach(cell -> noises.add(cell.noise()));
  }

  private static Cell worst(List<Cell> cells) {
    Map<String, List<Cell>> byNoise =
        cells.stream()
            .collect(Collectors.groupingBy(Cell::noise, TreeMap::new, Collectors.toList()));
    return byNoise.entrySet().stream()
        .map(each -> Cell.pooled("", each.getKey(), each.getValue()))
        .min(Comparator.comparingDouble(cell -> cell.share(Outcome.EXACT).value()))
        .orElseThrow();
  }

  /** Draws cells. */
  static String draw(List<Cell> cells) {
    List<Cell> shown =
        cells.stream()
            .filter(cell -> !cell.isDamaged() && !cell.set().endsWith(SpeechSet.NOT_IN_THE_GRAMMAR))
            .toList();
    return shown.isEmpty()
        ? new Svg(WIDTH, 60, "Entries heard in noise", "nothing to show").toString()
        : new Curves(shown).draw();
  }

  private String draw() {
    int height = TOP + UPPER + BETWEEN + LOWER + 62;
    Svg svg = new Svg(WIDTH, height, "Entries heard in noise", described());
    svg.bold(24, 34, "start", Svg.INK, 18, "Entries heard in noise");
    svg.text(24, 55, "start", Svg.FAINT, 13, "% of entries · " + scope());
    axes(svg, TOP, UPPER, 100, 4);
    double full = scale();
    int lowerTop = TOP + UPPER + BETWEEN;
    axes(svg, lowerTop, LOWER, full, 2);
    ratioLabels(svg, lowerTop + LOWER);
    worstNoises(svg);
    Curve right = new Curve(TOP, UPPER, 100, RIGHT_COLOUR, "noted right", Outcome.EXACT);
    Curve asked =
        new Curve(TOP, UPPER, 100, ASKED_COLOUR, "asked, right one offered", Outcome.ASKED_RIGHT);
    Curve wrong =
        new Curve(lowerTop, LOWER, full, WRONG_COLOUR, "noted wrong", Outcome.NOTED_WRONG);
    List.of(asked, right, wrong).forEach(curve -> curve.line(svg));
    right.numbers(svg, asked);
    asked.numbers(svg, right);
    wrong.numbers(svg, null);
    labels(svg, List.of(right, asked));
    svg.text(WIDTH - RIGHT + 14, lowerTop + 4, "start", Svg.FAINT, 11, "larger scale");
    wrong.label(svg, Math.max(lowerTop + 22, wrong.y(last(wrong))));
    return svg.toString();
  }

  private String scope() {
    String speech = String.join(", ", speech());
    String noise =
        noises.isEmpty() ? "" : " · " + noises.size() + (noises.size() == 1 ? " noise" : " noises");
    return speech + noise + " · bands: 95 % intervals";
  }

  /** The synthetic voices counted, recordings by the name of their folder. */
  private List<String> speech() {
    Set<String> voices = Stream.of(Voices.values()).map(Voices::name).collect(Collectors.toSet());
    long synthetic = sets.stream().filter(voices::contains).count();
    List<String> speech = new ArrayList<>();
    if (synthetic > 0) {
      speech.add(synthetic + (synthetic == 1 ? " synthetic voice" : " synthetic voices"));
    }
    sets.stream().filter(set -> !voices.contains(set)).forEach(speech::add);
    return speech;
  }

  private String described() {
    List<String> sentences = new ArrayList<>();
    sentences.add("Shares of entries over the ratio of speech to noise; " + scope() + ".");
    pooled.forEach(
        (place, cell) ->
            sentences.add(
                String.format(
                    Locale.ROOT,
                    "%s: %d entries, noted right %s, asked with the right reading offered %s, noted"
                        + " wrong %s%s.",
                    ratios.get(place).toString(),
                    cell.n(),
                    percent(cell, Outcome.EXACT),
                    percent(cell, Outcome.ASKED_RIGHT),
                    percent(cell, Outcome.NOTED_WRONG),
                    worstInWords(worst.get(place)))));
    return String.join(" ", sentences);
  }

  private static String worstInWords(@Nullable Cell cell) {
    return cell == null
        ? ""
        : ", worst noise " + readable(cell.noise()) + " with " + percent(cell, Outcome.EXACT);
  }

  private static String percent(Cell cell, Outcome outcome) {
    return trimmed(100 * cell.share(outcome).value()) + " %";
  }

  /** The top of the lower scale: above every interval, and a half of it is round. */
  private double scale() {
    double highest =
        pooled.values().stream()
            .mapToDouble(cell -> 100 * cell.share(Outcome.NOTED_WRONG).high())
            .max()
            .orElse(1);
    for (double round : new double[] {1, 2, 4, 10, 20, 40}) {
      if (highest <= round) {
        return round;
      }
    }
    return 100;
  }

  private static void axes(Svg svg, int top, int height, double full, int steps) {
    for (int step = 0; step <= steps; step++) {
      double y = top + height * (1 - (double) step / steps);
      svg.line(LEFT, y, WIDTH - RIGHT, y, Svg.RULE, "");
      svg.text(LEFT - 10, y + 4, "end", Svg.FAINT, 13, trimmed(full * step / steps) + " %");
    }
  }

  private void ratioLabels(Svg svg, int bottom) {
    for (int place = 0; place < ratios.size(); place++) {
      Snr snr = ratios.get(place);
      String words = snr.isClean() ? "clean" : snr.number() + " dB";
      svg.bold(x(place), bottom + 22, "middle", Svg.INK, 13, words);
      svg.text(x(place), bottom + 38, "middle", Svg.FAINT, 11, "n = " + at(pooled, place).n());
    }
    svg.text(WIDTH - RIGHT + 14, bottom + 22, "start", Svg.FAINT, 13, "speech over noise");
  }

  /** The worst noise of each ratio: a mark and its name below the upper panel. */
  private void worstNoises(Svg svg) {
    if (noises.size() < 2) {
      return;
    }
    worst.forEach(
        (place, cell) -> {
          double y = TOP + UPPER * (1 - cell.share(Outcome.EXACT).value());
          double x = x(place) + ASIDE;
          svg.line(x, y, x, TOP + UPPER + 6, RIGHT_COLOUR, "2 3");
          svg.dot(x, y, RIGHT_COLOUR, true);
          svg.text(x(place), TOP + UPPER + 20, "middle", RIGHT_COLOUR, 11, readable(cell.noise()));
        });
    svg.text(
        WIDTH - RIGHT + 14,
        TOP + UPPER + 20,
        "start",
        RIGHT_COLOUR,
        11,
        "○ worst noise, noted right");
  }

  /** Without what tells the collection and the number in it; no longer than its place. */
  static String readable(String noise) {
    String words = noise.replaceFirst("^[a-z]+_(\\d+_|bg_)?", "").replace('_', ' ').strip();
    String shown = words.isEmpty() ? noise : words;
    return shown.length() > 16 ? shown.substring(0, 15).strip() + "…" : shown;
  }

  /** Labels at the ends of their lines, apart from each other. */
  private void labels(Svg svg, List<Curve> curves) {
    List<Curve> fromTop = new ArrayList<>(curves);
    fromTop.sort(Comparator.comparingDouble(curve -> curve.y(last(curve))));
    double least = Double.NEGATIVE_INFINITY;
    List<Double> places = new ArrayList<>();
    for (Curve curve : fromTop) {
      least = Math.max(curve.y(last(curve)), least + LABEL_APART);
      places.add(least);
    }
    double over = Math.max(0, least - (TOP + UPPER - LABEL_APART / 2.0));
    for (int i = 0; i < fromTop.size(); i++) {
      fromTop.get(i).label(svg, places.get(i) - over);
    }
  }

  private double last(Curve curve) {
    return at(pooled, ratios.size() - 1).share(curve.outcome()).value();
  }

  private static Cell at(Map<Integer, Cell> cells, int place) {
    Cell cell = cells.get(place);
    if (cell == null) {
      throw new IllegalStateException("no cell at " + place);
    }
    return cell;
  }

  private double x(int place) {
    double room = WIDTH - RIGHT - LEFT;
    return LEFT + room * (place + 0.5) / ratios.size();
  }

  /** One decimal place, two where one would say nought of what is not. */
  private static String trimmed(double value) {
    if (Math.abs(value - Math.rint(value)) < 1e-9) {
      return Long.toString(Math.round(value));
    }
    return String.format(Locale.ROOT, value < 0.1 || value > 99.9 ? "%.2f" : "%.1f", value);
  }

  /** One line with its band in its panel. */
  private final class Curve {

    private final int top;
    private final int height;
    private final double full;
    private final String colour;
    private final String name;
    private final Outcome outcome;

    Curve(int top, int height, double full, String colour, String name, Outcome outcome) {
      this.top = top;
      this.height = height;
      this.full = full;
      this.colour = colour;
      this.name = name;
      this.outcome = outcome;
    }

    Outcome outcome() {
      return outcome;
    }

    double y(double share) {
      return top + height * (1 - Math.min(1, 100 * share / full));
    }

    private List<String> through(Function<Share, Double> value) {
      List<String> points = new ArrayList<>();
      pooled.forEach(
          (place, cell) -> points.add(Svg.point(x(place), y(value.apply(cell.share(outcome))))));
      return points;
    }

    void line(Svg svg) {
      List<String> around = through(Share::high);
      List<String> back = through(Share::low);
      Collections.reverse(back);
      around.addAll(back);
      svg.band(around, colour);
      svg.path(through(Share::value), colour, "", 2.5);
      pooled.forEach(
          (place, cell) -> {
            svg.dot(x(place), y(cell.share(outcome).value()), colour, false);
          });
    }

    /** The value at each dot, below it where the other curve is close above. */
    void numbers(Svg svg, @Nullable Curve other) {
      pooled.forEach(
          (place, cell) -> {
            double y = y(cell.share(outcome).value());
            double above = other == null ? 0 : y - y(cell.share(other.outcome).value());
            boolean below = above > 0 && above < NUMBERS_APART;
            svg.bold(
                x(place),
                below ? y + 18 : y - 9,
                "middle",
                colour,
                12,
                trimmed(100 * cell.share(outcome).value()));
          });
    }

    /** Its name beside its end, on two lines where it is long. */
    void label(Svg svg, double y) {
      int comma = name.indexOf(',');
      String first = comma < 0 ? name : name.substring(0, comma + 1);
      svg.bold(WIDTH - RIGHT + 14, comma < 0 ? y + 5 : y - 3, "start", colour, 14, first);
      if (comma > 0) {
        svg.bold(
            WIDTH - RIGHT + 14, y + 13, "start", colour, 14, name.substring(comma + 1).strip());
      }
    }
  }
}
