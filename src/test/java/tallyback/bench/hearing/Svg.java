package tallyback.bench.hearing;

import java.util.List;
import java.util.Locale;

/** Puts the few shapes of a diagram into one self-contained SVG file. One thread. */
final class Svg {

  private final StringBuilder text = new StringBuilder();

  Svg(int width, int height, String title) {
    text.append(
        String.format(
            Locale.ROOT,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" width=\"%d\""
                + " height=\"%d\" font-family=\"sans-serif\" font-size=\"12\" role=\"img\">\n"
                + "<title>%s</title>\n"
                + "<rect width=\"%d\" height=\"%d\" fill=\"white\"/>\n",
            width,
            height,
            width,
            height,
            escaped(title),
            width,
            height));
  }

  /** A straight line; dashes as SVG writes them, empty for none. */
  void line(double x1, double y1, double x2, double y2, String colour, String dashes) {
    path(
        List.of(
            String.format(Locale.ROOT, "%.1f,%.1f", x1, y1),
            String.format(Locale.ROOT, "%.1f,%.1f", x2, y2)),
        colour,
        dashes);
  }

  /** A line through points, each {@code x,y}. */
  void path(List<String> points, String colour, String dashes) {
    text.append(
        String.format(
            Locale.ROOT,
            "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"1.5\"%s/>\n",
            String.join(" ", points),
            colour,
            dashes.isEmpty() ? "" : " stroke-dasharray=\"" + dashes + "\""));
  }

  void dot(double x, double y, String colour) {
    text.append(
        String.format(
            Locale.ROOT, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3\" fill=\"%s\"/>\n", x, y, colour));
  }

  /** Text at a point; anchor is start, middle or end. */
  void text(double x, double y, String anchor, String colour, String words) {
    text.append(
        String.format(
            Locale.ROOT,
            "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"%s\">%s</text>\n",
            x,
            y,
            anchor,
            colour,
            escaped(words)));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }

  @Override
  public String toString() {
    return text + "</svg>\n";
  }
}
