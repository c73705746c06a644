package tallyback.reconcile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.SecondCheck;
import tallyback.model.Statement.Tightened;
import tallyback.model.Unit;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Torque;
import tallyback.trade.TorqueUnits;

/**
 * How tight one group is, as told. Taking a fastener off undoes its tightness. A torque too low is
 * put right by a right one afterwards; one too high leaves bolt and thread suspect until they were
 * renewed, or a second person looked.
 */
final class Tightness {

  /** How a value stands to the maker's. */
  enum Fit {
    /** Inside the maker's range. */
    RIGHT,
    /** Outside, by less than the wrench can tell. */
    BORDERLINE,
    /** Too low. */
    LOW,
    /** Too high. */
    HIGH
  }

  /**
   * A value told, with how it stands.
   *
   * @param torque as said
   * @param atBolt what reaches the bolt, in newton metres
   */
  record Value(
      At<Statement> at,
      Tightened told,
      Amount torque,
      Rational atBolt,
      Fit fit,
      List<Unit> slips) {}

  /**
   * A torque told, in whichever pass and whatever the maker asks for.
   *
   * @param said as said
   * @param atBolt what reaches the bolt, in newton metres
   * @param count how many of the group
   */
  record Told(At<Statement> at, Tightened told, Amount said, Rational atBolt, int count) {}

  private final JobView job;
  private final Item item;
  private final List<Value> values = new ArrayList<>();
  private final List<Told> torques = new ArrayList<>();
  private int lastTorqued = -1;
  private final Set<Integer> passes = new TreeSet<>();
  private final List<Standing> evidence = new ArrayList<>();
  private final Set<String> told = new LinkedHashSet<>();
  private final List<Standing> noValue = new ArrayList<>();
  private int covered;
  private int tight;
  private int byFeel;
  private int loose;
  private int angleDone;
  private boolean inOrder;
  private @Nullable Amount angle;
  private Optional<Instrument> wrench = Optional.empty();

  Tightness(JobView job, Item item) {
    this.job = job;
    this.item = item;
    job.eventsOf(item.id()).forEach(this::take);
  }

  private void take(At<Statement> event) {
    if (event.statement() instanceof ItemsMoved moved) {
      takeOff(moved);
    } else if (event.statement() instanceof Tightened tightened) {
      if (tightened.count() == null || tightened.count() > 0) {
        take(event, tightened);
      }
    } else if (event.statement() instanceof SecondCheck) {
      forgetSuspects(event);
    }
  }

  private void takeOff(ItemsMoved moved) {
    if (moved.move() == ItemMove.OFF || moved.move() == ItemMove.SHEARED) {
      int off = number(moved.count());
      covered = Math.max(0, covered - off);
      tight = Math.max(0, tight - off);
      byFeel = Math.max(0, byFeel - off);
      loose = Math.max(0, loose - off);
      angleDone = Math.max(0, angleDone - off);
      if (off >= item.count()) {
        forgetLow();
        passes.clear();
        told.clear();
        inOrder = false;
        noValue.clear();
        wrench = Optional.empty();
      }
    } else if (moved.move() == ItemMove.NEW_ON && number(moved.count()) >= item.count()) {
      values.clear();
      torques.clear();
    }
  }

  private void take(At<Statement> event, Tightened tightened) {
    evidence.add(event.said());
    Optional<Instrument> named = job.index().instrument(tightened.wrench());
    told.add(inWords(job, tightened));
    inOrder |= tightened.order() != null;
    if (named.isPresent()) {
      wrench = named;
    }
    int count = number(tightened.count());
    boolean furtherPass = tightened.pass() != null && tightened.pass() > 1;
    tight =
        switch (tightened.state()) {
          case STARTED, HAND_TIGHT -> Math.max(0, tight - count);
          case BY_FEEL, TORQUED, ANGLE_DONE, CHECKED ->
              furtherPass ? tight : Math.min(item.count(), tight + count);
        };
    switch (tightened.state()) {
      case STARTED, HAND_TIGHT -> loose = Math.min(item.count(), loose + count);
      case BY_FEEL -> {
        byFeel = Math.min(item.count(), byFeel + count);
        loose = Math.max(0, loose - count);
      }
      case TORQUED, CHECKED -> torqued(event, tightened, count);
      case ANGLE_DONE -> {
        angleDone = Math.min(item.count(), angleDone + count);
        angle = tightened.angle() == null ? angle : tightened.angle();
      }
    }
    if (tightened.angle() != null && tightened.state() != Statement.TightnessState.ANGLE_DONE) {
      angle = tightened.angle();
      angleDone = Math.min(item.count(), angleDone + count);
    }
  }

  /** What was told, with what a torque through an adapter comes to at its other end. */
  static String inWords(JobView job, Tightened told) {
    Amount torque = told.torque();
    Optional<Instrument> wrench = job.index().instrument(told.wrench());
    return FindingText.tightness(
        told, torque == null ? null : Adapters.inWords(wrench, told, torque));
  }

