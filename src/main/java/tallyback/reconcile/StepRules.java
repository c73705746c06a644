package tallyback.reconcile;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Finding.Stage;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Weight;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;

/** Every step done, in an order that its needs allow, with the machine in the state it asks for. */
final class StepRules implements Rule {

  private static final Kind BEFORE_NEED =
      Kind.stop("step-before-need", Kind.ALL).following("clock-set-back");
  private static final Kind NOT_REVERSED = Kind.note("order-not-reversed");
  private static final Kind NOT_DONE =
      Kind.check("step-not-done", Kind.ALL)
          .following("step-not-done", "step-not-finished", "step-skipped")
          .whileUnfinished();
  private static final Kind NOT_FINISHED =
      Kind.check("step-not-finished", Kind.ALL).whileUnfinished();
  private static final Kind SKIPPED = Kind.check("step-skipped", Kind.AFTER_TEST);
  private static final Kind REDONE = Kind.note("step-redone");
  private static final Kind CAUTION_PASSED = Kind.note("caution-passed");
  private static final Kind STATE_UNSAID =
      Kind.check("state-unsaid", Kind.ALL)
          .following("battery-on-early", "cap-opened-hot", "run-without-guards");

  /**
   * A time counts as told, and not only as that of telling, when it lies at least this far back.
   */
  private static final Duration TOLD_LATER = Duration.ofMinutes(1);

  /**
   * States that only a machine about to run, or running, is asked for. Common practice, no source.
   */
  private static final Set<MachineState> OF_THE_TEST_RUN =
      EnumSet.of(
          MachineState.RUNNING,
          MachineState.HOT,
          MachineState.GUARDS_ON,
          MachineState.HEATER_ON,
          MachineState.NO_LEAK);

  @Override
  public List<Kind> kinds() {
    return List.of(
        BEFORE_NEED,
        NOT_REVERSED,
        NOT_DONE,
        NOT_FINISHED,
        SKIPPED,
        REDONE,
        STATE_UNSAID,
        CAUTION_PASSED);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    Map<String, Boolean> partOfTest = new HashMap<>();
    for (Step step : job.plan().steps()) {
      List<Stage> stages = partOfTest(job, step, partOfTest) ? Kind.AFTER_TEST : Kind.ALL;
      status(job, step, stages, found);
      order(job, step, found);
      reverse(job, step, found);
      redone(job, step, found);
      states(job, step, found);
      cautions(job, step, found);
    }
  }

  /** What is over can only be known for next time, but whoever reviews the job should see it. */
  private static void cautions(JobView job, Step step, Drafts found) {
    List<Standing> passed = job.cautionsPassed(step.id());
    if (!passed.isEmpty()) {
      found
          .add(CAUTION_PASSED, step.id(), step.label())
          .with("when", FindingText.when(passed.get(0)))
          .seenIn(passed);
    }
  }

  /**
   * True for the test run and what comes after it: not to be done before the machine may be started
   * for test.
   */
  private static boolean partOfTest(JobView job, Step step, Map<String, Boolean> known) {
    Boolean before = known.get(step.id());
    if (before != null) {
      return before;
    }
    known.put(step.id(), false);
    boolean result =
        step.states().stream().anyMatch(OF_THE_TEST_RUN::contains)
            || step.needs().stream()
                .flatMap(need -> job.index().step(need).stream())
                .anyMatch(need -> partOfTest(job, need, known));
    known.put(step.id(), result);
    return result;
  }

  private static void status(JobView job, Step step, List<Stage> stages, Drafts found) {
    StepTold told = job.told(step);
    if (job.byItems(step) && told.evidence().isEmpty() && anyItemTold(job, step)) {
      // Its items are judged one by one.
      return;
    }
    Kind kind =
        switch (told.status()) {
          case DONE -> null;
          case STARTED -> NOT_FINISHED;
          case SKIPPED -> SKIPPED;
          case UNSAID -> NOT_DONE;
        };
    if (kind != null) {
      found
          .add(kind, step.id(), step.label())
          .restingOn(step.needs())
          .weighs(Weight.CHECK, kind.equals(SKIPPED) ? Kind.AFTER_TEST : stages)
          .seenIn(told.evidence());
    }
  }

  private static boolean anyItemTold(JobView job, Step step) {
    return Stream.concat(step.off().stream(), step.on().stream())
        .flatMap(id -> job.index().item(id).stream())
        .anyMatch(item -> job.account(item).mentioned());
  }

  /** The order of a tear-down is no more than a suggestion for the way back. */
  private static void reverse(JobView job, Step step, Drafts found) {
    if (!job.byItems(step) || step.on().isEmpty()) {
      return;
    }
    int on = job.lastFitted(step.on().get(0));
    for (Step need : step.needs().stream().flatMap(id -> job.index().step(id).stream()).toList()) {
      int before = need.on().isEmpty() ? -1 : job.lastFitted(need.on().get(0));
      if (on >= 0 && before > on) {
        found
            .add(NOT_REVERSED, step.id() + " " + need.id(), step.label())
            .about(List.of(step.id(), need.id()))
            .with("need", need.label())
            .seenIn(fitted(job, step))
            .seenIn(fitted(job, need));
      }
    }
  }

  private static List<Standing> fitted(JobView job, Step step) {
    String item = step.on().get(0);
    int last = job.lastFitted(item);
    return job.eventsOf(item).stream()
        .filter(event -> event.position() == last)
        .map(At::said)
        .toList();
  }

