package tallyback.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tallyback.history.Comparison;
import tallyback.history.Comparison.Fluid;
import tallyback.history.Comparison.Found;
import tallyback.history.Comparison.In;
import tallyback.history.Comparison.Reading;
import tallyback.history.Comparison.Step;
import tallyback.history.Comparison.Tells;
import tallyback.history.Comparison.Torque;
import tallyback.history.ToldJob;
import tallyback.model.Amount;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Rational;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.Measured;
import tallyback.reconcile.MovedFluid.Litres;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.report.JobsSheet.Cell;
import tallyback.report.JobsSheet.Part;
import tallyback.report.JobsSheet.Row;
import tallyback.report.JobsSheet.Table;

/** Two jobs side by side, in words. English only. */
final class ComparisonSheet {

  private static final String DIFFERS = "differs";
  private static final String NOTHING = "\u2013";
  private static final String MINUS = "\u2212";

  private final Comparison comparison;
  private final ToldJob one;
  private final ToldJob other;
  private final UnaryOperator<String> links;

  ComparisonSheet(Comparison comparison, UnaryOperator<String> links) {
    this.comparison = comparison;
    this.one = comparison.one();
    this.other = comparison.other();
    this.links = links;
  }

  JobsSheet sheet() {
    List<String> lead = new ArrayList<>();
    if (!comparison.samePlan()) {
      lead.add(
          "These are jobs of different plans. Only what both plans call by the same name is held"
              + " against each other; what both name so need not be the same thing.");
    }
    lead.add(Wording.DEFERRAL);
    return new JobsSheet(
        "Two jobs side by side",
        one.id() + " and " + other.id(),
        lead,
        List.of(jobs(), findings(), fluids(), steps(), torques(), readings(), renewed()));
  }

  private Part part(String id, String heading, List<Row> rows, String none, String... columns) {
    return rows.isEmpty()
        ? new Part(id, heading, List.of(none), null, null)
        : new Part(id, heading, List.of(), null, new Table(List.of(columns), rows));
  }

  private static Part noted(Part part, String... notes) {
    return part.table() == null
        ? part
        : new Part(part.id(), part.heading(), List.of(notes), null, part.table());
  }

  private Part jobs() {
    List<Row> rows = new ArrayList<>();
    rows.add(
        new Row(
            "",
            List.of(
                new Cell("job", ""),
                new Cell(one.id(), links.apply(one.id())),
                new Cell(other.id(), links.apply(other.id())))));
    rows.add(Row.of("", "plan", one.plan().name(), other.plan().name()));
    rows.add(Row.of("", "machine", machine(one), machine(other)));
    rows.add(
        Row.of(
            "",
            "opened",
            ShopTime.full(one.openedAt(), one.zone()),
            ShopTime.full(other.openedAt(), other.zone())));
    rows.add(Row.of("", "worked", ShopTime.took(one.worked()), ShopTime.took(other.worked())));
    for (Stage stage : Stage.values()) {
      String first = Wording.answer(Wording.answer(one.outcome().verdict(), stage));
      String second = Wording.answer(Wording.answer(other.outcome().verdict(), stage));
      rows.add(Row.of(first.equals(second) ? "" : DIFFERS, Wording.question(stage), first, second));
    }
    return part("jobs", "The jobs", rows, "", "what", one.id(), other.id());
  }

  private static String machine(ToldJob job) {
    String serial = job.plan().machine().serial();
    return job.plan().machine().name() + (serial == null ? "" : ", no. " + serial);
  }

  private Part findings() {
    List<Row> rows = new ArrayList<>();
    for (Found found : comparison.findings()) {
      Finding any = found.any();
      rows.add(
          Row.of(
              found.in() == In.BOTH ? "" : DIFFERS,
              Wording.weight(any.weight()),
              any.subject(),
              in(found.in()),
              found.one() == null ? NOTHING : found.one().inShort(),
              found.other() == null ? NOTHING : found.other().inShort()));
    }
    return noted(
        part(
            "findings",
            "Findings",
            rows,
            "Nothing was found in either.",
            "weight",
            "about",
            "found in",
            one.id(),
            other.id()),
        "What was not found in one of them may only not have been told there.");
  }

  private String in(In in) {
    return switch (in) {
      case BOTH -> "both";
      case ONE -> one.id() + " only";
      case OTHER -> other.id() + " only";
    };
  }

  private Part fluids() {
    List<Row> rows = new ArrayList<>();
    for (Fluid fluid : comparison.fluids()) {
      rows.add(
          Row.of(
              fluid.tells() == Tells.DIFFERS ? DIFFERS : "",
              fluid.label() + ", " + side(fluid.side()),
              litres(fluid.one(), false),
              litres(fluid.other(), false),
              litres(fluid.difference(), true),
              tells(fluid.tells())));
    }
    return noted(
        part(
            "fluids",
            "Fluids",
            rows,
            "No fluid was told of in either.",
            "amount",
            one.id(),
            other.id(),
            other.id() + " less " + one.id(),
            "which is"),
        "\u00b1 is how far an amount may be off (k = 2); of a difference the root of the sum of both"
            + " squares (JCGM 100:2008, 5.1.2), of what is missing their plain sum, as one jug's"
            + " error may count twice. A difference smaller than that is none.");
  }

