package tallyback.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.plan.Places;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;

/**
 * A plan to read rather than to write: tables whose rows know where in the file they stand. What
 * the plan leaves to the maker's manual is said in each place, so that a gap is never taken for
 * "none". Immutable.
 *
 * @param name what the job is called
 * @param machine the machine, and how left and right are meant
 * @param tables what there is; none is empty
 */
public record PlanView(String name, String machine, List<Table> tables) {

  private static final String FROM_MANUAL = "from your manual";

  /** Copies its list. */
  public PlanView {
    tables = List.copyOf(tables);
  }

  /**
   * A table.
   *
   * @param title what is in it
   * @param columns its columns; each has something in it
   * @param rows its rows, with as many cells
   */
  public record Table(String title, List<String> columns, List<Row> rows) {

    /** Copies its lists. */
    public Table {
      columns = List.copyOf(columns);
      rows = List.copyOf(rows);
    }
  }

  /**
   * A row.
   *
   * @param line where it stands in the file, from 1; 0 when that is not known
   * @param cells what is in it
   * @param below what to mind, in lines of their own
   */
  public record Row(int line, List<String> cells, List<String> below) {

    /** Copies its lists. */
    public Row {
      cells = List.copyOf(cells);
      below = List.copyOf(below);
    }
  }

  /**
   * A plan, or the draft of one.
   *
   * @param plan the plan
   * @param places where everything in it stands
   */
  public static PlanView of(Plan plan, Places places) {
    Tables tables = new Tables(plan, places);
    tables.steps();
    tables.items();
    tables.systems();
    tables.limits();
    tables.instruments();
    return new PlanView(
        plan.name(), plan.machine().name() + "; " + plan.machine().sides(), tables.all);
  }

  private static final class Tables {

    private final Plan plan;
    private final Places places;
    private final List<Table> all = new ArrayList<>();

    private Tables(Plan plan, Places places) {
      this.plan = plan;
      this.places = places;
    }

    private void add(String title, List<String> columns, List<Row> rows) {
      List<Integer> used =
          IntStream.range(0, columns.size())
              .filter(i -> rows.stream().anyMatch(row -> !row.cells().get(i).isEmpty()))
              .boxed()
              .toList();
      if (!rows.isEmpty()) {
        all.add(
            new Table(
                title,
                used.stream().map(columns::get).toList(),
                rows.stream()
                    .map(
                        row ->
                            new Row(
                                row.line(),
                                used.stream().map(row.cells()::get).toList(),
                                row.below()))
                    .toList()));
      }
    }

    private Row row(String id, List<String> below, String... cells) {
      return new Row(places.of(id).line(), Stream.of(cells).map(SafeText::visible).toList(), below);
    }

    private void steps() {
      List<Row> rows = new ArrayList<>();
      for (Step step : plan.steps()) {
        rows.add(
            row(
                step.id(),
                step.cautions().stream().map(SafeText::visible).toList(),
                String.valueOf(rows.size() + 1),
                step.label(),
                labels(step.off()),
                labels(step.on()),
                labels(step.needs()),
                step.states().stream().map(Tables::words).collect(Collectors.joining(", ")),
                step.minutes() == null ? "" : step.minutes() + " min"));
      }
      add(
          "Steps, in order",
          List.of("no.", "step", "comes off", "goes on", "only after", "said first", "takes"),
          rows);
    }

    private void items() {
      List<Row> rows = new ArrayList<>();
      for (Item item : plan.items()) {
        rows.add(
            row(
                item.id(),
                List.of(),
                item.label(),
                String.valueOf(item.count()),
                item.of() == null ? "" : plan.label(item.of()),
                either(item, "thread", item.thread()) + suffix(" ", item.grade()),
                either(item, "length", shown(item.length())),
                (either(item, "head", shown(item.head())) + suffix(" ", item.drive())).strip(),
                torque(item),
                marks(item)));
      }
      add(
          "What comes off and goes back",
          List.of("item", "how many", "of", "thread", "length", "head", "torque", "mind"),
          rows);
    }

    private String either(Item item, String field, @Nullable String value) {
      return value != null ? value : open(item.id(), field);
    }

    private String open(String subject, String field) {
      return plan.leavesOpen(subject, field) ? FROM_MANUAL : "";
    }

