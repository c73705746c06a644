package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.Trouble;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.Warmth;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;
import tallyback.reconcile.EarlierFill.ToppedUp;

/**
 * One thing going wrong in a job that was told perfectly. Each damages one place and leaves the
 * rest as it was.
 */
final class Fault {

  private static final Amount MILLIMETRES = Amount.of("5.0", Unit.MILLIMETRE);

  private final Plan plan;
  private final Telling job;
  private final Random random;

  private Fault(Plan plan, Telling job, Random random) {
    this.plan = plan;
    this.job = job;
    this.random = random;
  }

  /** Kinds of finding for which there is a fault. */
  static List<String> kinds() {
    return List.of(
        "left-in-tray",
        "not-connected",
        "missing",
        "dropped-in-machine",
        "more-on-than-off",
        "more-off-than-plan",
        "wrong-head-size",
        "head-unusual",
        "old-put-back",
        "renewal-unsaid",
        "not-carried-over",
        "temporary-still-in",
        "alignment-outside",
        "alignment-unsaid",
        "said-not-counted",
        "not-in-plan",
        "unit-slip",
        "torque-outside",
        "torque-borderline",
        "wrench-range",
        "torque-unsaid",
        "hand-tight-only",
        "tight-by-feel",
        "torque-partly",
        "passes-missing",
        "angle-unsaid",
        "angle-differs",
        "overloaded",
        "load-high",
        "adapter-unsaid",
        "tighten-again-unsaid",
        "fluid-short",
        "fluid-excess",
        "drain-low",
        "more-out-than-holds",
        "wrong-fluid",
        "wrong-form",
        "mixture-weak",
        "mixture-strong",
        "old-fluid-left",
        "amount-unsaid",
        "level-below-mark",
        "level-fallen",
        "level-read-hot",
        "pressure-fallen",
        "hold-not-comparable",
        "hold-too-short",
        "reading-outside",
        "step-before-need",
        "step-not-done",
        "step-not-finished",
        "step-skipped",
        "state-unsaid",
        "cap-opened-hot",
        "run-without-guards",
        "battery-on-early",
        "leak-seen",
        "problem-open",
        "entry-unconfirmed",
        "not-understood",
        "unit-unsaid",
        "amount-unusable",
        "edit-without-effect",
        "topped-up-more",
        "topped-up-unusual",
        "topped-up-drifting",
        "left-half-open",
        "lengths-swapped",
        "step-redone",
        "caution-passed",
        "not-turned-by-hand",
        "half-tight-over-pause",
        "clock-set-back");
  }

