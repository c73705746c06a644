package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tallyback.books.Standing;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.reconcile.Outcome.StepStatus;

/** What was said of one step, in the order it happened. Filled once, then only read. */
final class StepTold {

  private final List<At<StepMarked>> marks = new ArrayList<>();

  void add(At<StepMarked> mark) {
    marks.add(mark);
  }

  Optional<At<StepMarked>> started() {
    return first(StepMark.STARTED);
  }

  /** When it was first finished. */
  Optional<At<StepMarked>> done() {
    return marks.stream()
        .filter(
            each ->
                each.statement().mark() == StepMark.DONE
                    || each.statement().mark() == StepMark.REDONE)
        .findFirst();
  }

  /** When it was first touched: begun, or finished when nobody said it had begun. */
  Optional<At<StepMarked>> begun() {
    return marks.stream().filter(each -> each.statement().mark() != StepMark.SKIPPED).findFirst();
  }

  /** When it was last done once more. */
  Optional<At<StepMarked>> lastRedone() {
    return marks.stream()
        .filter(each -> each.statement().mark() == StepMark.REDONE)
        .reduce((earlier, later) -> later);
  }

  private Optional<At<StepMarked>> first(StepMark mark) {
    return marks.stream().filter(each -> each.statement().mark() == mark).findFirst();
  }

  /** Done outweighs skipped, skipped outweighs begun. */
  StepStatus status() {
    if (done().isPresent()) {
      return StepStatus.DONE;
    }
    if (first(StepMark.SKIPPED).isPresent()) {
      return StepStatus.SKIPPED;
    }
    return started().isPresent() ? StepStatus.STARTED : StepStatus.UNSAID;
  }

  List<Standing> evidence() {
    return marks.stream().map(At::said).toList();
  }
}
