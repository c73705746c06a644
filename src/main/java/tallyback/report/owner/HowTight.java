package tallyback.report.owner;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;
import tallyback.report.Wording;
import tallyback.report.owner.OwnerPage.Line;
import tallyback.report.owner.OwnerPage.Torque;

/**
 * How tight everything was told to be, with what wrench, and when that was calibrated. What the
 * maker asks for is shown as a range; where the plan has no figure, what was told is not judged.
 */
final class HowTight {

  private static final DateTimeFormatter SHORT_DATE =
      DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);
  private static final String NO_FIGURE = "no figure in the plan";
  private static final String NOT_JUDGED = "not judged";

  private final Plan plan;
  private final Outcome outcome;
  private final PlainAmounts amounts;

  HowTight(Plan plan, Outcome outcome, PlainAmounts amounts) {
    this.plan = plan;
    this.outcome = outcome;
    this.amounts = amounts;
  }

  /** The sums of it, and the wrenches. */
  List<Line> lines() {
    List<TightnessLine> byTheMaker =
        outcome.tightness().stream().filter(line -> wanted(line) != null).toList();
    int others = torques().size() - byTheMaker.size();
    List<Line> lines = new ArrayList<>();
    if (!byTheMaker.isEmpty()) {
      lines.add(new Line("", sums(byTheMaker)));
    }
    if (others > 0) {
      lines.add(
          new Line(
              "",
              (byTheMaker.isEmpty() ? "The plan has no figures for tightening. " : "")
                  + "What was told of "
                  + groups(others)
                  + " without a figure in the plan stands in annex A and is not judged."));
    }
    if (lines.isEmpty()) {
      lines.add(new Line("", "Nothing was laid down or told about tightening."));
    }
    plan.instruments().stream()
        .filter(each -> each.kind() == Plan.InstrumentKind.WRENCH)
        .filter(each -> torques().stream().anyMatch(row -> uses(row, each)))
        .forEach(each -> lines.add(wrench(each)));
    return lines.stream()
        .map(each -> new Line(each.label(), Wording.together(each.text())))
        .toList();
  }

  private static boolean uses(Torque row, Plan.Instrument wrench) {
    return row.wrench().startsWith(wrench.label() + ",");
  }

  private static String sums(List<TightnessLine> lines) {
    return "For "
        + groups(lines.size())
        + " the maker says how tight. Told to be tightened as he asks: "
        + count(lines, TightnessStatus.RIGHT)
        + "; differently: "
        + count(lines, TightnessStatus.WRONG)
        + "; only some of a group: "
        + count(lines, TightnessStatus.PARTLY)
        + "; not told for certain: "
        + count(lines, TightnessStatus.UNSAID)
        + ". Each stands in annex A, with its wrench and when that was calibrated.";
  }

  private static String groups(int count) {
    return count + (count == 1 ? " group" : " groups");
  }

  private static long count(List<TightnessLine> lines, TightnessStatus status) {
    return lines.stream().filter(line -> line.status() == status).count();
  }

  private Line wrench(Plan.Instrument wrench) {
    return new Line(
        PageMaker.sentence(wrench.label()),
        "made for "
            + amounts.range(wrench.from(), wrench.to())
            + ", "
            + Readings.tolerance(wrench, amounts)
            + "; "
            + (wrench.calibrated() == null ? "" : "calibrated ")
            + calibrated(wrench));
  }

  /** One row for each group that the maker has a figure for, or that something was told of. */
  List<Torque> torques() {
    List<Torque> rows = new ArrayList<>(outcome.tightness().stream().map(this::row).toList());
    Set<String> there =
        outcome.tightness().stream().map(TightnessLine::item).collect(Collectors.toSet());
    Map<String, List<Tightened>> others = new LinkedHashMap<>();
    for (Entry entry : outcome.standing()) {
      if (entry.confirmed()
          && entry.statement() instanceof Tightened told
          && told.item() != null
          && !there.contains(told.item())) {
        others.computeIfAbsent(told.item(), item -> new ArrayList<>()).add(told);
      }
    }
    others.forEach((item, told) -> rows.add(other(item, told)));
    return rows;
  }

  private Torque row(TightnessLine line) {
    Plan.Torque wanted = wanted(line);
    boolean silent = line.told().isBlank();
    String bare =
        line.told()
            .replaceAll("(\\d+) torqued to ", "$1 of them: ")
            .replace("torqued to ", "")
            .replaceAll(" \\(pass (\\d+)\\)", " in round $1");
    List<String> beside =
        wanted == null ? List.of() : List.of(least(wanted) + " to " + most(wanted));
    return new Torque(
        line.count() + " \u00d7 " + line.label(),
        wanted == null
            ? NO_FIGURE
            : Wording.together(amounts.range(least(wanted), most(wanted)) + passes(wanted)),
        wanted == null ? "" : wanted.toleranceFrom(),
        silent
            ? "nothing told for certain"
            : Wording.together(amounts.inText(PlainFindings.plain(bare), beside)),
        silent ? "\u2013" : with(line.wrench()),
        wanted == null && line.status() == TightnessStatus.RIGHT
            ? NOT_JUDGED
            : judged(line.status()),
        line.status() == TightnessStatus.RIGHT ? "right" : "wrong");
  }

  private Plan.@Nullable Torque wanted(TightnessLine line) {
    return plan.item(line.item()).map(Plan.Item::torque).orElse(null);
  }

  private Torque other(String item, List<Tightened> told) {
    String count = plan.item(item).map(each -> each.count() + " \u00d7 ").orElse("");
    Tightened last = told.get(told.size() - 1);
    String wrench = last.wrench();
    return new Torque(
        count + plan.label(item),
        NO_FIGURE,
        "",
        Wording.together(
            told.stream().map(this::words).distinct().collect(Collectors.joining(", then "))),
        with(wrench == null ? null : plan.label(wrench)),
        NOT_JUDGED,
        "right");
  }

  private String words(Tightened told) {
    Amount torque = told.torque();
    if (torque != null) {
      return torque.unitUnsaid() ? torque + " (unit not said)" : amounts.of(torque);
    }
    return state(told.state());
  }

  private static String state(TightnessState state) {
    return switch (state) {
      case STARTED -> "threads started";
      case HAND_TIGHT -> "hand tight";
      case BY_FEEL -> "tight by feel";
      case TORQUED -> "tightened, no figure told";
      case ANGLE_DONE -> "turned further";
      case CHECKED -> "looked at again";
    };
  }

  private static Amount least(Plan.Torque wanted) {
    return new Amount(
        wanted.value().value().subtract(wanted.minus().value()), wanted.value().unit());
  }

  private static Amount most(Plan.Torque wanted) {
    return new Amount(wanted.value().value().add(wanted.plus().value()), wanted.value().unit());
  }

  private static String passes(Plan.Torque wanted) {
    return (wanted.passes() > 1 ? ", in " + wanted.passes() + " rounds" : "")
        + (wanted.angle() == null ? "" : ", then " + wanted.angle() + " further");
  }

  private static String judged(TightnessStatus status) {
    return switch (status) {
      case RIGHT -> "as the maker asks";
      case WRONG -> "NOT as the maker asks";
      case PARTLY -> "NOT ALL of them";
      case UNSAID -> "NOT KNOWN";
    };
  }

  private String with(@Nullable String wrench) {
    if (wrench == null) {
      return "not said";
    }
    return wrench
        + ", "
        + plan.instruments().stream()
            .filter(each -> each.label().equals(wrench))
            .findFirst()
            .map(HowTight::calibrated)
            .orElse("calibration not known");
  }

  private static String calibrated(Plan.Instrument wrench) {
    String date = wrench.calibrated();
    if (date == null) {
      return "calibration not known";
    }
    try {
      return SHORT_DATE.format(LocalDate.parse(date)).replace(' ', '\u00a0');
    } catch (DateTimeParseException asWritten) {
      return date;
    }
  }
}
