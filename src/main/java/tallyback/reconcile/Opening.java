package tallyback.reconcile;

import java.util.EnumSet;
import java.util.Set;
import tallyback.books.Standing;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.SecondCheck;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;

/**
 * Which entries open something: take off, drain, start, put something in that must come out again.
 * Common practice, no source.
 */
final class Opening {

  private static final Set<ItemMove> ITEMS =
      EnumSet.of(ItemMove.OFF, ItemMove.SHEARED, ItemMove.DROPPED, ItemMove.MISSING);
  private static final Set<FluidMove> FLUIDS =
      EnumSet.of(FluidMove.OUT, FluidMove.LOST, FluidMove.BLED_OUT, FluidMove.LEFT_IN_PART);
  private static final Set<MachineState> STATES =
      EnumSet.of(
          MachineState.HOT,
          MachineState.BATTERY_OFF,
          MachineState.CAP_OPEN,
          MachineState.GUARDS_OFF,
          MachineState.RUNNING,
          MachineState.LEAK);
  private static final Set<StepMark> STEPS = EnumSet.of(StepMark.STARTED, StepMark.REDONE);

  private Opening() {}

  /** True for what only proves or makes safe: readings, checks, safe states, steps done. */
  static boolean proves(Standing said) {
    Statement statement = said.statement();
    if (statement instanceof StateSaid || statement instanceof StepMarked) {
      return !opens(said);
    }
    return statement instanceof Measured
        || statement instanceof SecondCheck
        || (statement instanceof Tightened told && told.state() == TightnessState.CHECKED);
  }

  static boolean opens(Standing said) {
    Statement statement = said.statement();
    if (statement instanceof ItemsMoved moved) {
      return ITEMS.contains(moved.move());
    }
    if (statement instanceof TemporaryMoved moved) {
      return moved.in();
    }
    if (statement instanceof FluidMoved moved) {
      return FLUIDS.contains(moved.move());
    }
    if (statement instanceof StepMarked marked) {
      return STEPS.contains(marked.mark());
    }
    if (statement instanceof StateSaid state) {
      return STATES.contains(state.state());
    }
    return statement instanceof ProblemSeen;
  }
}
