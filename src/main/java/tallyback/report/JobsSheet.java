package tallyback.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tallyback.history.Comparison;
import tallyback.history.Trends;

/**
 * A sheet about several jobs, as finished texts: a page that needs nothing else and prints in ink,
 * or lines for a terminal. Everything said or named in a plan is escaped. Immutable.
 *
 * @param title what it is
 * @param subtitle of what
 * @param lead what to know first
 * @param parts what it shows
 */
public record JobsSheet(String title, String subtitle, List<String> lead, List<Part> parts) {

  private static final int WIDTH = 100;
  private static final int LEAST_COLUMN = 8;

  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, JobsSheet.class.getClassLoader(), "tallyback.report");

  /** Copies the lists. */
  public JobsSheet {
    lead = List.copyOf(lead);
    parts = List.copyOf(parts);
  }

  /**
   * A part of it.
   *
   * @param id for links to it
   * @param heading what it shows
   * @param notes how it is to be read
   * @param chart a picture of it, or null
   * @param table its table, or null
   */
  record Part(
      String id, String heading, List<String> notes, @Nullable Chart chart, @Nullable Table table) {

    Part {
      notes = List.copyOf(notes);
      table = table == null ? null : withoutEmptyColumns(table);
    }
  }

  /** A table; every row as many cells as there are columns. */
  record Table(List<String> columns, List<Row> rows) {
    Table {
      columns = List.copyOf(columns);
      rows = List.copyOf(rows);
    }
  }

  /** A row, with a mark for the eye that its words say too: {@code differs} or empty. */
  record Row(String style, List<Cell> cells) {
    Row {
      cells = List.copyOf(cells);
    }

    static Row of(String style, String... texts) {
      return new Row(style, Arrays.stream(texts).map(text -> new Cell(text, "")).toList());
    }
  }

  /** A cell; its link is empty where it leads nowhere. */
  record Cell(String text, String link) {}

  /** Where a job is to be found, by its id; in a file nowhere, which is the empty text. */
  public static final UnaryOperator<String> NO_LINKS = job -> "";

  /**
   * Two jobs side by side.
   *
   * @param links where a job is to be found
   */
  public static JobsSheet of(Comparison comparison, UnaryOperator<String> links) {
    return new ComparisonSheet(comparison, links).sheet();
  }

  /**
   * What changes on a machine.
   *
   * @param machine what to call it
   * @param lead what to know first
   * @param links where a job is to be found
   */
  public static JobsSheet of(
      Trends trends, String machine, List<String> lead, UnaryOperator<String> links) {
    return new TrendSheet(trends, links).sheet(machine, lead);
  }

  /** How a sheet looks, to be vouched for by whoever serves it. */
  public static String style() {
    return HtmlRecord.resource("jobs.css");
  }

  /** The page as text, to be written as UTF-8. */
  public String page() {
    return page("", "");
  }

  /**
   * The page with a way back.
   *
   * @param back where to; empty for nowhere
   * @param backSays what it says
   */
  public String page(String back, String backSays) {
    StringOutput page = new StringOutput();
    TEMPLATES.render("jobs.jte", new Shown(this, style(), back, backSays), page);
    return SafeText.visible(page.toString());
  }

  /** What the template takes. */
  record Shown(JobsSheet sheet, String style, String back, String backSays) {}

  /** As lines for a terminal, at most 100 columns wide. */
  public String text() {
    StringBuilder out = new StringBuilder();
    lines(out, title + ": " + subtitle);
    lead.forEach(line -> lines(out, line));
    for (Part part : parts) {
      out.append('\n');
      lines(out, part.heading().toUpperCase(Locale.ENGLISH));
      if (part.table() != null) {
        out.append(table(part.table()));
      }
      part.notes().forEach(note -> lines(out, note));
    }
    return out.toString();
  }

  private static void lines(StringBuilder out, String text) {
    Columns.wrap(text.replace('\n', ' '), WIDTH).forEach(line -> out.append(line).append('\n'));
  }

  private static String table(Table table) {
    Columns columns = new Columns(widths(table));
    columns.row(table.columns().toArray(String[]::new));
    columns.rule();
    for (Row row : table.rows()) {
      columns.row(
          row.cells().stream().map(cell -> cell.text().replace('\n', ' ')).toArray(String[]::new));
    }
    return columns.toString();
  }

  private static Table withoutEmptyColumns(Table table) {
    List<Integer> kept = new ArrayList<>();
    for (int column = 0; column < table.columns().size(); column++) {
      int at = column;
      if (table.rows().stream().anyMatch(row -> !row.cells().get(at).text().isEmpty())) {
        kept.add(column);
      }
    }
    return new Table(
        kept.stream().map(table.columns()::get).toList(),
        table.rows().stream()
            .map(row -> new Row(row.style(), kept.stream().map(row.cells()::get).toList()))
            .toList());
  }

  /** As wide as what is in them, the widest narrowed until all fit. */
  private static int[] widths(Table table) {
    int[] widths = new int[table.columns().size()];
    for (int column = 0; column < widths.length; column++) {
      int at = column;
      widths[column] =
          Math.max(
              table.columns().get(column).length(),
              table.rows().stream()
                  .mapToInt(row -> row.cells().get(at).text().length())
                  .max()
                  .orElse(0));
      widths[column] = Math.max(1, widths[column]);
    }
    int room = WIDTH - 2 * (widths.length - 1);
    while (Arrays.stream(widths).sum() > room) {
      int widest = 0;
      for (int column = 1; column < widths.length; column++) {
        if (widths[column] > widths[widest]) {
          widest = column;
        }
      }
      if (widths[widest] <= LEAST_COLUMN) {
        break;
      }
      widths[widest]--;
    }
    return widths;
  }
}
