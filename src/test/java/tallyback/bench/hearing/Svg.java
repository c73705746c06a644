package tallyback.bench.hearing;

import java.util.List;
import java.util.Locale;

/**
 * Puts the few shapes of a diagram into one self-contained SVG file: on a card of its own, so that
 * it can be read on a white page and on a dark one. One thread.
 */
final class Svg {

  static final String CARD = "#fbf9f4";
  static final String INK = "#23282d";
  static final String FAINT = "#6b6f73";
  static final String RULE = "#dcd7cb";

  private final StringBuilder text = new StringBuilder();

  /**
   * Begins.
   *
   * @param title what it is, in a few words
   * @param description what it shows, in words, for those who can't see it
   */
  Svg(int width, int height, String title, String description) {
    text.append(
        String.format(
            Locale.ROOT,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" width=\"%d\""
                + " height=\"%d\" font-family=\"system-ui, 'Segoe UI', 'DejaVu Sans', sans-serif\""
                + " role=\"img\" aria-labelledby=\"title desc\">\n"
                + "<title id=\"title\">%s</title>\n<desc id=\"desc\">%s</desc>\n"
                + "<rect x=\"0.5\" y=\"0.5\" width=\"%d\" height=\"%d\" rx=\"10\" fill=\"%s\""
                + " stroke=\"%s\"/>\n",
            width,
            height,
            width,
            height,
            escaped(title),
            escaped(description),
            width - 1,
            height - 1,
            CARD,
            RULE));
  }

  /** A straight line; dashes as SVG writes them, empty for none. */
  void line(double x1, double y1, double x2, double y2, String colour, String dashes) {
    path(List.of(point(x1, y1), point(x2, y2)), colour, dashes, 1);
  }

  static String point(double x, double y) {
    return String.format(Locale.ROOT, "%.1f,%.1f", x, y);
  }

  /** A line through points. */
  void path(List<String> points, String colour, String dashes, double width) {
    text.append(
        String.format(
            Locale.ROOT,
            "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%.1f\""
                + " stroke-linejoin=\"round\"%s/>\n",
            String.join(" ", points),
            colour,
            width,
            dashes.isEmpty() ? "" : " stroke-dasharray=\"" + dashes + "\""));
  }

  /** A band inside points, through which what lies behind it can be seen. */
  void band(List<String> points, String colour) {
    text.append(
        String.format(
            Locale.ROOT,
            "<polygon points=\"%s\" fill=\"%s\" fill-opacity=\"0.16\"/>\n",
            String.join(" ", points),
            colour));
  }

  /** A dot, hollow or filled. */
  void dot(double x, double y, String colour, boolean hollow) {
    text.append(
        String.format(
            Locale.ROOT,
            "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3.5\" fill=\"%s\" stroke=\"%s\""
                + " stroke-width=\"1.5\"/>\n",
            x,
            y,
            hollow ? CARD : colour,
            colour));
  }

  /** Text at a point; anchor is start, middle or end. */
  void text(double x, double y, String anchor, String colour, int size, String words) {
    text(x, y, anchor, colour, size, "", words);
  }

  /** The same in bold. */
  void bold(double x, double y, String anchor, String colour, int size, String words) {
    text(x, y, anchor, colour, size, " font-weight=\"600\"", words);
  }

  private void text(
      double x, double y, String anchor, String colour, int size, String more, String words) {
    text.append(
        String.format(
            Locale.ROOT,
            "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"%s\" font-size=\"%d\"%s>%s</text>\n",
            x,
            y,
            anchor,
            colour,
            size,
            more,
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