  /** Damages the job; false when this plan has no place for it. */
  static boolean inject(String kind, Plan plan, Telling job, Random random) {
    Fault fault = new Fault(plan, job, random);
    return switch (kind) {
      case "left-in-tray" -> fault.oneLessOn();
      case "not-connected" -> job.remove(moves(ItemMove.ON, "plug-lead"));
      case "missing" -> fault.lost(ItemMove.MISSING, null);
      case "dropped-in-machine" -> fault.lost(ItemMove.DROPPED, FellWhere.MACHINE);
      case "more-on-than-off" -> fault.countOff(-1);
      case "more-off-than-plan" -> fault.countOff(1);
      case "wrong-head-size" -> fault.wrongHead(item -> item.head() != null);
      case "head-unusual" -> fault.wrongHead(item -> item.head() == null && item.thread() != null);
      case "old-put-back" -> fault.fit("face-gasket", PartCondition.OLD);
      case "renewal-unsaid" -> fault.renewalUnsaid();
      case "not-carried-over" -> job.remove(each -> about(each, "bracket"));
      case "temporary-still-in" -> fault.temporaryStaysIn();
      case "alignment-outside" -> fault.turned();
      case "alignment-unsaid" -> job.remove(Aligned.class::isInstance);
      case "said-not-counted" -> fault.lump();
      case "not-in-plan" -> fault.strangeBolts();
      case "unit-slip" ->
          fault.torque(torque -> new Amount(torque.value().value(), Unit.POUND_FOOT));
      case "torque-outside" -> fault.torque(torque -> times(torque.value(), "1.9"));
      case "torque-borderline" -> fault.torque(Fault::justAbove);
      case "wrench-range" -> fault.wrench("tiny-wrench");
      case "torque-unsaid" -> fault.tightness(null);
      case "hand-tight-only" -> fault.tightness(TightnessState.HAND_TIGHT);
      case "tight-by-feel" -> fault.tightness(TightnessState.BY_FEEL);
      case "torque-partly" -> fault.oneLessTorqued();
      case "passes-missing" -> fault.firstPassLeftOut();
      case "angle-unsaid" -> fault.angle(null);
      case "angle-differs" -> fault.angle(Amount.of("60", Unit.DEGREE));
      case "overloaded" -> fault.hard("900");
      case "load-high" -> fault.hard("260");
      case "adapter-unsaid" -> fault.wrench("crowfoot");
      case "tighten-again-unsaid" ->
          job.remove(
              each -> each instanceof Tightened told && told.state() == TightnessState.CHECKED);
      case "fluid-short" -> fault.filled("0.5");
      case "fluid-excess" -> fault.filled("1.6");
      case "drain-low" -> fault.drainGivesLittle();
      case "more-out-than-holds" -> fault.everythingTwice();
      case "wrong-fluid" -> fault.pour(moved -> fluid(moved, moved.amount(), "gear-oil", null));
      case "wrong-form" ->
          fault.strengthUnread()
              && fault.pour(
                  moved -> fluid(moved, moved.amount(), "coolant", FluidForm.CONCENTRATE));
      case "mixture-weak" -> fault.strengthUnread() && fault.pourAll("thin-coolant");
      case "mixture-strong" -> fault.strengthUnread() && fault.pourAll("thick-coolant");
      case "old-fluid-left" -> fault.pourBack();
      case "amount-unsaid" -> fault.pour(moved -> fluid(moved, null, moved.fluid(), null));
      case "amount-unusable" -> fault.pour(moved -> fluid(moved, MILLIMETRES, moved.fluid(), null));
      case "level-below-mark" -> fault.level(job.findLast(Fault::isLevel), Level.BELOW);
      case "level-fallen" -> fault.level(job.find(Fault::isLevel), Level.ABOVE);
      case "level-read-hot" -> fault.levelHot();
      case "pressure-fallen" -> fault.hold("80", 15, "20", "20");
      case "hold-not-comparable" -> fault.hold("112", 15, "20", "60");
      case "hold-too-short" -> fault.hold("120", 3, "20", "20");
      case "reading-outside" -> fault.gapTooWide();
      case "step-before-need" -> fault.beforeNeed();
      case "step-not-done" -> fault.notDone();
      case "step-not-finished" -> fault.notFinished();
      case "step-skipped" -> fault.skipped();
      case "state-unsaid" -> fault.stateUnsaid();
      case "cap-opened-hot" ->
          fault.atEnd(MachineState.HOT, MachineState.CAP_OPEN, MachineState.CAP_CLOSED);
      case "run-without-guards" -> fault.guardsOff();
      case "battery-on-early" -> fault.batteryEarly();
      case "leak-seen" -> fault.atEnd(MachineState.LEAK);
      case "problem-open" -> fault.atEnd(new ProblemSeen(Trouble.CRACKED, "cover"));
      case "not-understood" -> fault.atEnd(new Statement.NotUnderstood(null));
      case "entry-unconfirmed" -> fault.oneUnconfirmed();
      case "unit-unsaid" -> fault.torque(torque -> new Amount(torque.value().value(), Unit.UNSAID));
      case "edit-without-effect" -> fault.atEnd(new Undone("no-such-entry"));
      case "topped-up-more" -> fault.past("0.2", "-1.2");
      case "topped-up-unusual" -> fault.past("-1.2", "-1.3", "-1.2", "-1.1", "-1.2", "-1.2");
      case "topped-up-drifting" ->
          fault.past("-1.5", "-1.2", "-1.7", "-1.4", "-1.5", "-0.9", "-0.6", "-0.3");
      case "lengths-swapped" -> fault.oneInTheOthersPlace();
      case "step-redone" -> fault.doneOnceMore();
      case "caution-passed" ->
          fault.atEnd(new Statement.CautionAnswered(plan.steps().get(0).id(), false));
      case "not-turned-by-hand" -> fault.notTurned();
      case "half-tight-over-pause" -> fault.pauseInBetween();
      case "clock-set-back" -> fault.clockSetBack();
      case "left-half-open" -> fault.leaveHalfWay();
      default -> throw new IllegalArgumentException(kind);
    };
  }

