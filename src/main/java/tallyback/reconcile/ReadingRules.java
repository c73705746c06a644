package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Weight;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Limit;
import tallyback.trade.Uncertainty;

/** Levels, pressures and every other reading. */
final class ReadingRules implements Rule {

  private static final Kind LEVEL_BELOW = Kind.stop("level-below-mark", Kind.ALL).whileUnfinished();
  private static final Kind LEVEL_FALLEN =
      Kind.check("level-fallen", Kind.AFTER_TEST).following("level-below-mark");
  private static final Kind PRESSURE_FALLEN = Kind.check("pressure-fallen", Kind.AFTER_TEST);
  private static final Kind NOT_COMPARABLE = Kind.check("hold-not-comparable", Kind.AFTER_TEST);
  private static final Kind HOLD_SHORT =
      Kind.check("hold-too-short", Kind.AFTER_TEST)
          .following("pressure-fallen", "hold-not-comparable");
  private static final Kind READ_HOT =
      Kind.check("level-read-hot", Kind.AFTER_TEST).following("level-below-mark");
  private static final Kind OUTSIDE = Kind.stop("reading-outside", Kind.AFTER_TEST);

  /**
   * Peaks count even when a later reading is right again; of everything else the last reading
   * holds.
   */
  private static final Set<Measure> PEAKS = EnumSet.of(Measure.TEMPERATURE, Measure.PRESSURE);

  private static final Set<MachineState> ENDS_A_HOLD =
      EnumSet.of(
          MachineState.PRESSURE_OFF,
          MachineState.CAP_OPEN,
          MachineState.RUNNING,
          MachineState.STOPPED,
          MachineState.HOT,
          MachineState.COLD);

  @Override
  public List<Kind> kinds() {
    return List.of(
        LEVEL_BELOW, LEVEL_FALLEN, READ_HOT, PRESSURE_FALLEN, NOT_COMPARABLE, HOLD_SHORT, OUTSIDE);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (FluidSystem system : job.plan().systems()) {
      levels(job, system, found);
    }
    pressures(job, found);
    job.plan().limits().forEach(limit -> limit(job, limit, found));
  }

  private static void levels(JobView job, FluidSystem system, Drafts found) {
    List<At<Measured>> levels = job.levelsOf(system.id());
    if (levels.isEmpty()) {
      return;
    }
    At<Measured> last = levels.get(levels.size() - 1);
    boolean below = last.statement().level() == Level.BELOW;
    boolean toppedUp = addedAfter(job, system, last.position());
    if (job.readHotAtColdMark(last)) {
      found
          .add(READ_HOT, system.id(), system.label())
          .with("mark", markLabel(job, last))
          .with("when", FindingText.when(last.said()))
          .seenIn(last.said());
    }
    if (below && !toppedUp) {
      found
          .add(LEVEL_BELOW, system.id(), system.label())
          .with("mark", markLabel(job, last))
          .with("when", FindingText.when(last.said()))
          .seenIn(last.said());
    }
    if (below && toppedUp) {
      fallen(system, found)
          .with("found", FindingText.LEVEL_NOT_READ_AGAIN)
          .with("mark", markLabel(job, last))
          .seenIn(last.said());
    } else if (!job.levelSettled(system)) {
      lastFall(job, system, levels)
          .ifPresent(
              pair ->
                  fallen(system, found)
                      .with("found", FindingText.levelFell(pair.get(0), pair.get(1)))
                      .with("mark", markLabel(job, pair.get(1)))
                      .seenIn(pair.get(0).said())
                      .seenIn(pair.get(1).said()));
    }
  }

  private static Draft fallen(FluidSystem system, Drafts found) {
    return found.add(LEVEL_FALLEN, system.id(), system.label());
  }

  private static boolean addedAfter(JobView job, FluidSystem system, int position) {
    return job.fluidOf(system.id()).stream()
        .filter(each -> each.position() > position)
        .anyMatch(ReadingRules::adds);
  }

  private static boolean adds(At<FluidMoved> moved) {
    return moved.statement().move() == FluidMove.IN
        || moved.statement().move() == FluidMove.PUT_BACK;
  }

  private static boolean takes(At<FluidMoved> moved) {
    return !adds(moved) && moved.statement().move() != FluidMove.TO_WASTE;
  }

  /** Walks back through levels and moves together, so that each is looked at once. */
  private static Optional<List<At<Measured>>> lastFall(
      JobView job, FluidSystem system, List<At<Measured>> levels) {
    List<At<FluidMoved>> taken =
        job.fluidOf(system.id()).stream().filter(ReadingRules::takes).toList();
    int lastTaken = taken.size() - 1;
    for (int later = levels.size() - 1; later > 0; later--) {
      At<Measured> before = levels.get(later - 1);
      At<Measured> after = levels.get(later);
      while (lastTaken >= 0 && taken.get(lastTaken).position() > after.position()) {
        lastTaken--;
      }
      boolean takenBetween = lastTaken >= 0 && taken.get(lastTaken).position() > before.position();
      if (rank(after) < rank(before)
          && comparable(before.statement(), after.statement())
          && !takenBetween) {
        return Optional.of(List.of(before, after));
      }
    }
    return Optional.empty();
  }

