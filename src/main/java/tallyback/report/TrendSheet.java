package tallyback.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.UnaryOperator;
import tallyback.history.Trends;
import tallyback.history.Trends.Control;
import tallyback.history.Trends.Point;
import tallyback.history.Trends.Series;
import tallyback.history.Trends.What;
import tallyback.model.Unit;
import tallyback.report.JobsSheet.Cell;
import tallyback.report.JobsSheet.Part;
import tallyback.report.JobsSheet.Row;
import tallyback.report.JobsSheet.Table;

/** What changes on a machine from job to job, in words and charts. English only. */
final class TrendSheet {

  private static final String MINUS = "\u2212";

  private final Trends trends;
  private final UnaryOperator<String> links;

  TrendSheet(Trends trends, UnaryOperator<String> links) {
    this.trends = trends;
    this.links = links;
  }

  JobsSheet sheet(String machine, List<String> lead) {
    List<String> first = new ArrayList<>(lead);
    int jobs = trends.jobs().size();
    first.add(jobs == 1 ? "1 job is on record." : jobs + " jobs are on record.");
    if (trends.series().isEmpty()) {
      first.add("Nothing that could be followed was told in any of them.");
    }
    first.add(Wording.DEFERRAL);
    List<Part> parts = new ArrayList<>();
    for (int index = 0; index < trends.series().size(); index++) {
      parts.add(part("trend-" + (index + 1), trends.series().get(index)));
    }
    return new JobsSheet("From job to job", machine, first, parts);
  }

  private Part part(String id, Series series) {
    String heading = heading(series);
    List<String> notes = new ArrayList<>();
    boolean enough = series.points().size() > 1;
    if (!enough) {
      notes.add("Told in one job only: that is no trend yet.");
    }
    if (series.low() != null || series.high() != null) {
      notes.add("By the plan of the newest job: " + bounds(series) + ". " + outside(series));
    }
    control(series, notes);
    if (series.points().stream().anyMatch(point -> point.mayBeOff() != null)) {
      notes.add("The bar through a point, and \u00b1, is how far it may be off.");
    }
    return new Part(
        id,
        heading,
        notes,
        enough ? Chart.of(series, heading, links, point -> says(series, point)) : null,
        table(series));
  }

  private static String outside(Series series) {
    long many = series.points().stream().filter(point -> isOutside(series, point)).count();
    return many == 0
        ? "None lies outside."
        : many == 1
            ? "1 lies outside: drawn as a square."
            : many + " lie outside: drawn as squares.";
  }

  private static void control(Series series, List<String> notes) {
    Control control = series.control();
    if (control != null) {
      notes.add(
          "Thin line: the mean of the "
              + control.jobs()
              + " jobs before the newest, "
              + value(series, control.mean())
              + ". Dotted: three sigma from it, "
              + value(series, control.lower())
              + " to "
              + value(series, control.upper())
              + (control.byJugs()
                  ? ", sigma being how well it can be read, as the values lie closer than that"
                  : ", sigma from their moving range")
              + " (chart of individuals, NIST/SEMATECH e-Handbook 6.3.2.2). It is no limit of the"
              + " maker's.");
    } else if (series.what() != What.METER && series.points().size() > 1) {
      notes.add(
          "Too few jobs to say what is usual: from "
              + (Trends.ENOUGH + 1)
              + " on its spread is drawn.");
    }
  }

  static boolean isOutside(Series series, Point point) {
    Double low = series.low();
    Double high = series.high();
    return (low != null && point.value() < low - 1e-9)
        || (high != null && point.value() > high + 1e-9);
  }

  private static String heading(Series series) {
    String subject = series.subject();
    String unit = series.what() == What.WORKED ? "" : ", in " + unit(series.unit());
    return switch (series.what()) {
          case WORKED -> "Time worked";
          case METER -> "Meter of the machine";
          case MISSING -> "Missing from the " + subject;
          case DRAINED -> "Came out of the " + subject;
          case TORQUE_FOUND -> "Found when checked: " + subject;
          case READING ->
              (subject.isEmpty() ? "" : subject + ": ")
                  + StatementText.measure(
                      Objects.requireNonNull(series.measure(), "a reading is of something"));
        }
        + unit;
  }

  private static String unit(Unit unit) {
    return unit.symbol();
  }

  private static String bounds(Series series) {
    Double low = series.low();
    Double high = series.high();
    if (low != null && high != null) {
      return value(series, low) + " to " + value(series, high);
    }
    return low != null
        ? "at least " + value(series, low)
        : "at most " + value(series, Objects.requireNonNull(high));
  }

  private String says(Series series, Point point) {
    return point.job()
        + ", "
        + ShopTime.fullDay(point.at(), point.zone())
        + ": "
        + withReach(series, point)
        + (isOutside(series, point) ? ", outside the plan's limits" : "");
  }

  private static String withReach(Series series, Point point) {
    Double off = point.mayBeOff();
    return off == null
        ? value(series, point.value())
        : number(series, point.value())
            + " \u00b1 "
            + BigDecimal.valueOf(off).setScale(decimals(series), RoundingMode.UP).toPlainString()
            + " "
            + unit(series.unit());
  }

  private Table table(Series series) {
    List<Row> rows = new ArrayList<>();
    for (Point point : series.points()) {
      boolean outside = isOutside(series, point);
      rows.add(
          new Row(
              outside ? "differs" : "",
              List.of(
                  new Cell(point.job(), links.apply(point.job())),
                  new Cell(ShopTime.fullDay(point.at(), point.zone()), ""),
                  new Cell(withReach(series, point), ""),
                  new Cell(outside ? "outside the plan's limits" : "", ""))));
    }
    return new Table(List.of("job", "opened", "value", "note"), rows);
  }

  private static int decimals(Series series) {
    return series.unit() == Unit.LITRE ? 2 : series.unit() == Unit.KILOPASCAL ? 0 : 1;
  }

  private static String number(Series series, double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals(series), RoundingMode.HALF_UP);
    return (rounded.signum() < 0 ? MINUS : "") + rounded.abs().toPlainString();
  }

  private static String value(Series series, double value) {
    if (series.what() == What.WORKED) {
      String took = ShopTime.took(Duration.ofSeconds(Math.round(Math.abs(value) * 3600)));
      return value < 0 ? MINUS + took : took;
    }
    return number(series, value) + " " + unit(series.unit());
  }
}
