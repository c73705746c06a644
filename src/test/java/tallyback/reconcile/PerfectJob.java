package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.Warmth;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;

/**
 * Tells a job of any plan as a careful mechanic would: everything done in order, counted, torqued,
 * read and said.
 */
final class PerfectJob {

  private final Plan plan;
  private final Random random;
  private final Telling job = new Telling();
  private final List<String> drained = new ArrayList<>();

  private PerfectJob(Plan plan, Random random) {
    this.plan = plan;
    this.random = random;
  }

  static Telling of(Plan plan, Random random) {
    PerfectJob perfect = new PerfectJob(plan, random);
    perfect.tell();
    return perfect.job;
  }

  private void tell() {
    boolean ran = false;
    for (Step step : plan.steps()) {
      boolean isRun = step.states().contains(MachineState.GUARDS_ON);
      if (isRun) {
        fillAndClose();
      }
      step.states().forEach(this::say);
      mark(step, StepMark.STARTED);
      step.off().forEach(id -> plan.item(id).ifPresent(this::takeOff));
      if (step.id().equals("drain")) {
        plan.systems().forEach(this::drain);
      }
      step.on().forEach(id -> plan.item(id).ifPresent(this::putOn));
      if (isRun) {
        testRun();
        ran = true;
      }
      mark(step, StepMark.DONE);
    }
    if (!ran) {
      fillAndClose();
      testRun();
    }
    plan.limits().forEach(this::read);
    say(MachineState.COLD);
    plan.items().forEach(this::tightenAgain);
    plan.systems().forEach(this::levelTwice);
    plan.systems().forEach(this::toWaste);
  }

  private void say(MachineState state) {
    job.say(new StateSaid(state, null));
  }

  private void mark(Step step, StepMark mark) {
    job.say(new StepMarked(step.id(), mark));
  }

  private void fillAndClose() {
    plan.systems().forEach(this::fill);
    if (plan.items().stream().anyMatch(TradeNames::timing)) {
      say(MachineState.TURNED_BY_HAND);
    }
    say(MachineState.TOOLS_OUT);
    say(MachineState.BATTERY_ON);
  }

  private void testRun() {
    say(MachineState.RUNNING);
    say(MachineState.STOPPED);
    say(MachineState.NO_LEAK);
  }

  private void takeOff(Item item) {
    if (item.temporary()) {
      job.say(new TemporaryMoved(false, item.id(), item.count()));
    } else {
      moved(ItemMove.OFF, item);
    }
  }

  private void moved(ItemMove move, Item item) {
    job.say(
        new ItemsMoved(
            move,
            item.id(),
            item.thing(),
            item.count() == 1 && random.nextBoolean() ? null : item.count(),
            false,
            random.nextBoolean() ? item.head() : null,
            null,
            null));
  }

  private void putOn(Item item) {
    if (item.temporary()) {
      job.say(new TemporaryMoved(true, item.id(), item.count()));
      return;
    }
    if (item.carryOver()) {
      job.say(new PartFitted(item.id(), PartCondition.CARRIED_OVER));
    } else if (item.renew() || item.stretch()) {
      if (random.nextBoolean()) {
        moved(ItemMove.SCRAPPED, item);
      }
      if (item.count() == 1 && random.nextBoolean()) {
        job.say(new PartFitted(item.id(), PartCondition.NEW));
      } else {
        moved(ItemMove.NEW_ON, item);
      }
    } else {
      moved(ItemMove.ON, item);
    }
    if (item.alignment() != null) {
      job.say(new Aligned(item.id(), item.alignment().angle()));
    }
    if (item.torque() != null) {
      tighten(item, item.torque());
    }
  }

  private void tighten(Item item, Torque torque) {
    for (int pass = 1; pass <= torque.passes(); pass++) {
      boolean last = pass == torque.passes();
      Amount value = last ? torque.value() : half(torque.value());
      Integer said = last && random.nextBoolean() ? null : Integer.valueOf(pass);
      job.say(tightened(TightnessState.TORQUED, item, value, said, null));
    }
    if (torque.angle() != null) {
      job.say(tightened(TightnessState.ANGLE_DONE, item, null, null, torque.angle()));
    }
  }

