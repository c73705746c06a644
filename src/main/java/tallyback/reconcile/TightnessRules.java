package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Torque;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;
import tallyback.trade.TorqueWrench;

/** Every fastener tight, and by the maker's figure. */
final class TightnessRules implements Rule {

  private static final String[] ROOTS = {
    "left-in-tray",
    "missing",
    "said-not-counted",
    "more-off-than-plan",
    "step-not-done",
    "step-not-finished",
    "step-skipped",
    "unit-unsaid",
    "amount-unusable"
  };

  private static final Kind UNIT_SLIP = Kind.stop("unit-slip", Kind.ALL);
  private static final Kind OUTSIDE = Kind.stop("torque-outside", Kind.ALL);
  private static final Kind BORDERLINE = Kind.note("torque-borderline");
  private static final Kind WRENCH_RANGE =
      Kind.check("wrench-range", Kind.ALL).following("unit-slip", "torque-outside");
  private static final Kind UNSAID =
      Kind.check("torque-unsaid", Kind.ALL).following(ROOTS).whileUnfinished();
  private static final Kind NOT_SAID =
      Kind.check("tightness-unsaid", Kind.ALL).following(ROOTS).whileUnfinished();
  private static final Kind HAND_TIGHT =
      Kind.stop("hand-tight-only", Kind.ALL).following("left-in-tray").whileUnfinished();
  private static final Kind BY_FEEL = Kind.check("tight-by-feel", Kind.AFTER_TEST);
  private static final Kind PARTLY =
      Kind.check("torque-partly", Kind.ALL).following(ROOTS).whileUnfinished();
  private static final Kind PASSES =
      Kind.check("passes-missing", Kind.ALL).following(ROOTS).whileUnfinished();
  private static final Kind ANGLE_UNSAID =
      Kind.check("angle-unsaid", Kind.ALL)
          .following("left-in-tray", "missing", "torque-unsaid", "torque-partly", "passes-missing")
          .whileUnfinished();
  private static final Kind ANGLE_DIFFERS = Kind.stop("angle-differs", Kind.ALL);

  /** What a turn too few leaves loose; clips, pins and clamps are on or off. */
  private static final Set<Thing> THREADED =
      EnumSet.of(Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.STUD, Thing.PLUG);

  @Override
  public List<Kind> kinds() {
    return List.of(
        UNIT_SLIP,
        OUTSIDE,
        BORDERLINE,
        WRENCH_RANGE,
        UNSAID,
        NOT_SAID,
        HAND_TIGHT,
        BY_FEEL,
        PARTLY,
        PASSES,
        ANGLE_UNSAID,
        ANGLE_DIFFERS);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (Item item : job.plan().items()) {
      if (item.temporary() || !job.expected(item)) {
        continue;
      }
      Tightness tightness = job.tightness(item);
      if (item.torque() != null) {
        values(job, item, item.torque(), tightness, found);
        coverage(job, item, item.torque(), tightness, found);
      } else if (tightness.loose() > 0) {
        handTight(job, item, tightness, found);
      } else if (judgedWithoutTorque(job, item) && tightness.tight() < item.count()) {
        start(NOT_SAID, job, item, tightness, found)
            .with("tight", tightness.tight())
            .seenIn(job.evidenceOf(item));
      }
    }
  }

  private static Draft start(Kind kind, JobView job, Item item, Tightness told, Drafts found) {
    return found
        .add(kind, item.id(), item.label())
        .restingOn(job.stepsFitting(item))
        .with("count", item.count())
        .with("told", told.told().isEmpty() ? FindingText.NOTHING : told.told())
        .seenIn(told.evidence());
  }

