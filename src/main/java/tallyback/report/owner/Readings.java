package tallyback.report.owner;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Rational;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Warmth;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Limit;
import tallyback.reconcile.Outcome;
import tallyback.report.ShopTime;
import tallyback.report.Wording;
import tallyback.report.owner.OwnerPage.Reading;

/** What was measured, how well it is known, and what it should be. Meter readings are elsewhere. */
final class Readings {

  private static final String IN = "in range";
  private static final String OUT = "OUT OF RANGE";
  private static final String NEAR = "at the limit: the instrument can't tell";
  private static final String RIGHT = "right";
  private static final String WRONG = "wrong";

  private final Plan plan;
  private final Outcome outcome;
  private final PlainAmounts amounts;
  private final ShopTime time;

  Readings(Plan plan, Outcome outcome, PlainAmounts amounts, ShopTime time) {
    this.plan = plan;
    this.outcome = outcome;
    this.amounts = amounts;
    this.time = time;
  }

  List<Reading> lines() {
    List<Reading> lines = new ArrayList<>();
    for (Entry entry : outcome.standing()) {
      if (entry.statement() instanceof Measured measured && isForTheTable(measured)) {
        lines.add(line(entry, measured));
      }
    }
    return lines;
  }

  String note() {
    return lines().stream().noneMatch(line -> line.measured().contains("give or take"))
        ? ""
        : "\u201cGive or take\u201d: how far a reading may be off with the instrument used.";
  }

  private static boolean isForTheTable(Measured measured) {
    return measured.measure() != Measure.HOURS && measured.measure() != Measure.DISTANCE;
  }

  private Reading line(Entry entry, Measured measured) {
    String subject = measured.subject();
    String what = (subject == null ? "" : plan.label(subject) + ", ") + measure(measured.measure());
    String at = ", " + time.at(entry.happenedAt(), entry.zone());
    if (!entry.confirmed()) {
      return reading(what + at, "not understood for certain", "", "NOT KNOWN", WRONG);
    }
    Amount amount = measured.amount();
    Level level = measured.level();
    if (amount == null) {
      return reading(
          what + at,
          level(measured, level),
          "at " + mark(measured),
          levelJudged(level),
          styleOf(level));
    }
    if (amount.unitUnsaid()) {
      return reading(what + at, amount + ", unit not said", "", "NOT KNOWN", WRONG);
    }
    Optional<Limit> limit = limit(measured);
    String expected = limit.map(Readings::bounds).orElse("");
    Optional<Instrument> instrument =
        Optional.ofNullable(measured.instrument()).flatMap(plan::instrument);
    String giveOrTake =
        instrument.map(each -> ", " + tolerance(each, amounts)).orElse("; instrument not said");
    String judged = limit.map(each -> judged(amount, each, instrument)).orElse("no limit given");
    return reading(
        what + at,
        amounts.inText(amount.toString(), expected.isEmpty() ? List.of() : List.of(expected))
            + warmth(measured.warmth())
            + giveOrTake,
        limit.map(each -> bounds(each, amount)).orElse(""),
        judged,
        judged.equals(OUT) ? WRONG : RIGHT);
  }

  private static Reading reading(
      String what, String measured, String expected, String judged, String style) {
    return new Reading(
        PageMaker.sentence(Wording.together(what)),
        Wording.together(measured),
        expected.isEmpty() ? "\u2013" : Wording.together(expected),
        judged,
        style);
  }

  private Optional<Limit> limit(Measured measured) {
    return plan.limits().stream()
        .filter(each -> each.measure() == measured.measure())
        .filter(each -> measured.subject() == null || each.subject().equals(measured.subject()))
        .filter(each -> comparable(each, measured.amount()))
        .findFirst();
  }

  private static boolean comparable(Limit limit, @Nullable Amount amount) {
    Amount bound = limit.from() == null ? limit.to() : limit.from();
    return bound != null && amount != null && bound.unit().dimension() == amount.unit().dimension();
  }

  private static String bounds(Limit limit) {
    Amount from = limit.from();
    Amount to = limit.to();
    if (from != null && to != null) {
      return from + " to " + to;
    }
    return from != null ? "at least " + from : "at most " + to;
  }

  private String bounds(Limit limit, Amount beside) {
    Amount from = limit.from();
    Amount to = limit.to();
    return from != null && to != null
        ? amounts.range(from, to, List.of(beside))
        : amounts.inText(bounds(limit), List.of(beside.toString()));
  }

  private static String judged(Amount amount, Limit limit, Optional<Instrument> instrument) {
    Rational value = amount.base();
    Amount from = limit.from();
    Amount to = limit.to();
    if ((from != null && value.compareTo(from.base()) < 0)
        || (to != null && value.compareTo(to.base()) > 0)) {
      return OUT;
    }
    Rational reach = instrument.map(each -> reach(each, amount)).orElse(Rational.ZERO);
    boolean near =
        (from != null && value.minus(reach).compareTo(from.base()) < 0)
            || (to != null && value.plus(reach).compareTo(to.base()) > 0);
    return near ? NEAR : IN;
  }

  /** How far a reading may be off, in the base unit without its nought. */
  private static Rational reach(Instrument instrument, Amount amount) {
    Amount tolerance = instrument.tolerance();
    if (tolerance != null) {
      return Rational.of(tolerance.value()).times(tolerance.unit().factor()).abs();
    }
    return instrument.tolerancePercent() == null
        ? Rational.ZERO
        : Rational.of(amount.value())
            .times(amount.unit().factor())
            .times(Rational.of(instrument.tolerancePercent()))
            .dividedBy(Rational.of(100, 1))
            .abs();
  }

  /** "give or take 2 °C", "give or take 4 %". */
  static String tolerance(Instrument instrument, PlainAmounts amounts) {
    Amount tolerance = instrument.tolerance();
    if (tolerance != null) {
      return amounts.inText("give or take " + tolerance);
    }
    return instrument.tolerancePercent() == null
        ? "how exact is not known"
        : "give or take " + new Amount(instrument.tolerancePercent(), Unit.PERCENT);
  }

  private String level(Measured measured, @Nullable Level level) {
    String mark = mark(measured);
    String stands =
        level == null
            ? "not said"
            : switch (level) {
              case BELOW -> "below " + mark;
              case AT -> "at " + mark;
              case ABOVE -> "above " + mark;
            };
    return stands + warmth(measured.warmth());
  }

  private String mark(Measured measured) {
    return measured.mark() == null ? "the mark" : "the " + plan.label(measured.mark());
  }

  private static String levelJudged(@Nullable Level level) {
    return level == null
        ? "NOT KNOWN"
        : switch (level) {
          case BELOW -> "TOO LOW";
          case AT -> "at the mark";
          case ABOVE -> "ABOVE THE MARK";
        };
  }

  private static String styleOf(@Nullable Level level) {
    return level == Level.AT ? RIGHT : WRONG;
  }

  private static String warmth(@Nullable Warmth warmth) {
    return warmth == null ? "" : warmth == Warmth.COLD ? ", cold" : ", hot";
  }

  private static String measure(Measure measure) {
    return switch (measure) {
      case TEMPERATURE -> "temperature";
      case LEVEL -> "level";
      case PRESSURE -> "pressure";
      case GAP -> "gap or play";
      case THICKNESS -> "thickness";
      case VOLTAGE -> "voltage";
      case CURRENT -> "current";
      case RESISTANCE -> "resistance";
      case SPEED -> "engine speed";
      case HOURS -> "hours";
      case DISTANCE -> "distance";
      case STRENGTH -> "frost protection";
    };
  }
}
