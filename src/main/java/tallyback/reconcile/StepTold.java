package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.reconcile.Outcome.StepStatus;

/** What was said of one step, in the order it happened. Filled once, then only read. */
final class StepTold {

  private final List<At<StepMarked>> marks = new ArrayList<>();
  private @Nullable At<StepMarked> started;
  private @Nullable At<StepMarked> skipped;
  private @Nullable At<StepMarked> done;
  private @Nullable At<StepMarked> begun;
  private @Nullable At<StepMarked> lastRedone;
  private StepStatus byItems = StepStatus.UNSAID;

  void add(At<StepMarked> mark) {
    marks.add(mark);
    switch (mark.statement().mark()) {
      case STARTED -> started = started == null ? mark : started;
      case SKIPPED -> skipped = skipped == null ? mark : skipped;
      case DONE -> done = done == null ? mark : done;
      case REDONE -> {
        done = done == null ? mark : done;
        lastRedone = mark;
      }
    }
    if (begun == null && mark.statement().mark() != StepMark.SKIPPED) {
      begun = mark;
    }
  }

  Optional<At<StepMarked>> started() {
    return Optional.ofNullable(started);
  }

  /** When it was first finished. */
  Optional<At<StepMarked>> done() {
    return Optional.ofNullable(done);
  }

  /** When it was first touched: begun, or finished when nobody said it had begun. */
  Optional<At<StepMarked>> begun() {
    return Optional.ofNullable(begun);
  }

  /** When it was last done once more. */
  Optional<At<StepMarked>> lastRedone() {
    return Optional.ofNullable(lastRedone);
  }

  /** What is told of a step by its items, when nobody spoke of the step itself. */
  static StepTold byItems(StepStatus status) {
    StepTold told = new StepTold();
    told.byItems = status;
    return told;
  }

  /** Done outweighs skipped, skipped outweighs begun. */
  StepStatus status() {
    if (done != null) {
      return StepStatus.DONE;
    }
    if (skipped != null) {
      return StepStatus.SKIPPED;
    }
    return started != null ? StepStatus.STARTED : byItems;
  }

  List<Standing> evidence() {
    return marks.stream().map(At::said).toList();
  }
}
