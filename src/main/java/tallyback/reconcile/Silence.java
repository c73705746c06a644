package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import tallyback.books.FluidAccount;
import tallyback.model.Account;
import tallyback.model.Finding.Stage;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.SecondCheck;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.Unsaid;

/** What nobody said. Silence is no pass: it leaves a stage open. */
final class Silence {

  private static final List<Stage> FOR_ALL = Kind.ALL;
  private static final List<Stage> FOR_WORK = Kind.AFTER_TEST;
  private static final List<Stage> FOR_HAND_OVER = Kind.HAND_OVER;

  private final JobView job;
  private final List<Unsaid> unsaid = new ArrayList<>();

  private Silence(JobView job) {
    this.job = job;
  }

  static List<Unsaid> of(JobView job) {
    Silence silence = new Silence(job);
    if (!job.anyWork()) {
      silence.add(FindingText.UNCHECKED_NOTHING_SAID, FOR_ALL);
    } else {
      silence.items();
      silence.leftOpen();
      silence.load();
      silence.states();
      silence.fluids();
      silence.readings();
    }
    return silence.unsaid;
  }

  /** What a tear-down leaves open; a missing name only matters to whoever reads of it later. */
  static Unsaid of(TearDown.Open open) {
    boolean name = open.about() == TearDown.About.NAME;
    return new Unsaid(open.words(), name ? FOR_HAND_OVER : FOR_ALL);
  }

  private void add(String words, List<Stage> stages) {
    unsaid.add(new Unsaid(words, stages));
  }

  private void items() {
    for (Item item : job.plan().items()) {
      boolean mentioned = !job.evidenceOf(item).isEmpty() || job.account(item).mentioned();
      if (item.temporary()) {
        if (!mentioned) {
          add(FindingText.uncheckedTemporary(item.label()), FOR_ALL);
        }
      } else if (!mentioned) {
        notMentioned(item);
      } else {
        tightness(item);
      }
    }
  }

  private void notMentioned(Item item) {
    List<Step> steps = job.index().stepsWith(item.id());
    boolean stepDone = steps.stream().anyMatch(step -> job.told(step).status() == StepStatus.DONE);
    if (stepDone) {
      add(FindingText.uncheckedCount(item.label()), FOR_HAND_OVER);
    } else if (steps.isEmpty()) {
      add(FindingText.uncheckedItem(item.label()), FOR_HAND_OVER);
    }
  }

  private void tightness(Item item) {
    Tightness tightness = job.tightness(item);
    boolean threaded =
        EnumSet.of(Thing.BOLT, Thing.NUT, Thing.STUD, Thing.PLUG).contains(item.thing());
    boolean judged = job.plan().basis() == Plan.Basis.TEAR_DOWN;
    if (item.torque() == null && threaded && !judged && tightness.told().isEmpty()) {
      boolean open = job.plan().leavesOpen(item.id(), "torque");
      add(
          open
              ? FindingText.uncheckedOpenTightness(item.label())
              : FindingText.uncheckedTightness(item.label()),
          open ? FOR_ALL : List.of());
    }
    if (item.torque() != null && !tightness.values().isEmpty() && tightness.wrench().isEmpty()) {
      add(FindingText.uncheckedWrench(item.label()), List.of());
    }
    if (item.torque() != null && !tightness.values().isEmpty()) {
      sequenceAndAgain(item, item.torque(), tightness);
    }
  }

  private void sequenceAndAgain(Item item, Torque torque, Tightness tightness) {
    boolean lookedAt =
        job.eventsOf(item.id()).stream().anyMatch(each -> each.statement() instanceof SecondCheck);
    if (torque.sequence() && !tightness.inOrder() && !lookedAt) {
      add(FindingText.uncheckedSequence(item.label()), List.of());
    }
    if (torque.againAfter() != null) {
      add(FindingText.uncheckedAgain(item.label(), torque.againAfter()), List.of());
    }
  }

  /** What was said could not be held against anything. */
  private void leftOpen() {
    List<String> values = new ArrayList<>();
    for (Item item : job.plan().items()) {
      if (job.plan().leavesOpen(item.id(), "torque") && !job.tightness(item).torques().isEmpty()) {
        values.add(item.label());
      }
    }
    if (!values.isEmpty()) {
      add(FindingText.uncheckedOpenTorques(values), List.of());
    }
  }

  private void load() {
    List<String> notJudged = BoltRules.notJudged(job);
    if (!notJudged.isEmpty()) {
      add(FindingText.uncheckedLoad(notJudged), List.of());
    }
  }

  private void states() {
    if (!job.states().everSaid(MachineState.TOOLS_OUT)) {
      add(FindingText.UNCHECKED_TOOLS, FOR_ALL);
    }
    Optional<At<StateSaid>> run = lastRun();
    if (run.isEmpty()) {
      add(FindingText.UNCHECKED_TEST_RUN, FOR_WORK);
    } else if (anyFluidOpened()
        && job.states()
            .firstAfter(run.get().position(), EnumSet.of(MachineState.NO_LEAK, MachineState.LEAK))
            .isEmpty()) {
      add(FindingText.UNCHECKED_LEAK, FOR_WORK);
    }
  }

  private Optional<At<StateSaid>> lastRun() {
    return job.states().lastBefore(Integer.MAX_VALUE, EnumSet.of(MachineState.RUNNING));
  }

  private boolean anyFluidOpened() {
    return job.plan().systems().stream().anyMatch(system -> FluidRules.opened(job, system));
  }

  private void fluids() {
    for (FluidSystem system : job.plan().systems()) {
      if (!FluidRules.opened(job, system)) {
        continue;
      }
      if (system.capacity() == null) {
        add(FindingText.uncheckedCapacity(system.label()), List.of());
      }
      FluidSums sums = job.sums(system);
      if (sums.jugsCannotTell()) {
        add(FindingText.uncheckedJugs(system.label()), FOR_WORK);
      }
      levelAfterRun(system);
      waste(system, sums);
    }
  }

  private void levelAfterRun(FluidSystem system) {
    boolean hasColdMark = system.marks().stream().anyMatch(LevelMark::cold);
    int run = lastRun().map(At::position).orElse(-1);
    List<At<Measured>> levels = job.levelsOf(system.id());
    boolean readSince = levels.stream().anyMatch(level -> level.position() > run);
    if (hasColdMark && !readSince) {
      add(FindingText.uncheckedLevel(system.label()), FOR_WORK);
    }
  }

  private void waste(FluidSystem system, FluidSums sums) {
    FluidAccount account = sums.account();
    boolean wasteSaidWithoutAmount =
        job.fluidOf(system.id()).stream()
            .anyMatch(
                each ->
                    each.statement().move() == FluidMove.TO_WASTE
                        && each.statement().amount() == null);
    if (account.litres(Account.PAN).signum() > 0 && !wasteSaidWithoutAmount) {
      add(
          FindingText.uncheckedWaste(system.label(), sums.litres(account.litres(Account.PAN))),
          FOR_HAND_OVER);
    }
  }

  private void readings() {
    for (Limit limit : job.plan().limits()) {
      boolean read =
          job.readings(limit.measure()).stream()
              .map(At::statement)
              .anyMatch(each -> each.subject() == null || each.subject().equals(limit.subject()));
      if (!read && limit.measure() != Measure.LEVEL) {
        add(
            FindingText.uncheckedReading(job.index().label(limit.subject()), limit.measure()),
            FOR_WORK);
      }
    }
  }
}
