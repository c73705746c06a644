package tallyback.reconcile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.books.Standing;
import tallyback.model.Statement;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.Tightened;
import tallyback.model.Weight;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Step;

/**
 * The machine in a state in which it should not have been. Common practice, no source, for what may
 * not be done in which state.
 */
final class StateRules implements Rule {

  private static final Kind CAP_HOT = Kind.stop("cap-opened-hot", Kind.ALL);
  private static final Kind NO_GUARDS = Kind.stop("run-without-guards", Kind.ALL);
  private static final Kind BATTERY_EARLY = Kind.check("battery-on-early", Kind.ALL);
  private static final Kind NOT_TURNED =
      Kind.stop("not-turned-by-hand", Kind.ALL)
          .following(
              "temporary-still-in",
              "left-in-tray",
              "missing",
              "said-not-counted",
              "not-connected",
              "step-not-done",
              "step-not-finished",
              "step-skipped")
          .whileUnfinished();
  static final Kind LEAK = Kind.stop("leak-seen", Kind.ALL);

  private static final Set<MachineState> WARMTH =
      EnumSet.of(MachineState.COLD, MachineState.HOT, MachineState.RUNNING);
  private static final Set<MachineState> GUARDS =
      EnumSet.of(MachineState.GUARDS_ON, MachineState.GUARDS_OFF);
  private static final Set<MachineState> CAP_SAFE_AGAIN =
      EnumSet.of(MachineState.COLD, MachineState.CAP_CLOSED);
  private static final Set<MachineState> RUN_OVER =
      EnumSet.of(MachineState.STOPPED, MachineState.GUARDS_ON);
  private static final Set<MachineState> ENDS_BATTERY_LAST =
      EnumSet.of(MachineState.RUNNING, MachineState.BATTERY_OFF);

  @Override
  public List<Kind> kinds() {
    return List.of(CAP_HOT, NO_GUARDS, BATTERY_EARLY, NOT_TURNED, LEAK);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (At<StateSaid> state : job.states().all()) {
      switch (state.statement().state()) {
        case CAP_OPEN -> capOpened(job, state, found);
        case RUNNING -> run(job, state, found);
        case BATTERY_ON -> batteryOn(job, state, found);
        case LEAK -> leak(job, state, found);
        default -> {
          // No other state is wrong in itself.
        }
      }
    }
    turnedByHand(job, found);
  }

  /** What stands for a state where ids of things stand for things. */
  static String key(MachineState state) {
    return "state " + state;
  }

  private static void capOpened(JobView job, At<StateSaid> opened, Drafts found) {
    Optional<At<StateSaid>> warmth = job.states().lastBefore(opened.position(), WARMTH);
    if (warmth.isEmpty() || warmth.get().statement().state() == MachineState.COLD) {
      return;
    }
    boolean over = job.states().firstAfter(opened.position(), CAP_SAFE_AGAIN).isPresent();
    past(found.add(CAP_HOT, "cap", FindingText.CAP), over)
        .about(List.of(key(MachineState.COLD), key(MachineState.PRESSURE_OFF)))
        .with("warmth", FindingText.state(warmth.get().statement().state()))
        .with("when", FindingText.when(opened.said()))
        .seenIn(warmth.get().said())
        .seenIn(opened.said());
  }

  private static void run(JobView job, At<StateSaid> running, Drafts found) {
    Optional<At<StateSaid>> guards = job.states().lastBefore(running.position(), GUARDS);
    if (guards.isEmpty() || guards.get().statement().state() == MachineState.GUARDS_ON) {
      return;
    }
    boolean over = job.states().firstAfter(running.position(), RUN_OVER).isPresent();
    past(found.add(NO_GUARDS, "guards", FindingText.GUARDS), over)
        .about(List.of(key(MachineState.GUARDS_ON)))
        .with("when", FindingText.when(running.said()))
        .seenIn(guards.get().said())
        .seenIn(running.said());
  }

  /** What is over can only be known for next time. */
  private static Draft past(Draft draft, boolean over) {
    return over ? draft.weighs(Weight.NOTE, List.of()) : draft;
  }

  private static void batteryOn(JobView job, At<StateSaid> on, Drafts found) {
    if (!job.states().holdsBefore(on.position(), MachineState.BATTERY_OFF)) {
      return;
    }
    int end =
        job.states()
            .firstAfter(on.position(), ENDS_BATTERY_LAST)
            .map(At::position)
            .orElse(job.entries().size());
    Set<String> ofTheBattery = itemsOfTheStepUnderWay(job, on.position());
    List<Standing> after =
        job.entries().subList(on.position() + 1, end).stream()
            .filter(said -> handsIn(said, ofTheBattery))
            .toList();
    if (!after.isEmpty()) {
      found
          .add(BATTERY_EARLY, "battery", FindingText.BATTERY)
          .about(List.of(key(MachineState.BATTERY_OFF)))
          .with("when", FindingText.when(on.said()))
          .with("last", FindingText.when(after.get(after.size() - 1)))
          .seenIn(on.said())
          .seenIn(after);
    }
  }