  /** Higher is fuller. */
  private static int rank(At<Measured> reading) {
    Level level = reading.statement().level();
    if (level == null) {
      return 0;
    }
    return switch (level) {
      case BELOW -> -1;
      case AT -> 0;
      case ABOVE -> 1;
    };
  }

  /**
   * Only readings of one mark and of one warmth can be compared; what was not said is taken to be
   * the same.
   */
  private static boolean comparable(Measured before, Measured after) {
    return same(before.mark(), after.mark()) && same(before.warmth(), after.warmth());
  }

  private static boolean same(@Nullable Object one, @Nullable Object other) {
    return one == null || other == null || one.equals(other);
  }

  private static String markLabel(JobView job, At<Measured> reading) {
    String mark = reading.statement().mark();
    return mark == null ? FindingText.THE_MARK : job.index().label(mark);
  }

  private static void pressures(JobView job, Drafts found) {
    Map<String, List<At<Measured>>> bySubject = new LinkedHashMap<>();
    for (At<Measured> reading : job.readings(Measure.PRESSURE)) {
      Measured measured = reading.statement();
      if (measured.amount() != null && !measured.amount().unitUnsaid()) {
        String subject = measured.subject() == null ? "" : measured.subject();
        bySubject.computeIfAbsent(subject, key -> new ArrayList<>()).add(reading);
      }
    }
    bySubject.forEach((subject, readings) -> hold(job, subject, lastHold(job, readings), found));
  }

  /** The readings since the pressure was last let off or the engine last changed its state. */
  private static List<At<Measured>> lastHold(JobView job, List<At<Measured>> readings) {
    int last = readings.get(readings.size() - 1).position();
    return readings.stream()
        .filter(each -> !job.states().anyBetween(each.position(), last, ENDS_A_HOLD))
        .toList();
  }

  private static void hold(JobView job, String subject, List<At<Measured>> readings, Drafts found) {
    At<Measured> last = readings.get(readings.size() - 1);
    At<Measured> highest = highest(readings);
    Rational drop = base(highest).minus(base(last));
    Rational uncertainty = uncertaintyOfDrop(job, highest, last);
    Optional<Limit> limit = holdLimit(job, subject);
    Rational allowed = limit.map(Limit::drop).map(Tolerances::span).orElse(Rational.ZERO);
    String key = subject.isEmpty() ? "pressure" : subject;
    String label = subject.isEmpty() ? FindingText.PRESSURE : job.index().label(subject);
    Warming warming = Warming.between(job, subject, highest, last).orElse(null);
    if (readings.size() > 1) {
      limit.ifPresent(each -> heldLongEnough(key, label, each, readings, found));
    }
    if (warming != null && warming.changeOf(base(highest)).compareTo(uncertainty) > 0) {
      notComparable(key, label, highest, last, warming, found);
    } else if (drop.minus(allowed).compareTo(uncertainty) > 0) {
      Amount shown = amountOf(last);
      found
          .add(PRESSURE_FALLEN, key, label)
          .with("temperatures", warming == null ? "" : warming.inWords())
          .with("allowed", limit.map(Limit::drop).map(FindingText::allowedDrop).orElse(""))
          .with("first", amountOf(highest))
          .with("last", shown)
          .with("minutes", minutes(highest, last))
          .with("drop", FindingText.inUnit(drop, shown.unit()))
          .with("uncertainty", FindingText.inUnit(uncertainty, shown.unit()))
          .with("origin", gauge(job, last).map(Tolerances::inWords).orElse(FindingText.NO_GAUGE))
          .seenIn(highest.said())
          .seenIn(last.said());
    }
  }

  private static Optional<Limit> holdLimit(JobView job, String subject) {
    List<Limit> holds =
        job.plan().limits().stream()
            .filter(each -> each.measure() == Measure.PRESSURE)
            .filter(each -> each.drop() != null || each.minutes() != null)
            .filter(each -> subject.isEmpty() || each.subject().equals(subject))
            .toList();
    return holds.size() == 1 ? Optional.of(holds.get(0)) : Optional.empty();
  }

  private static void notComparable(
      String key,
      String label,
      At<Measured> first,
      At<Measured> last,
      Warming warming,
      Drafts found) {
    Amount shown = amountOf(last);
    found
        .add(NOT_COMPARABLE, key, label)
        .with("first", amountOf(first))
        .with("last", shown)
        .with("temperatures", warming.inWords())
        .with("change", FindingText.inUnit(warming.changeOf(base(first)), shown.unit()))
        .seenIn(first.said())
        .seenIn(last.said())
        .seenIn(warming.said());
  }

  private static void heldLongEnough(
      String key, String label, Limit limit, List<At<Measured>> readings, Drafts found) {
    Integer wanted = limit.minutes();
    long held = minutes(readings.get(0), readings.get(readings.size() - 1));
    if (wanted != null && held < wanted) {
      found
          .add(HOLD_SHORT, key, label)
          .with("wanted", wanted)
          .with("held", held)
          .seenIn(readings.stream().map(At::said).toList());
    }
  }

