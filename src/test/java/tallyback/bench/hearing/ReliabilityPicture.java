package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import tallyback.speech.ByTrust;

/**
 * Draws how far the probabilities can be believed (A. H. Murphy, R. L. Winkler, <cite>Reliability
 * of subjective probability forecasts of precipitation and temperature</cite>, Applied Statistics
 * 26, 1977), and what each limit would ask and note wrong.
 */
final class ReliabilityPicture {

  /** The limit that is marked is the one for so little noise. */
  private static final double QUIET_DB = 40;

  private static final double[] BINS = {0, 0.2, 0.4, 0.6, 0.7, 0.8, 0.9, 0.94, 0.97, 0.98, 1.01};
  private static final double[] LIMITS = {
    0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.92, 0.94, 0.96, 0.97, 0.98, 0.99
  };
  private static final int WIDTH = 760;
  private static final int HEIGHT = 360;
  private static final int SIDE = 250;
  private static final int TOP = 60;
  private static final int LEFT = 60;
  private static final int RIGHT = 450;
  private static final String BLUE = "#1f5f8b";
  private static final String RUST = "#a8481c";

  private final Svg svg;
  private final List<Heard> heard;
  private final ToDoubleFunction<Heard> trust;

  private ReliabilityPicture(List<Heard> heard, ToDoubleFunction<Heard> trust) {
    this.heard = heard;
    this.trust = trust;
    svg =
        new Svg(
            WIDTH,
            HEIGHT,
            "How far the probabilities can be believed",
            "Left: of the readings given a probability of being right, how many were. Right: for"
                + " each limit, how much would be asked and how much noted wrong.");
  }

  /**
   * Draws it.
   *
   * @param heard hearings with a reading
   * @param trust the probability given to each
   */
  static String draw(List<Heard> heard, ToDoubleFunction<Heard> trust) {
    ReliabilityPicture picture = new ReliabilityPicture(heard, trust);
    picture.reliability();
    picture.limits();
    return picture.svg.toString();
  }

  private void reliability() {
    svg.bold(LEFT, 30, "start", Svg.INK, 14, "Believed and found right, per cent");
    frame(LEFT, 100, 25, "%.0f");
    svg.line(LEFT, TOP + SIDE, LEFT + SIDE, TOP, Svg.FAINT, "4 4");
    List<String> line = new ArrayList<>();
    for (int bin = 0; bin + 1 < BINS.length; bin++) {
      double from = BINS[bin];
      double to = BINS[bin + 1];
      List<Heard> here =
          heard.stream()
              .filter(each -> trust.applyAsDouble(each) >= from && trust.applyAsDouble(each) < to)
              .toList();
      if (here.isEmpty()) {
        continue;
      }
      double mean = here.stream().mapToDouble(trust).average().orElseThrow();
      Share right = right(here, here.size());
      double x = LEFT + SIDE * mean;
      svg.line(x, y(100 * right.low(), 100), x, y(100 * right.high(), 100), BLUE, "");
      svg.dot(x, y(100 * right.value(), 100), BLUE, false);
      line.add(Svg.point(x, y(100 * right.value(), 100)));
    }
    svg.path(line, BLUE, "", 1.5);
    svg.text(
        LEFT + SIDE / 2.0, TOP + SIDE + 36, "middle", Svg.FAINT, 12, "believed to be right, %");
    svg.text(
        LEFT + 8, TOP + 16, "start", Svg.FAINT, 12, heard.size() + " readings, 95 % intervals");
  }

  private void limits() {
    svg.bold(RIGHT, 30, "start", Svg.INK, 14, "Noted wrong over asked, per cent");
    double most = Math.max(1, Math.ceil(100 * wrong(LIMITS[0]).value()));
    frame(RIGHT, most, most / 4, "%.1f");
    List<String> line = new ArrayList<>();
    for (double limit : LIMITS) {
      line.add(Svg.point(RIGHT + SIDE * asked(limit).value(), y(100 * wrong(limit).value(), most)));
    }
    svg.path(line, RUST, "", 2);
    double least = ByTrust.defaults().leastAt(QUIET_DB);
    double x = RIGHT + SIDE * asked(least).value();
    double y = y(100 * wrong(least).value(), most);
    svg.dot(x, y, RUST, false);
    svg.text(
        x + 8,
        y - 8,
        "start",
        Svg.INK,
        12,
        String.format(
            Locale.ROOT,
            "limit %.2f: %.1f asked, %.1f wrong",
            least,
            100 * asked(least).value(),
            100 * wrong(least).value()));
    svg.text(RIGHT + SIDE / 2.0, TOP + SIDE + 36, "middle", Svg.FAINT, 12, "asked, %");
  }

  private Share asked(double limit) {
    return new Share(
        heard.stream().filter(each -> trust.applyAsDouble(each) < limit).count(), heard.size());
  }

  private Share wrong(double limit) {
    List<Heard> noted = heard.stream().filter(each -> trust.applyAsDouble(each) >= limit).toList();
    return new Share(noted.size() - right(noted, 1).count(), heard.size());
  }

  private static Share right(List<Heard> heard, long of) {
    return new Share(heard.stream().filter(each -> each.rightAt() == 0).count(), of);
  }

  private void frame(int left, double most, double step, String format) {
    for (int i = 0; i <= 4; i++) {
      double value = step * i;
      svg.line(left, y(value, most), left + SIDE, y(value, most), Svg.RULE, "");
      svg.text(
          left - 8,
          y(value, most) + 4,
          "end",
          Svg.FAINT,
          12,
          String.format(Locale.ROOT, format, value));
      svg.text(
          left + SIDE * i / 4.0,
          TOP + SIDE + 18,
          "middle",
          Svg.FAINT,
          12,
          Integer.toString(25 * i));
    }
  }

  private static double y(double value, double most) {
    return TOP + SIDE - SIDE * value / most;
  }
}