  /**
   * What goes on in the step in which the battery went on, and its earth lead with what fastens it.
   */
  private static Set<String> itemsOfTheStepUnderWay(JobView job, int position) {
    Step underWay = null;
    int end = Integer.MAX_VALUE;
    for (Step step : job.plan().steps()) {
      StepTold told = job.told(step);
      int started = told.started().map(At::position).orElse(-1);
      int done = told.done().map(At::position).orElse(-1);
      if (started < position && done > position && done < end) {
        underWay = step;
        end = done;
      }
    }
    Set<String> items = new HashSet<>(underWay == null ? List.of() : underWay.on());
    items.addAll(job.batteryEarthItems());
    return items;
  }

  /** Hands in the machine: things coming off or going on, or being tightened. */
  private static boolean handsIn(Standing said, Set<String> exempt) {
    if (said.statement() instanceof ItemsMoved moved) {
      if (moved.item() != null && exempt.contains(moved.item())) {
        return false;
      }
      return moved.move() == ItemMove.OFF
          || moved.move() == ItemMove.ON
          || moved.move() == ItemMove.NEW_ON
          || moved.move() == ItemMove.SHEARED
          || moved.where() == FellWhere.MACHINE;
    }
    return said.statement() instanceof Tightened tightened
        && (tightened.item() == null || !exempt.contains(tightened.item()));
  }

  /** The last timing work done. */
  private record Timing(int position, Standing said, Named what) {}

  /** After timing work it is turned over by hand before it runs. */
  private static void turnedByHand(JobView job, Drafts found) {
    timing(job).ifPresent(timing -> turnedByHand(job, timing, found));
  }

  private static void turnedByHand(JobView job, Timing timing, Drafts found) {
    Optional<At<StateSaid>> turned = after(timing, job, MachineState.TURNED_BY_HAND);
    Optional<At<StateSaid>> ran =
        after(timing, job, MachineState.RUNNING)
            .filter(run -> turned.isEmpty() || run.position() < turned.get().position());
    if (turned.isPresent() && ran.isEmpty()) {
      return;
    }
    Draft draft =
        found
            .add(NOT_TURNED, "timing", timing.what().label())
            .about(List.of(timing.what().id()))
            .with("fitted", FindingText.when(timing.said()))
            .with("run", ran.map(FindingText::runAt).orElse(FindingText.NOT_RUN_YET))
            .seenIn(timing.said())
            .seenIn(ran.stream().map(At::said).toList());
    if (ran.isEmpty()) {
      draft.weighs(Weight.CHECK, Kind.ALL);
    } else {
      past(draft, turned.isPresent());
    }
  }

  private static Optional<At<StateSaid>> after(Timing timing, JobView job, MachineState state) {
    return job.states().firstAfter(timing.position(), EnumSet.of(state));
  }

  private static Optional<Timing> timing(JobView job) {
    List<Timing> all = new ArrayList<>();
    for (Item item : job.plan().items()) {
      if (TradeNames.timing(item)) {
        job.eventsOf(item.id()).stream()
            .filter(event -> goesOn(event.statement()))
            .forEach(event -> all.add(new Timing(event.position(), event.said(), item)));
      }
    }
    for (Step step : job.plan().steps()) {
      if (TradeNames.timing(step)) {
        job.told(step)
            .done()
            .ifPresent(done -> all.add(new Timing(done.position(), done.said(), step)));
      }
    }
    return all.stream().max(Comparator.comparingInt(Timing::position));
  }

  private static boolean goesOn(Statement statement) {
    return statement instanceof PartFitted
        || (statement instanceof ItemsMoved moved
            && (moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON));
  }

  private static void leak(JobView job, At<StateSaid> leak, Drafts found) {
    boolean gone =
        job.states().firstAfter(leak.position(), EnumSet.of(MachineState.NO_LEAK)).isPresent();
    if (!gone) {
      String place = leak.statement().place();
      found
          .add(
              LEAK,
              place == null ? "leak" : place,
              place == null ? FindingText.LEAK : job.index().label(place))
          .with("when", FindingText.when(leak.said()))
          .seenIn(leak.said());
    }
  }
}