  private List<Item> groups() {
    return plan.items().stream().filter(each -> each.id().startsWith("group-")).toList();
  }

  private @Nullable Item some(Predicate<Item> wanted) {
    List<Item> fitting = groups().stream().filter(wanted).toList();
    return fitting.isEmpty() ? null : fitting.get(random.nextInt(fitting.size()));
  }

  private static Predicate<Statement> moves(ItemMove move, String item) {
    return each ->
        each instanceof ItemsMoved moved && moved.move() == move && item.equals(moved.item());
  }

  private static boolean about(Statement statement, String item) {
    return (statement instanceof ItemsMoved moved && item.equals(moved.item()))
        || (statement instanceof PartFitted fitted && fitted.item().equals(item));
  }

  private boolean recount(int index, int count) {
    return job.change(
        index,
        each ->
            each instanceof ItemsMoved moved
                ? items(moved.move(), moved.item(), count, false)
                : each);
  }

  private static ItemsMoved items(ItemMove move, @Nullable String item, int count, boolean lump) {
    return new ItemsMoved(move, item, null, count, lump, null, null, null);
  }

  private boolean oneLessOn() {
    Item item = some(each -> !each.stretch());
    return item != null && recount(job.find(moves(ItemMove.ON, item.id())), item.count() - 1);
  }

  private boolean lost(ItemMove move, @Nullable FellWhere where) {
    Item item = some(each -> !each.stretch());
    if (item == null) {
      return false;
    }
    int on = job.find(moves(ItemMove.ON, item.id()));
    recount(on, item.count() - 1);
    job.insert(on, new ItemsMoved(move, item.id(), null, 1, false, null, null, where));
    return true;
  }

  private boolean countOff(int more) {
    Item item = some(each -> true);
    return item != null && recount(job.find(moves(ItemMove.OFF, item.id())), item.count() + more);
  }

  private boolean wrongHead(Predicate<Item> which) {
    Item item = some(which);
    return item != null
        && job.change(
            job.find(moves(ItemMove.OFF, item.id())),
            each ->
                new ItemsMoved(
                    ItemMove.OFF,
                    item.id(),
                    null,
                    item.count(),
                    false,
                    Amount.of("30", Unit.MILLIMETRE),
                    null,
                    null));
  }

  private boolean fit(String item, PartCondition condition) {
    return job.change(
        job.find(
            each ->
                (each instanceof PartFitted fitted && fitted.item().equals(item))
                    || moves(ItemMove.NEW_ON, item).test(each)),
        each -> new PartFitted(item, condition));
  }

  private boolean renewalUnsaid() {
    return job.change(
        job.find(
            each ->
                (each instanceof PartFitted fitted && fitted.condition() == PartCondition.NEW)
                    || (each instanceof ItemsMoved moved && moved.move() == ItemMove.NEW_ON)),
        each -> {
          if (each instanceof PartFitted fitted) {
            return items(ItemMove.ON, fitted.item(), 1, false);
          }
          ItemsMoved moved = (ItemsMoved) each;
          Integer count = moved.count();
          return items(ItemMove.ON, moved.item(), count == null ? 1 : count, false);
        });
  }