  private void torqued(At<Statement> event, Tightened tightened, int count) {
    Amount value = tightened.torque();
    Torque spec = item.torque();
    lastTorqued = event.position();
    if (tightened.pass() != null) {
      passes.add(tightened.pass());
    }
    if (value == null || value.unit().dimension() != Dimension.TORQUE) {
      noValue.add(event.said());
      return;
    }
    Rational gain = Adapters.gain(job.index().instrument(tightened.wrench()), tightened);
    Rational atBolt = value.base().times(gain);
    torques.add(new Told(event, tightened, value, atBolt, count));
    if (spec == null) {
      settle(count);
      return;
    }
    boolean last = tightened.pass() == null || tightened.pass() >= spec.passes();
    if (tightened.pass() == null) {
      passes.add(spec.passes());
    }
    Fit fit = fit(spec, value, gain, tightened);
    if (!last && fit != Fit.HIGH) {
      return;
    }
    if (fit == Fit.RIGHT && count >= item.count()) {
      forgetLow();
    }
    values.add(new Value(event, tightened, value, atBolt, fit, slips(spec, value, gain, fit)));
    if (last) {
      settle(count);
    }
  }

  private void settle(int count) {
    covered = Math.min(item.count(), covered + count);
    loose = Math.max(0, loose - count);
    byFeel = Math.max(0, byFeel - count);
  }

  private void forgetLow() {
    values.removeIf(value -> value.fit() != Fit.HIGH);
  }

  /**
   * A second person who looked after the bolts were torqued rightly clears what was set too high
   * before.
   */
  private void forgetSuspects(At<Statement> check) {
    values.removeIf(value -> value.fit() == Fit.HIGH && value.at().position() < check.position());
    torques.removeIf(torque -> torque.at().position() < check.position());
  }

  private int number(@Nullable Integer count) {
    return count == null ? item.count() : count;
  }

  private Fit fit(Torque spec, Amount value, Rational gain, Tightened tightened) {
    Rational said = value.base().times(gain);
    Rational lowest = lowest(spec);
    Rational highest = highest(spec);
    Rational tolerance =
        job.index()
            .instrument(tightened.wrench())
            .map(each -> Adapters.toleranceAtBolt(each, tightened, value))
            .orElse(Rational.ZERO);
    if (said.compareTo(lowest) >= 0 && said.compareTo(highest) <= 0) {
      return Fit.RIGHT;
    }
    boolean high = said.compareTo(highest) > 0;
    Rational beyond = high ? said.minus(highest) : lowest.minus(said);
    if (beyond.compareTo(tolerance) <= 0) {
      return Fit.BORDERLINE;
    }
    return high ? Fit.HIGH : Fit.LOW;
  }

  private static List<Unit> slips(Torque spec, Amount value, Rational gain, Fit fit) {
    return fit == Fit.HIGH || fit == Fit.LOW
        ? TorqueUnits.slips(value, lowest(spec).dividedBy(gain), highest(spec).dividedBy(gain))
        : List.of();
  }

  /** Lowest right value in newton metres. */
  static Rational lowest(Torque spec) {
    return spec.value().base().minus(Tolerances.span(spec.minus()));
  }

  /** Highest right value in newton metres. */
  static Rational highest(Torque spec) {
    return spec.value().base().plus(Tolerances.span(spec.plus()));
  }

  /** Values that are outside the maker's range and still stand. */
  List<Value> outside() {
    return values.stream()
        .filter(value -> value.fit() == Fit.HIGH || value.fit() == Fit.LOW)
        .toList();
  }

  List<Value> borderline() {
    return values.stream().filter(value -> value.fit() == Fit.BORDERLINE).toList();
  }

  /** Every torque told that nobody has looked at since, the first first. */
  List<Told> torques() {
    return torques;
  }

  /** Place of the last entry that told of a torque or of a check, or -1. */
  int lastTorqued() {
    return lastTorqued;
  }

  List<Value> values() {
    return values;
  }

  /** How many were torqued in the last pass, with a value; never more than are on the machine. */
  int covered() {
    int onMachine = Math.max(0, job.account(item).count(Account.MACHINE));
    return Math.min(covered, onMachine);
  }

  /** How many were said to be tight in any way that is finished; hand tight is not. */
  int tight() {
    return tight;
  }

  int byFeel() {
    return byFeel;
  }

  /** How many were last said to be started or hand tight. */
  int loose() {
    return loose;
  }

  Set<Integer> passes() {
    return passes;
  }

  boolean toldWithoutValue() {
    return !noValue.isEmpty();
  }

  /** True when somebody said in which order, since the group last came off. */
  boolean inOrder() {
    return inOrder;
  }

  int angleDone() {
    return angleDone;
  }

  Optional<Amount> angle() {
    return Optional.ofNullable(angle);
  }

  Optional<Instrument> wrench() {
    return wrench;
  }

  List<Standing> evidence() {
    return evidence;
  }

  /** What was told since the group last came off, in words; empty when nothing was. */
  String told() {
    return String.join(", then ", told);
  }
}
