package tallyback.report;

import java.text.BreakIterator;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;

/**
 * A table for the console: columns of fixed width, long cells wrapped between words, a cell of
 * several paragraphs allowed. Widths count code points, so wide scripts may stand out of line;
 * nothing is ever cut off.
 */
final class Columns {

  private static final String GAP = "  ";

  private final int[] widths;
  private final StringBuilder out = new StringBuilder();

  Columns(int... widths) {
    this.widths = widths.clone();
  }

  /**
   * One cell: its text, and what is put around a finished line of it (after padding, so that
   * nothing shifts).
   */
  record Cell(String text, UnaryOperator<String> paint) {
    static Cell plain(String text) {
      return new Cell(text, UnaryOperator.identity());
    }
  }

  /** Adds a row of plain cells. */
  void row(String... cells) {
    List<Cell> row = new ArrayList<>();
    for (String cell : cells) {
      row.add(Cell.plain(cell));
    }
    row(row);
  }

  /** Adds a row. */
  void row(List<Cell> cells) {
    List<List<String>> wrapped = new ArrayList<>();
    int height = 1;
    for (int column = 0; column < widths.length; column++) {
      List<String> lines = wrap(cells.get(column).text(), widths[column]);
      wrapped.add(lines);
      height = Math.max(height, lines.size());
    }
    for (int line = 0; line < height; line++) {
      StringBuilder text = new StringBuilder();
      for (int column = 0; column < widths.length; column++) {
        List<String> lines = wrapped.get(column);
        String piece = line < lines.size() ? lines.get(line) : "";
        boolean last = column == widths.length - 1;
        String padded = last ? piece : pad(piece, widths[column]);
        text.append(piece.isEmpty() ? padded : cells.get(column).paint().apply(padded));
        text.append(last ? "" : GAP);
      }
      out.append(text.toString().stripTrailing()).append('\n');
    }
  }

  /** Adds an empty line. */
  void gap() {
    out.append('\n');
  }

  /** Adds a line of dashes under a head row. */
  void rule() {
    String[] dashes = new String[widths.length];
    for (int column = 0; column < widths.length; column++) {
      dashes[column] = "\u2500".repeat(widths[column]);
    }
    row(dashes);
  }

  @Override
  public String toString() {
    return out.toString();
  }

  /** The text in lines of at most {@code width} code points; a word longer than that is broken. */
  static List<String> wrap(String text, int width) {
    List<String> lines = new ArrayList<>();
    for (String paragraph : text.split("\n", -1)) {
      wrapParagraph(Wording.together(SafeText.visible(paragraph).replace('\t', ' ')), width, lines);
    }
    lines.replaceAll(line -> line.replace('\u00a0', ' '));
    return lines;
  }

  private static void wrapParagraph(String paragraph, int width, List<String> lines) {
    String hang = " ".repeat(hangingIndent(paragraph));
    BreakIterator breaks = BreakIterator.getLineInstance(Locale.ROOT);
    breaks.setText(paragraph);
    StringBuilder line = new StringBuilder();
    int from = breaks.first();
    for (int to = breaks.next(); to != BreakIterator.DONE; from = to, to = breaks.next()) {
      String piece = paragraph.substring(from, to);
      if (length(line.toString() + piece.stripTrailing()) > width && !line.toString().isBlank()) {
        lines.add(line.toString().stripTrailing());
        line.setLength(0);
        line.append(hang);
      }
      while (length(line.toString() + piece.stripTrailing()) > width) {
        int room = width - length(line.toString());
        int cut = piece.offsetByCodePoints(0, room);
        lines.add(line.toString() + piece.substring(0, cut));
        piece = piece.substring(cut);
        line.setLength(0);
        line.append(hang);
      }
      line.append(piece);
    }
    lines.add(line.toString().stripTrailing());
  }

  /** Where a wrapped line goes on: under the text after a label such as {@code "found "}. */
  private static int hangingIndent(String paragraph) {
    int gap = paragraph.strip().isEmpty() ? -1 : paragraph.indexOf("  ");
    int end = gap;
    while (end > 0 && end < paragraph.length() && paragraph.charAt(end) == ' ') {
      end++;
    }
    return gap > 0 && end <= 12 ? end : 0;
  }

  private static String pad(String text, int width) {
    return text + " ".repeat(Math.max(0, width - length(text)));
  }

  private static int length(String text) {
    return text.codePointCount(0, text.length());
  }
}