  private boolean temporaryStaysIn() {
    String item = random.nextBoolean() ? "lock-pin" : "pliers";
    return job.remove(
        each -> each instanceof TemporaryMoved moved && !moved.in() && moved.item().equals(item));
  }

  private boolean turned() {
    return job.change(
        job.find(Aligned.class::isInstance),
        each -> {
          Aligned aligned = (Aligned) each;
          Amount angle = aligned.angle();
          return new Aligned(
              aligned.item(),
              angle == null
                  ? null
                  : new Amount(angle.value().add(BigDecimal.valueOf(120)), Unit.DEGREE));
        });
  }

  private boolean lump() {
    Item item = some(each -> !each.stretch());
    return item != null
        && job.change(
            job.find(moves(ItemMove.ON, item.id())),
            each -> items(ItemMove.ON, item.id(), item.count(), true));
  }

  private boolean strangeBolts() {
    job.insert(
        job.size() / 2,
        new ItemsMoved(ItemMove.OFF, null, Thing.BOLT, 3, false, null, "nowhere", null));
    return true;
  }

  private int lastTorqueOf(Item item) {
    return job.findLast(
        each ->
            each instanceof Tightened tightened
                && item.id().equals(tightened.item())
                && tightened.torque() != null);
  }

  private boolean retell(int index, UnaryOperator<Tightened> change) {
    return job.change(
        index, each -> each instanceof Tightened tightened ? change.apply(tightened) : each);
  }

  private static Tightened tightened(
      Tightened told, @Nullable Integer count, @Nullable Amount torque, @Nullable String wrench) {
    return new Tightened(
        told.state(),
        told.item(),
        told.place(),
        told.thing(),
        count,
        told.lump(),
        torque,
        told.pass(),
        told.angle(),
        wrench,
        null,
        null);
  }

  private boolean torque(java.util.function.Function<Torque, Amount> value) {
    Item item = some(each -> each.torque() != null);
    if (item == null || item.torque() == null) {
      return false;
    }
    Amount said = value.apply(item.torque());
    return retell(lastTorqueOf(item), told -> tightened(told, told.count(), said, "good-wrench"));
  }

  private static Amount times(Amount amount, String factor) {
    return new Amount(
        amount.value().multiply(new BigDecimal(factor)).setScale(1, RoundingMode.HALF_UP),
        amount.unit());
  }

  /** Above the range by half of what a wrench of 4 % can tell. */
  private static Amount justAbove(Torque torque) {
    BigDecimal highest = torque.value().value().add(torque.plus().value());
    return new Amount(highest.multiply(new BigDecimal("1.02")), torque.value().unit());
  }

  /** A group of M14, class 8.8, whose torque the plan leaves open: proof load 67 kN. */
  private boolean hard(String newtonMetres) {
    Item item = some(each -> each.torque() == null && !each.stretch());
    if (item == null) {
      return false;
    }
    job.say(
        new Tightened(
            TightnessState.TORQUED,
            item.id(),
            null,
            null,
            null,
            false,
            Amount.of(newtonMetres, Unit.NEWTON_METRE),
            null,
            null,
            null,
            null,
            null));
    return true;
  }

  private boolean wrench(String wrench) {
    Item item = some(each -> each.torque() != null);
    return item != null
        && retell(lastTorqueOf(item), told -> tightened(told, told.count(), told.torque(), wrench));
  }

  private boolean tightness(@Nullable TightnessState instead) {
    Item item = some(each -> each.torque() != null && each.torque().angle() == null);
    if (item == null) {
      return false;
    }
    Predicate<Statement> ofItem =
        each -> each instanceof Tightened tightened && item.id().equals(tightened.item());
    int first = job.find(ofItem);
    job.remove(ofItem);
    if (instead != null) {
      job.insert(
          first,
          new Tightened(
              instead, item.id(), null, null, null, false, null, null, null, null, null, null));
    }
    return true;
  }