  /** Scale errors of one gauge are fully correlated; how finely each was read is not. */
  private static Rational uncertaintyOfDrop(JobView job, At<Measured> first, At<Measured> last) {
    List<Uncertainty.Component> components = new ArrayList<>();
    addComponents(job, components, first, 1);
    addComponents(job, components, last, -1);
    return Tolerances.roundedUp(Uncertainty.expanded(components));
  }

  private static void addComponents(
      JobView job, List<Uncertainty.Component> components, At<Measured> reading, int sign) {
    String own = reading.said().entry().id();
    Amount amount = amountOf(reading);
    Rational scale = Tolerances.halfWidthOrNone(gauge(job, reading).orElse(null), amount);
    components.add(
        new Uncertainty.Component(
            gauge(job, reading).map(Instrument::id).orElse(own), sign * scale.toDouble()));
    Rational figure = Tolerances.halfLastDigit(amount);
    Rational readTo = scale.signum() > 0 && scale.compareTo(figure) < 0 ? scale : figure;
    components.add(new Uncertainty.Component("reading of " + own, sign * readTo.toDouble()));
  }

  private static Optional<Instrument> gauge(JobView job, At<Measured> reading) {
    return job.index().instrument(reading.statement().instrument());
  }

  private static Amount amountOf(At<Measured> reading) {
    Amount amount = reading.statement().amount();
    if (amount == null) {
      throw new IllegalStateException("only readings with an amount are compared");
    }
    return amount;
  }

  private static Rational base(At<Measured> reading) {
    return amountOf(reading).base();
  }

  private static long minutes(At<Measured> first, At<Measured> last) {
    return java.time.Duration.between(first.happenedAt(), last.happenedAt()).toMinutes();
  }

  private static void limit(JobView job, Limit limit, Drafts found) {
    List<At<Measured>> readings =
        job.readings(limit.measure()).stream()
            .filter(each -> meant(job, limit, each.statement()))
            .toList();
    if (readings.isEmpty()) {
      return;
    }
    At<Measured> reading =
        PEAKS.contains(limit.measure()) ? highest(readings) : readings.get(readings.size() - 1);
    Amount amount = amountOf(reading);
    if (!within(limit, amount)) {
      outside(job, limit, reading, amount, found);
    }
  }

  private static At<Measured> highest(List<At<Measured>> readings) {
    At<Measured> highest = readings.get(0);
    for (At<Measured> each : readings) {
      if (base(each).compareTo(base(highest)) > 0) {
        highest = each;
      }
    }
    return highest;
  }

  private static boolean meant(JobView job, Limit limit, Measured measured) {
    if (measured.measure() != limit.measure()
        || measured.amount() == null
        || !comparableWith(limit, measured.amount())) {
      return false;
    }
    if (measured.subject() != null) {
      return measured.subject().equals(limit.subject());
    }
    return job.plan().limits().stream().filter(each -> each.measure() == limit.measure()).count()
        == 1;
  }

  private static boolean comparableWith(Limit limit, Amount amount) {
    return sameDimension(limit.from(), amount) && sameDimension(limit.to(), amount);
  }

  private static boolean sameDimension(@Nullable Amount bound, Amount amount) {
    return bound == null || bound.unit().dimension() == amount.unit().dimension();
  }

  /** True when a reading is known and inside a limit. */
  static boolean within(Limit limit, @Nullable Amount amount) {
    return amount != null && comparableWith(limit, amount) && beyond(limit, amount).signum() <= 0;
  }

  /** How far outside, in base units; nought or less when inside. */
  private static Rational beyond(Limit limit, Amount amount) {
    Rational value = amount.base();
    if (limit.to() != null && value.compareTo(limit.to().base()) > 0) {
      return value.minus(limit.to().base());
    }
    if (limit.from() != null && value.compareTo(limit.from().base()) < 0) {
      return limit.from().base().minus(value);
    }
    return Rational.ZERO;
  }

  private static void outside(
      JobView job, Limit limit, At<Measured> reading, Amount amount, Drafts found) {
    Optional<Instrument> gauge = gauge(job, reading);
    Rational tolerance = Tolerances.halfWidthOrNone(gauge.orElse(null), amount);
    boolean gaugeCanTell = beyond(limit, amount).compareTo(tolerance) > 0;
    String what = FindingText.measure(limit.measure());
    Draft draft =
        found
            .add(
                OUTSIDE,
                limit.subject() + " " + limit.measure(),
                job.index().label(limit.subject()) + ", " + what)
            .about(List.of(limit.subject()))
            .with("limit", FindingText.range(limit.from(), limit.to()))
            .with("value", amount)
            .with("beyond", FindingText.inUnit(beyond(limit, amount), amount.unit()))
            .with("origin", gauge.map(Tolerances::inWords).orElse(FindingText.NO_GAUGE))
            .seenIn(reading.said());
    if (!gaugeCanTell) {
      draft.weighs(Weight.NOTE, List.of());
    } else {
      draft.weighs(Weight.STOP, PEAKS.contains(limit.measure()) ? Kind.ALL : Kind.AFTER_TEST);
    }
  }
}