  private static void order(JobView job, Step step, Drafts found) {
    Optional<At<StepMarked>> begun = job.told(step).begun();
    if (begun.isEmpty() || job.byItems(step)) {
      return;
    }
    for (String id : step.needs()) {
      Optional<Step> need = job.index().step(id);
      Optional<At<StepMarked>> done = need.map(job::told).flatMap(StepTold::done);
      if (need.isPresent()
          && done.isPresent()
          && begun.get().happenedAt().isBefore(done.get().happenedAt())) {
        outOfOrder(job, step, need.get(), begun.get(), done.get(), found);
      }
    }
  }

  private static void outOfOrder(
      JobView job, Step step, Step need, At<StepMarked> begun, At<StepMarked> done, Drafts found) {
    boolean known =
        timeWasTold(begun) || timeWasTold(done) || needBegunAfter(job, step, need, begun);
    boolean putRight =
        job.told(step).lastRedone().filter(again -> again.position() > done.position()).isPresent();
    Draft draft =
        found
            .add(BEFORE_NEED, step.id() + " " + need.id(), step.label())
            .about(List.of(step.id(), need.id()));
    if (putRight) {
      draft.weighs(Weight.NOTE, List.of());
    } else {
      draft.weighs(known ? Weight.STOP : Weight.CHECK, Kind.ALL);
    }
    if (!known && begun.said().entry().seq() > done.said().entry().seq()) {
      draft.restingOn(List.of(ClockRule.KEY));
    }
    draft
        .with("need", need.label())
        .with("begun", FindingText.when(begun.said()))
        .with("done", FindingText.when(done.said()))
        .with("how", known ? FindingText.TIMES_TOLD : FindingText.TIMES_OF_TELLING)
        .seenIn(begun.said())
        .seenIn(done.said());
  }

  /** What rested on a step that was done once more may have been done on the first doing. */
  private static void redone(JobView job, Step step, Drafts found) {
    Optional<At<StepMarked>> again = job.told(step).lastRedone();
    if (again.isEmpty()) {
      return;
    }
    int position = again.get().position();
    List<Step> resting =
        job.plan().steps().stream()
            .filter(each -> each.needs().contains(step.id()))
            .filter(each -> doneBeforeAndNotAgain(job.told(each), position))
            .toList();
    Draft draft =
        found
            .add(REDONE, step.id(), step.label())
            .with("when", FindingText.when(again.get().said()))
            .with("resting", FindingText.doneInBetween(resting.stream().map(Step::label).toList()))
            .seenIn(job.told(step).evidence());
    if (!resting.isEmpty()) {
      draft.weighs(Weight.CHECK, Kind.AFTER_TEST);
    }
  }

  private static boolean doneBeforeAndNotAgain(StepTold told, int position) {
    return told.done().filter(done -> done.position() < position).isPresent()
        && told.lastRedone().filter(again -> again.position() > position).isEmpty();
  }

  /** The time of telling says little: people do four things and then tell them. */
  private static boolean timeWasTold(At<StepMarked> mark) {
    Instant recorded = mark.said().entry().recordedAt();
    return Duration.between(mark.happenedAt(), recorded).compareTo(TOLD_LATER) >= 0
        || mark.said().evidence().size() > 1;
  }

  /**
   * The need was said to begin only after the step was said to be done: that is no mere order of
   * telling.
   */
  private static boolean needBegunAfter(JobView job, Step step, Step need, At<StepMarked> begun) {
    int end = job.told(step).done().map(At::position).orElse(begun.position());
    return job.told(need).started().filter(start -> start.position() > end).isPresent();
  }

  private static void states(JobView job, Step step, Drafts found) {
    Optional<At<StepMarked>> begun = job.told(step).begun();
    if (begun.isEmpty()) {
      return;
    }
    for (MachineState state : step.states()) {
      if (!heldBefore(job, begun.get(), state)) {
        found
            .add(STATE_UNSAID, step.id() + " " + state, step.label())
            .about(List.of(step.id()))
            .restingOn(List.of(StateRules.key(state)))
            .with("state", FindingText.state(state))
            .with("when", FindingText.when(begun.get().said()))
            .seenIn(begun.get().said());
      }
    }
  }

  /** A state said at the very time of the step counts, whichever was noted first. */
  private static boolean heldBefore(JobView job, At<StepMarked> begun, MachineState state) {
    if (job.states().holdsBefore(begun.position(), state)) {
      return true;
    }
    return job.states().all().stream()
        .anyMatch(
            each ->
                each.statement().state() == state && each.happenedAt().equals(begun.happenedAt()));
  }

  /** One line per step, in plan order. */
  static List<StepLine> lines(JobView job) {
    List<StepLine> lines = new ArrayList<>();
    for (Step step : job.plan().steps()) {
      StepTold told = job.told(step);
      Instant started = told.started().map(At::happenedAt).orElse(null);
      Instant done = told.done().map(At::happenedAt).orElse(null);
      lines.add(
          new StepLine(
              step.id(),
              step.label(),
              told.status(),
              started,
              done,
              took(started, done, job.pauses()),
              step.minutes()));
    }
    return lines;
  }

  /** Working time without pauses; null when it can't be told. */
  static @Nullable Duration took(@Nullable Instant started, @Nullable Instant done, Pauses pauses) {
    if (started == null || done == null || done.isBefore(started)) {
      return null;
    }
    return Duration.between(started, done).minus(pauses.within(started, done));
  }

  /** True when a step was begun, skipped or done. */
  static boolean mentioned(JobView job, Step step) {
    return job.told(step).status() != StepStatus.UNSAID;
  }
}