  private boolean oneLessTorqued() {
    Item item = some(each -> each.torque() != null);
    return item != null
        && retell(
            lastTorqueOf(item),
            told -> tightened(told, item.count() - 1, told.torque(), told.wrench()));
  }

  private boolean firstPassLeftOut() {
    Item item = some(each -> each.torque() != null && each.torque().passes() > 1);
    return item != null
        && job.remove(
            each ->
                each instanceof Tightened tightened
                    && item.id().equals(tightened.item())
                    && Integer.valueOf(1).equals(tightened.pass()));
  }

  private boolean angle(@Nullable Amount instead) {
    Item item = some(each -> each.torque() != null && each.torque().angle() != null);
    if (item == null) {
      return false;
    }
    Predicate<Statement> angleOfItem =
        each ->
            each instanceof Tightened tightened
                && item.id().equals(tightened.item())
                && tightened.state() == TightnessState.ANGLE_DONE;
    if (instead == null) {
      return job.remove(angleOfItem);
    }
    return retell(
        job.find(angleOfItem),
        told ->
            new Tightened(
                told.state(),
                told.item(),
                null,
                null,
                told.count(),
                false,
                null,
                null,
                instead,
                null,
                null,
                null));
  }

  private static boolean isMove(Statement statement, FluidMove move) {
    return statement instanceof FluidMoved moved && moved.move() == move;
  }

  private static FluidMoved fluid(
      FluidMoved told, @Nullable Amount amount, @Nullable String fluid, @Nullable FluidForm form) {
    return new FluidMoved(
        told.move(),
        amount,
        false,
        fluid,
        form,
        told.system(),
        told.place(),
        told.vessel(),
        null,
        null);
  }

  private boolean changeFluid(int index, UnaryOperator<FluidMoved> change) {
    return job.change(index, each -> each instanceof FluidMoved moved ? change.apply(moved) : each);
  }

  private boolean pour(UnaryOperator<FluidMoved> change) {
    return changeFluid(job.find(each -> isMove(each, FluidMove.IN)), change);
  }

  private boolean strengthUnread() {
    return job.remove(
        each -> each instanceof Measured measured && measured.measure() == Measure.STRENGTH);
  }

  private boolean pourAll(String fluid) {
    for (Telling.Told told : job.told()) {
      if (isMove(told.statement, FluidMove.IN) && told.statement instanceof FluidMoved moved) {
        told.statement = fluid(moved, moved.amount(), fluid, null);
      }
    }
    return true;
  }

  /** What was drained goes back in. */
  private boolean pourBack() {
    for (Telling.Told told : job.told()) {
      if (isMove(told.statement, FluidMove.IN) && told.statement instanceof FluidMoved moved) {
        told.statement =
            new FluidMoved(
                FluidMove.PUT_BACK,
                moved.amount(),
                false,
                null,
                null,
                moved.system(),
                moved.place(),
                moved.vessel(),
                null,
                null);
      }
    }
    return true;
  }

  private static FluidMoved scaled(FluidMoved told, String factor) {
    Amount amount = told.amount();
    return fluid(told, amount == null ? null : times(amount, factor), told.fluid(), told.form());
  }

  /** Other amounts in, and no level read that would outrank the sum. */
  private boolean filled(String factor) {
    job.remove(Fault::isLevel);
    return job.change(
            job.find(each -> isMove(each, FluidMove.IN)),
            each -> each instanceof FluidMoved moved ? scaled(moved, factor) : each)
        && job.change(
            job.findLast(each -> isMove(each, FluidMove.IN)),
            each -> each instanceof FluidMoved moved ? scaled(moved, factor) : each);
  }

  private boolean drainGivesLittle() {
    return changeFluid(job.find(each -> isMove(each, FluidMove.OUT)), told -> scaled(told, "0.2"))
        && changeFluid(job.find(each -> isMove(each, FluidMove.IN)), told -> scaled(told, "0.2"));
  }