  private static void values(
      JobView job, Item item, Torque spec, Tightness tightness, Drafts found) {
    for (Tightness.Value value : tightness.outside()) {
      Kind kind = value.slips().isEmpty() ? OUTSIDE : UNIT_SLIP;
      boolean high = value.fit() == Tightness.Fit.HIGH;
      Draft draft =
          found
              .add(kind, item.id(), item.label())
              .with("spec", FindingText.torque(spec))
              .with("source", spec.toleranceFrom())
              .with("value", Adapters.inWords(job, value))
              .with("number", value.torque().value().toPlainString())
              .with("units", FindingText.units(value.slips()))
              .with("difference", difference(spec, value))
              .with("wrench", wrenchOrigin(job, value))
              .with("remedy", high ? FindingText.TOO_HIGH : FindingText.TOO_LOW)
              .seenIn(value.at().said());
      draft.with("inMakersUnit", FindingText.inUnit(value.atBolt(), spec.value().unit()));
    }
    for (Tightness.Value value : tightness.borderline()) {
      found
          .add(BORDERLINE, item.id(), item.label())
          .with("spec", FindingText.torque(spec))
          .with("source", spec.toleranceFrom())
          .with("value", Adapters.inWords(job, value))
          .with("difference", difference(spec, value))
          .with("wrench", wrenchOrigin(job, value))
          .seenIn(value.at().said());
    }
    for (Tightness.Value value : tightness.values()) {
      wrenchRange(job, item, value, found);
    }
  }

  private static String difference(Torque spec, Tightness.Value value) {
    Rational said = value.atBolt();
    boolean high = said.compareTo(spec.value().base()) > 0;
    Rational beyond =
        high ? said.minus(Tightness.highest(spec)) : Tightness.lowest(spec).minus(said);
    String amount = FindingText.inUnit(beyond, spec.value().unit());
    return amount + (high ? FindingText.ABOVE_RANGE : FindingText.BELOW_RANGE);
  }

  private static String wrenchOrigin(JobView job, Tightness.Value value) {
    return job.index()
        .instrument(value.told().wrench())
        .map(Tolerances::inWords)
        .orElse(FindingText.WRENCH_NOT_SAID);
  }

  private static void wrenchRange(JobView job, Item item, Tightness.Value value, Drafts found) {
    Instrument wrench = job.index().instrument(value.told().wrench()).orElse(null);
    if (wrench == null
        || wrench.from().unit().dimension() != Dimension.TORQUE
        || wrench.to().unit().dimension() != Dimension.TORQUE) {
      return;
    }
    Rational said = Adapters.shown(wrench, value.told(), value.torque().base());
    boolean inRange =
        said.compareTo(wrench.from().base()) >= 0 && said.compareTo(wrench.to().base()) <= 0;
    boolean promised =
        !Tolerances.byClass(wrench)
            || TorqueWrench.promised(said.toDouble(), wrench.to().base().toDouble());
    if (!inRange || !promised) {
      found
          .add(WRENCH_RANGE, item.id(), item.label())
          .with("wrench", wrench.label())
          .with(
              "range",
              FindingText.range(wrench.from(), wrench.to())
                  + (inRange ? FindingText.NOTHING_PROMISED : FindingText.FROM_PLAN))
          .with("value", Adapters.inWords(job, value))
          .seenIn(value.at().said());
    }
  }

  private static void coverage(
      JobView job, Item item, Torque spec, Tightness tightness, Drafts found) {
    if (tightness.loose() > 0 && tightness.covered() < item.count()) {
      handTight(job, item, tightness, found);
    } else if (tightness.byFeel() > 0 && tightness.covered() < item.count()) {
      start(BY_FEEL, job, item, tightness, found)
          .with("number", tightness.byFeel())
          .with("spec", FindingText.torque(spec));
    } else if (passesMissing(spec, tightness)) {
      start(PASSES, job, item, tightness, found)
          .with("passes", spec.passes())
          .with("said", FindingText.numbers(tightness.passes()));
    } else if (tightness.values().isEmpty() && tightness.covered() == 0) {
      start(UNSAID, job, item, tightness, found)
          .with("spec", FindingText.torque(spec))
          .with(
              "found",
              tightness.toldWithoutValue()
                  ? FindingText.TIGHT_NO_VALUE
                  : FindingText.TIGHT_NEVER_SAID)
          .seenIn(job.evidenceOf(item));
    } else if (tightness.covered() < item.count()) {
      start(PARTLY, job, item, tightness, found)
          .with("spec", FindingText.torque(spec))
          .with("covered", tightness.covered())
          .with("left", item.count() - tightness.covered());
    }
    angle(job, item, spec, tightness, found);
  }