  private void tightenAgain(Item item) {
    if (item.torque() != null && item.torque().againAfterHeat()) {
      job.say(tightened(TightnessState.CHECKED, item, item.torque().value(), null, null));
    }
  }

  private static Amount half(Amount value) {
    return new Amount(value.value().divide(BigDecimal.valueOf(2)), value.unit());
  }

  private Tightened tightened(
      TightnessState state,
      Item item,
      @Nullable Amount torque,
      @Nullable Integer pass,
      @Nullable Amount angle) {
    return new Tightened(
        state,
        item.id(),
        null,
        item.thing(),
        random.nextBoolean() ? null : item.count(),
        false,
        torque,
        pass,
        angle,
        torque == null ? null : wrenchFor(torque),
        null,
        null);
  }

  private @Nullable String wrenchFor(Amount torque) {
    for (Instrument wrench : plan.instruments()) {
      if (wrench.kind() == InstrumentKind.WRENCH
          && wrench.from().base().compareTo(torque.base()) <= 0
          && wrench.to().base().compareTo(torque.base()) >= 0) {
        return wrench.id();
      }
    }
    return null;
  }

  private void drain(FluidSystem system) {
    for (Point point : system.drains()) {
      Amount share = point.share();
      if (share != null) {
        job.say(fluid(FluidMove.OUT, share, system, point.id()));
        drained.add(point.id());
      }
    }
  }

  private void fill(FluidSystem system) {
    for (Point point : system.drains()) {
      if (drained.contains(point.id()) && point.share() != null) {
        job.say(fluid(FluidMove.IN, point.share(), system, null));
      }
    }
  }

  private void toWaste(FluidSystem system) {
    for (Point point : system.drains()) {
      if (drained.contains(point.id()) && point.share() != null) {
        job.say(fluid(FluidMove.TO_WASTE, point.share(), system, null));
      }
    }
  }

  private FluidMoved fluid(
      FluidMove move, Amount amount, FluidSystem system, @Nullable String place) {
    return new FluidMoved(
        move,
        amount,
        false,
        move == FluidMove.IN ? system.fluid() : null,
        null,
        system.id(),
        place,
        vessel(),
        null,
        null);
  }

  private @Nullable String vessel() {
    List<String> vessels =
        plan.instruments().stream()
            .filter(each -> each.kind() == InstrumentKind.VESSEL)
            .map(Instrument::id)
            .toList();
    return vessels.isEmpty() ? null : vessels.get(random.nextInt(vessels.size()));
  }

  private void levelTwice(FluidSystem system) {
    system.marks().stream()
        .filter(LevelMark::cold)
        .findFirst()
        .ifPresent(
            mark -> {
              Statement reading =
                  new Measured(
                      Measure.LEVEL, null, Level.AT, mark.id(), system.id(), Warmth.COLD, null);
              job.say(reading);
              job.say(reading);
            });
  }

  private void read(Limit limit) {
    Amount bound = limit.to() != null ? limit.to() : limit.from();
    if (bound == null) {
      return;
    }
    Rational value = bound.base();
    if (limit.from() != null && limit.to() != null) {
      value = limit.from().base().plus(limit.to().base()).times(Rational.of(1, 2));
    }
    BigDecimal shown =
        bound.unit().fromBase(value).toBigDecimal().setScale(2, RoundingMode.HALF_UP);
    job.say(
        new Measured(
            limit.measure(),
            new Amount(shown, bound.unit()),
            null,
            null,
            limit.subject(),
            null,
            bound.unit().dimension() == Dimension.PRESSURE && bound.unit() == Unit.KILOPASCAL
                ? gauge()
                : null));
  }

  private @Nullable String gauge() {
    return plan.instruments().stream()
        .filter(each -> each.kind() == InstrumentKind.GAUGE && each.unit() == Unit.KILOPASCAL)
        .map(Instrument::id)
        .findFirst()
        .orElse(null);
  }
}