  private boolean everythingTwice() {
    for (FluidMove move : List.of(FluidMove.OUT, FluidMove.IN)) {
      for (Telling.Told told : job.told()) {
        if (isMove(told.statement, move) && told.statement instanceof FluidMoved moved) {
          told.statement = scaled(moved, "2.5");
        }
      }
    }
    return true;
  }

  private static boolean isLevel(Statement statement) {
    return statement instanceof Measured measured && measured.measure() == Measure.LEVEL;
  }

  private boolean level(int index, Level level) {
    return job.change(
        index,
        each ->
            each instanceof Measured told
                ? new Measured(
                    told.measure(), null, level, told.mark(), told.subject(), told.warmth(), null)
                : each);
  }

  /** Earlier jobs, oldest first, with how many litres more went in than came out. */
  private boolean past(String... litres) {
    Instant at = Instant.parse("2025-01-01T08:00:00Z");
    for (String each : litres) {
      ToppedUp toppedUp = new ToppedUp(Amount.of(each, Unit.LITRE), Amount.of("0.2", Unit.LITRE));
      job.past().add(new EarlierFill(at, Map.of("cooling", toppedUp)));
      at = at.plus(30, ChronoUnit.DAYS);
    }
    return true;
  }

  private boolean levelHot() {
    return job.change(
        job.findLast(Fault::isLevel),
        each ->
            each instanceof Measured told
                ? new Measured(
                    told.measure(),
                    null,
                    told.level(),
                    told.mark(),
                    told.subject(),
                    Warmth.HOT,
                    null)
                : each);
  }

  /** The pressure once more after so many minutes, with a temperature at either end. */
  private boolean hold(String kilopascals, int minutes, String before, String after) {
    int index =
        job.find(each -> each instanceof Measured told && told.measure() == Measure.PRESSURE);
    if (index < 0 || !(job.told().get(index).statement instanceof Measured told)) {
      return false;
    }
    job.insert(index, temperature(before));
    for (int minute = 3; minute < minutes; minute++) {
      job.insert(index + 2, new Memo());
    }
    int last = index + 2 + Math.max(0, minutes - 3);
    job.insert(last, temperature(after));
    job.insert(
        last + 1,
        new Measured(
            Measure.PRESSURE,
            Amount.of(kilopascals, Unit.KILOPASCAL),
            null,
            null,
            told.subject(),
            null,
            told.instrument()));
    return true;
  }

  private static Measured temperature(String celsius) {
    return new Measured(
        Measure.TEMPERATURE, Amount.of(celsius, Unit.CELSIUS), null, null, null, null, null);
  }

  private boolean gapTooWide() {
    return job.change(
        job.find(each -> each instanceof Measured told && told.measure() == Measure.GAP),
        each ->
            new Measured(
                Measure.GAP, Amount.of("3.1", Unit.MILLIMETRE), null, null, "cover", null, null));
  }

  private static boolean marks(Statement statement, Step step) {
    return statement instanceof StepMarked marked && marked.step().equals(step.id());
  }

  private Step someStep() {
    return plan.steps().get(1 + random.nextInt(plan.steps().size() - 2));
  }

  private int mark(String step, StepMark mark) {
    return job.find(
        each ->
            each instanceof StepMarked marked
                && marked.step().equals(step)
                && marked.mark() == mark);
  }

  private boolean beforeNeed() {
    for (Step step : plan.steps()) {
      if (step.id().startsWith("fit-")) {
        String need = step.needs().get(0);
        Telling.Told done = job.told().get(mark(need, StepMark.DONE));
        job.told().get(mark(step.id(), StepMark.STARTED)).happenedBefore = done;
        return true;
      }
    }
    return false;
  }

  private boolean notDone() {
    Step step = someStep();
    return job.remove(each -> marks(each, step));
  }

  private boolean notFinished() {
    Step step = someStep();
    job.told().remove(mark(step.id(), StepMark.DONE));
    return true;
  }

