package tallyback.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;
import tallyback.history.Trends.Control;
import tallyback.history.Trends.Point;
import tallyback.history.Trends.Series;

/**
 * Values of several jobs, ready to draw. Places across are percent of the width and places down are
 * pixels, so that it fits any screen while its letters keep their size; ink only, so that it is
 * read in grey too. Floating point only places marks.
 *
 * @param label what it shows, for whoever can't see it
 * @param unit the unit of its axis
 * @param heightPixels its height
 * @param left where its axis stands, percent
 * @param right where it ends, percent
 * @param ticks along the axis
 * @param lines limits
 * @param segments between one point and the next
 * @param dots the points
 * @param days below
 */
record Chart(
    String label,
    String unit,
    int heightPixels,
    String left,
    String right,
    List<Tick> ticks,
    List<Limit> lines,
    List<Segment> segments,
    List<Dot> dots,
    List<Day> days) {

  private static final int TOP = 30;
  private static final int PLOT = 170;
  private static final int BELOW = 30;
  private static final double LEFT = 16;
  private static final double FIRST = 20;
  private static final double LAST = 95;
  private static final double RIGHT = 98;
  private static final int MOST_TICKS = 6;
  private static final int MOST_DAYS = 4;

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("MMM uuuu", Locale.ENGLISH);

  /** A round value on the axis. */
  record Tick(int y, String text) {}

  /** A limit: {@code plan}, {@code mean} or {@code reach}, with its words. */
  record Limit(int y, int textY, String style, String text) {}

  /** From one point to the next. */
  record Segment(String x1, int y1, String x2, int y2) {}

  /** A point, with how far it may be off; both ends are the same where that isn't known. */
  record Dot(String x, int y, int high, int low, String style, String link, String title) {}

  /** A day below. */
  record Day(String x, String anchor, String text) {}

  static Chart of(
      Series series,
      String label,
      UnaryOperator<String> links,
      java.util.function.Function<Point, String> says) {
    return new Drawing(series, links).draw(label, says);
  }

  private static String percent(double value) {
    return String.format(Locale.ROOT, "%.2f%%", value);
  }

  private static final class Drawing {
    private final Series series;
    private final UnaryOperator<String> links;
    private final double bottom;
    private final double top;
    private final double step;

    Drawing(Series series, UnaryOperator<String> links) {
      this.series = series;
      this.links = links;
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (Point point : series.points()) {
        double off = point.mayBeOff() == null ? 0 : point.mayBeOff();
        low = Math.min(low, point.value() - off);
        high = Math.max(high, point.value() + off);
      }
      if (series.low() != null) {
        low = Math.min(low, series.low());
        high = Math.max(high, series.low());
      }
      if (series.high() != null) {
        low = Math.min(low, series.high());
        high = Math.max(high, series.high());
      }
      Control control = series.control();
      if (control != null) {
        low = Math.min(low, control.lower());
        high = Math.max(high, control.upper());
      }
      double reach = Math.max(high - low, Math.max(Math.abs(high), 1) * 1e-3);
      this.step = niceStep(reach / (MOST_TICKS - 1));
      this.bottom = Math.floor(low / step) * step;
      this.top = Math.max(bottom + step, Math.ceil(high / step) * step);
    }

    /** 1, 2 or 5 times a power of ten, at least so much. */
    private static double niceStep(double least) {
      double power = Math.pow(10, Math.floor(Math.log10(least)));
      for (double times : new double[] {1, 2, 5}) {
        if (times * power >= least * 0.999_999) {
          return times * power;
        }
      }
      return 10 * power;
    }

    private int y(double value) {
      return TOP + (int) Math.round(PLOT * (top - value) / (top - bottom));
    }

    private double x(int index) {
      int last = series.points().size() - 1;
      return last == 0 ? (FIRST + LAST) / 2 : FIRST + (LAST - FIRST) * index / last;
    }

    Chart draw(String label, java.util.function.Function<Point, String> says) {
      List<Segment> segments = new ArrayList<>();
      List<Dot> dots = new ArrayList<>();
      List<Point> points = series.points();
      for (int index = 0; index < points.size(); index++) {
        Point point = points.get(index);
        if (index > 0) {
          segments.add(
              new Segment(
                  percent(x(index - 1)),
                  y(points.get(index - 1).value()),
                  percent(x(index)),
                  y(point.value())));
        }
        double off = point.mayBeOff() == null ? 0 : point.mayBeOff();
        dots.add(
            new Dot(
                percent(x(index)),
                y(point.value()),
                y(point.value() + off),
                y(point.value() - off),
                TrendSheet.isOutside(series, point) ? "outside" : "",
                links.apply(point.job()),
                says.apply(point)));
      }
      return new Chart(
          label,
          series.unit().symbol(),
          TOP + PLOT + BELOW,
          percent(LEFT),
          percent(RIGHT),
          ticks(),
          limits(),
          segments,
          dots,
          days());
    }

    private List<Tick> ticks() {
      List<Tick> ticks = new ArrayList<>();
      int decimals = Math.max(0, (int) Math.ceil(-Math.log10(step) - 1e-9));
      for (int index = 0; bottom + index * step <= top + step / 2; index++) {
        double value = bottom + index * step;
        String text =
            BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString();
        ticks.add(new Tick(y(value), text.replace('-', '\u2212')));
      }
      return ticks;
    }

    private List<Limit> limits() {
      List<Limit> limits = new ArrayList<>();
      Control control = series.control();
      if (control != null) {
        limits.add(limit(control.upper(), "reach", ""));
        limits.add(limit(control.mean(), "mean", ""));
        limits.add(limit(control.lower(), "reach", ""));
      }
      if (series.high() != null) {
        limits.add(limit(series.high(), "plan", "plan: at most"));
      }
      if (series.low() != null) {
        limits.add(limit(series.low(), "plan", "plan: at least"));
      }
      return limits;
    }

    private Limit limit(double value, String style, String text) {
      int y = y(value);
      return new Limit(y, Math.max(12, y - 4), style, text);
    }

    private List<Day> days() {
      List<Day> days = new ArrayList<>();
      List<Point> points = series.points();
      int many = Math.min(MOST_DAYS, points.size());
      String before = "";
      for (int mark = 0; mark < many; mark++) {
        int index = many == 1 ? 0 : mark * (points.size() - 1) / (many - 1);
        Point point = points.get(index);
        ZoneId zone = point.zone();
        String text = DAY.format(point.at().atZone(zone));
        if (!text.equals(before)) {
          String anchor = points.size() > 1 && index == points.size() - 1 ? "end" : "middle";
          days.add(
              new Day(
                  percent(index == points.size() - 1 && index > 0 ? RIGHT : x(index)),
                  anchor,
                  text));
        }
        before = text;
      }
      return days;
    }
  }
}