  private static String side(Comparison.Side side) {
    return switch (side) {
      case OUT -> "came out";
      case IN -> "went in";
      case MISSING -> "missing";
    };
  }

  private static String tells(Tells tells) {
    return switch (tells) {
      case DIFFERS -> "more than the jugs can be off";
      case WITHIN -> "none that the jugs can tell";
      case UNTOLD -> "not known: not told in full";
    };
  }

  private static String litres(@Nullable Litres litres, boolean signed) {
    if (litres == null) {
      return NOTHING;
    }
    BigDecimal value = rounded(litres.value(), RoundingMode.HALF_UP);
    String sign = value.signum() < 0 ? MINUS : signed && value.signum() > 0 ? "+" : "";
    return sign
        + value.abs().toPlainString()
        + " \u00b1 "
        + rounded(litres.mayBeOff(), RoundingMode.UP).toPlainString()
        + " L";
  }

  private static BigDecimal rounded(Rational value, RoundingMode mode) {
    return value.toBigDecimal().setScale(2, mode);
  }

  private Part steps() {
    List<Row> rows = new ArrayList<>();
    for (Step step : comparison.steps()) {
      if (step.one() != null || step.other() != null) {
        rows.add(Row.of("", step.label(), took(step.one()), took(step.other()), longer(step)));
      }
    }
    return noted(
        part(
            "steps",
            "Steps, time worked",
            rows,
            "No step was told from start to end in either.",
            "step",
            one.id(),
            other.id(),
            other.id() + " took"),
        "Pauses are left out. Times are only told, never judged.");
  }

  private static String took(@Nullable Duration took) {
    return took == null ? "not told" : ShopTime.took(took);
  }

  private static String longer(Step step) {
    Duration longer = step.longer();
    if (longer == null) {
      return NOTHING;
    }
    if (longer.abs().toSeconds() < 30) {
      return "as long";
    }
    return ShopTime.took(longer.abs()) + (longer.isNegative() ? " less" : " more");
  }

  private Part torques() {
    List<Row> rows = new ArrayList<>();
    for (Torque torque : comparison.torques()) {
      String first = tight(torque.one());
      String second = tight(torque.other());
      rows.add(
          Row.of(
              first.equals(second) ? "" : DIFFERS,
              torque.label(),
              expected(torque),
              first,
              second));
    }
    return part(
        "torques",
        "Tightness",
        rows,
        "No torque stands in both plans.",
        "group",
        "plan",
        one.id(),
        other.id());
  }

  private String expected(Torque torque) {
    String first = torque.one().expected();
    String second = torque.other().expected();
    return first.equals(second) ? first : first + "; in " + other.id() + " " + second;
  }

  private static String tight(TightnessLine line) {
    String told = line.told().isEmpty() ? "" : ": " + line.told();
    return switch (line.status()) {
      case RIGHT -> "right" + told;
      case WRONG -> "WRONG" + told;
      case PARTLY -> "IN PART" + told;
      case UNSAID -> "never said";
    };
  }

  private Part readings() {
    List<Row> rows = new ArrayList<>();
    for (Reading reading : comparison.readings()) {
      String first = reading(reading.one(), one);
      String second = reading(reading.other(), other);
      rows.add(
          Row.of(
              "",
              (reading.subject().isEmpty() ? "" : reading.subject() + ", ")
                  + StatementText.measure(reading.measure()),
              first,
              second));
    }
    return noted(
        part(
            "readings",
            "Measured, the last time in each",
            rows,
            "Nothing was measured in either.",
            "what",
            one.id(),
            other.id()),
        "How far a reading may be off stands in the record of its job.");
  }

  private static String reading(@Nullable Measured measured, ToldJob job) {
    if (measured == null) {
      return "not told";
    }
    Amount amount = measured.amount();
    Level level = measured.level();
    if (amount != null) {
      return amount.toString();
    }
    String mark = measured.mark() == null ? "the mark" : job.plan().label(measured.mark());
    return level == null
        ? "not told"
        : switch (level) {
          case BELOW -> "below " + mark;
          case AT -> "at " + mark;
          case ABOVE -> "above " + mark;
        };
  }

  private Part renewed() {
    List<Row> rows = new ArrayList<>();
    comparison
        .renewed()
        .forEach(
            part ->
                rows.add(Row.of(part.in() == In.BOTH ? "" : DIFFERS, part.label(), in(part.in()))));
    return part(
        "renewed", "Parts renewed", rows, "No new part was told of in either.", "part", "in");
  }
}