  private static void handTight(JobView job, Item item, Tightness tightness, Drafts found) {
    start(HAND_TIGHT, job, item, tightness, found)
        .with("number", tightness.loose())
        .with(
            "spec", item.torque() == null ? FindingText.TIGHT : FindingText.torque(item.torque()));
  }

  private static boolean passesMissing(Torque spec, Tightness tightness) {
    Set<Integer> passes = tightness.passes();
    return spec.passes() > 1 && !passes.isEmpty() && passes.size() < spec.passes();
  }

  private static void angle(
      JobView job, Item item, Torque spec, Tightness tightness, Drafts found) {
    Amount planned = spec.angle();
    if (planned == null) {
      return;
    }
    if (tightness.angleDone() < item.count()) {
      start(ANGLE_UNSAID, job, item, tightness, found)
          .with("angle", planned)
          .with("done", tightness.angleDone());
    }
    if (angleDiffers(spec, tightness)) {
      start(ANGLE_DIFFERS, job, item, tightness, found)
          .with("angle", planned)
          .with("said", tightness.angle().map(Amount::toString).orElse(""));
    }
  }

  /** One line per group that must be tight, in plan order. */
  static List<TightnessLine> lines(JobView job) {
    List<TightnessLine> lines = new ArrayList<>();
    for (Item item : job.plan().items()) {
      Torque spec = item.torque();
      if (spec == null && judgedWithoutTorque(job, item)) {
        lines.add(withoutTorque(job, item));
      } else if (spec != null) {
        Tightness tightness = job.tightness(item);
        lines.add(
            new TightnessLine(
                item.id(),
                item.label(),
                item.count(),
                FindingText.torque(spec) + " (" + spec.toleranceFrom() + ")",
                tightness.told(),
                tightness.wrench().map(Instrument::label).orElse(null),
                status(item, spec, tightness),
                tightness.evidence().stream()
                    .flatMap(said -> said.evidence().stream())
                    .distinct()
                    .toList()));
      }
    }
    return lines;
  }

  /** Drawn from a tear-down, a plan knows no torque; tight it must be all the same. */
  private static boolean judgedWithoutTorque(JobView job, Item item) {
    return THREADED.contains(item.thing())
        && !item.temporary()
        && job.plan().basis() == Plan.Basis.TEAR_DOWN
        && (job.account(item).mentioned() || !job.tightness(item).told().isEmpty());
  }

  private static TightnessLine withoutTorque(JobView job, Item item) {
    Tightness tightness = job.tightness(item);
    boolean whole = tightness.loose() == 0 && tightness.tight() >= item.count();
    TightnessStatus status = whole ? TightnessStatus.RIGHT : TightnessStatus.PARTLY;
    return new TightnessLine(
        item.id(),
        item.label(),
        item.count(),
        FindingText.TIGHT_SOMEHOW,
        tightness.told(),
        tightness.wrench().map(Instrument::label).orElse(null),
        tightness.told().isEmpty() ? TightnessStatus.UNSAID : status,
        tightness.evidence().stream()
            .flatMap(said -> said.evidence().stream())
            .distinct()
            .toList());
  }

  private static TightnessStatus status(Item item, Torque spec, Tightness tightness) {
    if (!tightness.outside().isEmpty() || angleDiffers(spec, tightness)) {
      return TightnessStatus.WRONG;
    }
    if (tightness.told().isEmpty()) {
      return TightnessStatus.UNSAID;
    }
    boolean whole =
        tightness.covered() >= item.count()
            && (spec.angle() == null || tightness.angleDone() >= item.count())
            && !passesMissing(spec, tightness);
    return whole ? TightnessStatus.RIGHT : TightnessStatus.PARTLY;
  }

  private static boolean angleDiffers(Torque spec, Tightness tightness) {
    Amount planned = spec.angle();
    Amount said = tightness.angle().orElse(null);
    return planned != null
        && said != null
        && said.unit() == Unit.DEGREE
        && said.base().compareTo(planned.base()) != 0;
  }
}