  private boolean skipped() {
    Step step = someStep();
    job.told().remove(mark(step.id(), StepMark.DONE));
    return job.change(
        mark(step.id(), StepMark.STARTED), each -> new StepMarked(step.id(), StepMark.SKIPPED));
  }

  private boolean stateUnsaid() {
    List<MachineState> states = new ArrayList<>(List.of(MachineState.COLD, MachineState.NO_LEAK));
    if (plan.item("earth-lead").isEmpty()) {
      states.add(MachineState.BATTERY_OFF);
    }
    if (plan.item("belt-guard").isEmpty()) {
      states.add(MachineState.GUARDS_ON);
    }
    MachineState state = states.get(random.nextInt(states.size()));
    return job.remove(each -> each instanceof StateSaid said && said.state() == state);
  }

  private boolean atEnd(MachineState... states) {
    for (MachineState state : states) {
      job.say(new StateSaid(state, null));
    }
    return true;
  }

  private boolean atEnd(Statement statement) {
    job.say(statement);
    return true;
  }

  private boolean guardsOff() {
    int running =
        job.find(each -> each instanceof StateSaid said && said.state() == MachineState.RUNNING);
    job.insert(running, new StateSaid(MachineState.GUARDS_OFF, null));
    return true;
  }

  private boolean batteryEarly() {
    int fitting = mark("fit-0", StepMark.STARTED);
    job.insert(fitting, new StateSaid(MachineState.BATTERY_ON, null));
    return true;
  }

  private boolean oneUnconfirmed() {
    List<Telling.Told> work = new ArrayList<>();
    for (Telling.Told told : job.told()) {
      if (JobView.isWork(told.statement)) {
        work.add(told);
      }
    }
    work.get(random.nextInt(work.size())).certainty = Certainty.UNCONFIRMED;
    return true;
  }

  /** Left after some step of taking apart; nothing that was said until then is wrong. */
  private boolean leaveHalfWay() {
    int end = mark(plan.steps().get(random.nextInt(2)).id(), StepMark.DONE);
    while (job.size() > end + 1) {
      job.told().remove(job.size() - 1);
    }
    job.say(new LeftForNight());
    return true;
  }

  private boolean oneInTheOthersPlace() {
    Item many = plan.item(random.nextBoolean() ? "short-bolts" : "long-bolts").orElseThrow();
    Item few =
        plan.item(many.id().equals("short-bolts") ? "long-bolts" : "short-bolts").orElseThrow();
    return recount(job.find(moves(ItemMove.ON, many.id())), many.count() + 1)
        && recount(job.find(moves(ItemMove.ON, few.id())), few.count() - 1);
  }

  private boolean doneOnceMore() {
    Step step = someStep();
    int done = mark(step.id(), StepMark.DONE);
    job.insert(
        random.nextBoolean() ? done + 1 : job.size(), new StepMarked(step.id(), StepMark.REDONE));
    return true;
  }

  private boolean notTurned() {
    return job.remove(
        each -> each instanceof StateSaid said && said.state() == MachineState.TURNED_BY_HAND);
  }

  /** Some of the group, a pause of 30 to 90 minutes, then the rest. */
  private boolean pauseInBetween() {
    Item item = some(each -> each.torque() != null && each.torque().angle() == null);
    if (item == null) {
      return false;
    }
    int last = lastTorqueOf(item);
    Statement whole = job.told().get(last).statement;
    int first = 1 + random.nextInt(item.count() - 1);
    retell(last, told -> tightened(told, first, told.torque(), told.wrench()));
    job.insert(last + 1, new Paused());
    job.insert(last + 2, new Resumed());
    job.insert(last + 3, whole);
    job.setClock(last + 2, 60L * (30 + random.nextInt(60)));
    return retell(
        last + 3, told -> tightened(told, item.count() - first, told.torque(), told.wrench()));
  }

  /** For the last entry, which is about nothing that depends on order. */
  private boolean clockSetBack() {
    job.setClock(job.size() - 1, -150);
    return true;
  }
}
