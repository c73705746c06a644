package tallyback.planning;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleFunction;
import java.util.stream.Collectors;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;

/** How what was learned is told. English only. */
public final class LearnedText {

  private static final int WIDTH = 28;

  private LearnedText() {}

  /** All that was learned, as lines for people. */
  public static List<String> lines(PastJobs learned) {
    List<String> lines = new ArrayList<>();
    int jobs = learned.jobs().size();
    lines.add(
        "Learned from "
            + (jobs == 1 ? "1 closed job" : jobs + " closed jobs")
            + " of \""
            + learned.plan().name()
            + "\": "
            + String.join(", ", learned.jobs()));
    section(lines, "MINUTES, pauses left out", minutes(learned), learned.plan().steps().isEmpty());
    section(lines, "DRAINED", drained(learned), false);
    section(lines, "FLUIDS USED", filled(learned), false);
    section(lines, "TOOLS NAMED", counted(learned.tools(), jobs), false);
    section(lines, "HEADS", counted(learned.heads(), jobs), false);
    section(lines, "STUCK, STRIPPED OR BROKEN", counted(learned.stuck(), jobs), false);
    lines.add("");
    lines.add("Torques and limits are never learned: they stand in your manual.");
    return lines;
  }

  private static void section(List<String> lines, String title, List<String> rows, boolean leave) {
    if (leave) {
      return;
    }
    lines.add("");
    lines.add(title);
    lines.addAll(rows.isEmpty() ? List.of("  nothing was told") : rows);
  }

  private static List<String> minutes(PastJobs learned) {
    List<String> rows = new ArrayList<>();
    for (Step step : learned.plan().steps()) {
      Sample sample = learned.minutes().get(step.id());
      rows.add(
          row(step.label(), sample == null ? "never told from start to end" : minutes(sample)));
    }
    return rows;
  }

  private static List<String> drained(PastJobs learned) {
    List<String> rows = new ArrayList<>();
    for (FluidSystem system : learned.plan().systems()) {
      for (Point point : system.drains()) {
        Sample sample = learned.drained().get(point.id());
        if (sample != null) {
          rows.add(row(point.label(), litres(sample)));
        }
      }
    }
    return rows;
  }

  private static List<String> filled(PastJobs learned) {
    List<String> rows = new ArrayList<>();
    learned
        .filled()
        .forEach((fluid, sample) -> rows.add(row(learned.plan().label(fluid), litres(sample))));
    rows.sort(String::compareTo);
    return rows;
  }

  private static List<String> counted(Map<String, Integer> names, int jobs) {
    List<String> rows = new ArrayList<>();
    names.forEach((name, count) -> rows.add(row(name, "in " + count + " of " + jobs)));
    return rows;
  }

  private static String row(String name, String what) {
    return String.format(Locale.ROOT, "  %-" + WIDTH + "s  %s", name, what);
  }

  static String minutes(Sample sample) {
    return spread(sample, value -> number(value, 0), "min");
  }

  static String litres(Sample sample) {
    return spread(sample, value -> number(value, 2), "L");
  }

  /** With few jobs each value says more than a spread. */
  private static String spread(Sample sample, DoubleFunction<String> number, String unit) {
    if (sample.jobs() == 1) {
      return number.apply(sample.median()) + " " + unit + " in 1 job";
    }
    String median = "median " + number.apply(sample.median()) + " " + unit;
    String of = " of " + sample.jobs() + " jobs";
    return sample.jobs() < Sample.ENOUGH_FOR_QUARTILES
        ? median
            + of
            + ": "
            + sample.values().stream().map(number::apply).collect(Collectors.joining(", "))
        : median
            + of
            + ", interquartile range "
            + number.apply(sample.quantile(25))
            + " to "
            + number.apply(sample.quantile(75));
  }

  private static String number(double value, int decimals) {
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString();
  }

  /** Remarks in a plan that has learned. */
  record InPlan(PastJobs learned) implements PlanWriter.Remarks {

    @Override
    public List<String> ofFile() {
      int jobs = learned.jobs().size();
      return List.of(
          "Minutes and drained shares are learned from "
              + (jobs == 1 ? "1 closed job" : jobs + " closed jobs")
              + ": "
              + String.join(", ", learned.jobs())
              + ".",
          "Torques and limits are as they were written.");
    }

    @Override
    public List<String> of(Named named) {
      Sample minutes = learned.minutes().get(named.id());
      if (named instanceof Step && minutes != null) {
        return List.of("minutes: " + minutes(minutes));
      }
      Sample litres = learned.drained().get(named.id());
      List<String> lines = new ArrayList<>();
      if (named instanceof Point && litres != null) {
        lines.add("share: " + litres(litres));
      }
      Integer stuck = learned.stuck().get(named.label());
      if (stuck != null && !(named instanceof Step)) {
        lines.add("stuck, stripped or broken in " + stuck + " of " + learned.jobs().size());
      }
      return lines;
    }
  }
}
