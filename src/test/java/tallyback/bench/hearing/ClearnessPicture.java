package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tallyback.speech.Clearness;

/**
 * Draws how far {@link Clearness} can be believed, as {@link ReliabilityPicture} does for the
 * trust, and what refusing below each limit costs and avoids.
 */
final class ClearnessPicture {

  private static final double[] BINS = {0, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.01};
  private static final int WIDTH = 760;
  private static final int HEIGHT = 380;
  private static final int SIDE = 250;
  private static final int TOP = 60;
  private static final int LEFT = 60;
  private static final int RIGHT = 460;
  private static final String BLUE = "#1f5f8b";
  private static final String RUST = "#a8481c";

  private final Svg svg;
  private final List<ClearnessFit.Measured> all;

  private ClearnessPicture(List<ClearnessFit.Measured> all) {
    this.all = all;
    svg =
        new Svg(
            WIDTH,
            HEIGHT,
            "How far the figure of noise can be believed",
            "Left: of clips of which the sound alone gives a probability that they are heard right,"
                + " how many were. Right: for each limit below which clips are refused, how much of"
                + " what would have been noted right is lost, and how much of what would have been"
                + " heard wrong is spared.");
  }

  static String draw(List<ClearnessFit.Measured> all) {
    ClearnessPicture picture = new ClearnessPicture(all);
    picture.believed();
    picture.refused();
    return picture.svg.toString();
  }

  private void believed() {
    svg.bold(LEFT, 30, "start", Svg.INK, 14, "Believed by the sound, and right, per cent");
    frame(LEFT);
    svg.line(LEFT, TOP + SIDE, LEFT + SIDE, TOP, Svg.FAINT, "4 4");
    List<String> line = new ArrayList<>();
    for (int bin = 0; bin + 1 < BINS.length; bin++) {
      List<ClearnessFit.Measured> here = ClearnessFit.between(all, BINS[bin], BINS[bin + 1]);
      if (here.isEmpty()) {
        continue;
      }
      double mean =
          here.stream().mapToDouble(ClearnessFit.Measured::clearness).average().orElseThrow();
      Share right =
          new Share(ClearnessFit.count(here, ClearnessFit.Measured::isRight), here.size());
      double x = LEFT + SIDE * mean;
      svg.line(x, y(right.low()), x, y(right.high()), BLUE, "");
      svg.dot(x, y(right.value()), BLUE, false);
      line.add(Svg.point(x, y(right.value())));
    }
    svg.path(line, BLUE, "", 1.5);
    svg.text(
        LEFT + SIDE / 2.0, TOP + SIDE + 36, "middle", Svg.FAINT, 12, "believed to be right, %");
    svg.text(LEFT + 8, TOP + 16, "start", Svg.FAINT, 12, all.size() + " clips, 95 % intervals");
  }

  private void refused() {
    svg.bold(RIGHT, 30, "start", Svg.INK, 14, "Refused below a limit, per cent");
    frame(RIGHT);
    List<String> lost = new ArrayList<>();
    List<String> spared = new ArrayList<>();
    for (int per = 0; per <= 100; per += 2) {
      double limit = per / 100.0;
      double x = RIGHT + SIDE * limit;
      lost.add(Svg.point(x, y(below(limit, Outcome.EXACT))));
      spared.add(Svg.point(x, y(notRightBelow(limit))));
    }
    svg.path(spared, RUST, "", 2);
    svg.path(lost, BLUE, "", 2);
    svg.line(
        RIGHT + SIDE * Clearness.ENOUGH,
        TOP + 44,
        RIGHT + SIDE * Clearness.ENOUGH,
        TOP + SIDE,
        Svg.FAINT,
        "4 4");
    svg.text(
        RIGHT + SIDE * Clearness.ENOUGH - 6,
        TOP + 56,
        "end",
        Svg.FAINT,
        12,
        String.format(Locale.ROOT, "below %.2f", Clearness.ENOUGH));
    svg.text(
        RIGHT + 8,
        TOP + 16,
        "start",
        RUST,
        12,
        String.format(
            Locale.ROOT,
            "best reading wrong: %.0f %% refused",
            100 * notRightBelow(Clearness.ENOUGH)));
    svg.text(
        RIGHT + 8,
        TOP + 34,
        "start",
        BLUE,
        12,
        String.format(
            Locale.ROOT,
            "noted right: %.0f %% lost",
            100 * below(Clearness.ENOUGH, Outcome.EXACT)));
    svg.text(RIGHT + SIDE / 2.0, TOP + SIDE + 36, "middle", Svg.FAINT, 12, "limit, %");
  }

  private double below(double limit, Outcome outcome) {
    return new Share(
            ClearnessFit.count(ClearnessFit.between(all, 0, limit), outcome),
            ClearnessFit.count(all, outcome))
        .value();
  }

  private double notRightBelow(double limit) {
    return new Share(
            ClearnessFit.count(ClearnessFit.between(all, 0, limit), each -> !each.isRight()),
            ClearnessFit.count(all, each -> !each.isRight()))
        .value();
  }

  private void frame(int left) {
    for (int i = 0; i <= 4; i++) {
      double share = 0.25 * i;
      svg.line(left, y(share), left + SIDE, y(share), Svg.RULE, "");
      svg.text(left - 8, y(share) + 4, "end", Svg.FAINT, 12, Integer.toString(25 * i));
      svg.text(
          left + SIDE * share, TOP + SIDE + 18, "middle", Svg.FAINT, 12, Integer.toString(25 * i));
    }
  }

  private static double y(double share) {
    return TOP + SIDE - SIDE * share;
  }
}