    private String torque(Item item) {
      Torque torque = item.torque();
      if (torque == null) {
        return open(item.id(), "torque");
      }
      StringBuilder says = new StringBuilder(torque.value().toString());
      if (torque.plus().equals(torque.minus())) {
        says.append(" ±").append(torque.plus());
      } else {
        says.append(" +").append(torque.plus()).append(" −").append(torque.minus());
      }
      if (torque.passes() > 1) {
        says.append(", in ").append(torque.passes()).append(" passes");
      }
      if (torque.angle() != null) {
        says.append(", then ").append(torque.angle());
      }
      if (torque.threads() != null) {
        says.append(", ").append(words(torque.threads()));
      }
      if (torque.sequence()) {
        says.append(", in sequence");
      }
      if (torque.againAfterHeat()) {
        says.append(", again after heat");
      }
      if (torque.againAfter() != null) {
        says.append(", again after ").append(torque.againAfter());
      }
      return says.append(" (").append(torque.toleranceFrom()).append(')').toString();
    }

    private static String marks(Item item) {
      return Stream.of(
              item.renew() ? "new each time" : "",
              item.stretch() ? "stretch bolt, new each time" : "",
              item.carryOver() ? "moves over to the new part" : "",
              item.temporary() ? "goes in for the job, must come out" : "",
              item.alignment() == null
                  ? ""
                  : "points to "
                      + item.alignment().angle()
                      + " ±"
                      + item.alignment().tolerance()
                      + " clockwise from the top")
          .filter(each -> !each.isEmpty())
          .collect(Collectors.joining("; "));
    }

    private void systems() {
      List<Row> rows = new ArrayList<>();
      for (FluidSystem system : plan.systems()) {
        rows.add(
            row(
                system.id(),
                List.of(),
                system.label(),
                plan.fluids().stream()
                    .filter(fluid -> fluid.id().equals(system.fluid()))
                    .map(fluid -> fluid.label() + ": " + fluid.grade())
                    .findFirst()
                    .orElse(""),
                system.capacity() == null
                    ? open(system.id(), "capacity")
                    : system.capacity().toString(),
                system.drains().stream()
                    .map(drain -> drain.label() + suffix(" ", shown(drain.share())))
                    .collect(Collectors.joining(", ")),
                system.fills().stream().map(Plan.Point::label).collect(Collectors.joining(", ")),
                system.marks().stream()
                    .map(mark -> mark.label() + (mark.cold() ? " (cold)" : ""))
                    .collect(Collectors.joining(", "))));
      }
      add(
          "Fluids",
          List.of("system", "filled with", "holds", "drained at", "filled at", "marks"),
          rows);
    }

    private void limits() {
      List<Row> rows = new ArrayList<>();
      for (Limit limit : plan.limits()) {
        String measure = words(limit.measure());
        String key = limit.measure().name().toLowerCase(Locale.ROOT).replace('_', '-');
        rows.add(
            row(
                limit.subject(),
                List.of(),
                plan.label(limit.subject()),
                measure,
                bound(limit, key, "from", limit.from()),
                bound(limit, key, "to", limit.to()),
                bound(limit, key, "drop", limit.drop()),
                limit.minutes() == null
                    ? open(limit.subject(), key + " minutes")
                    : limit.minutes() + " min"));
      }
      add(
          "Readings",
          List.of("of", "reading", "at least", "at most", "may fall by", "held for"),
          rows);
    }

    private String bound(Limit limit, String measure, String field, @Nullable Amount value) {
      return value != null ? value.toString() : open(limit.subject(), measure + " " + field);
    }

    private void instruments() {
      List<Row> rows = new ArrayList<>();
      for (Instrument tool : plan.instruments()) {
        rows.add(
            row(
                tool.id(),
                List.of(),
                tool.label(),
                words(tool.kind()),
                tool.from() + " to " + tool.to(),
                tool.tolerancePercent() != null
                    ? "±" + tool.tolerancePercent().toPlainString() + " %"
                    : tool.tolerance() == null ? "" : "±" + tool.tolerance(),
                tool.calibrated() == null ? "" : tool.calibrated()));
      }
      add(
          "Vessels, wrenches, gauges",
          List.of("name", "sort", "range", "exact to", "calibrated"),
          rows);
    }

    private String labels(List<String> ids) {
      return ids.stream().map(plan::label).collect(Collectors.joining(", "));
    }

    private static String words(Enum<?> value) {
      return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static @Nullable String shown(@Nullable Amount amount) {
      return amount == null ? null : amount.toString();
    }

    private static String suffix(String before, @Nullable String value) {
      return value == null ? "" : before + value;
    }
  }
}
