package tallyback.books;

import java.util.Optional;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMoved;
import tallyback.plan.Plan.Fluid;

/** Brings a fluid that was weighed to a volume: the books count litres and know no densities. */
@FunctionalInterface
public interface Weighing {

  /** Nothing is known of any density. */
  Weighing NONE = (moved, fluid) -> Optional.empty();

  /**
   * Litres of a weight.
   *
   * @param moved a move whose amount is a weight larger than nought
   * @param fluid the fluid it tells of, where the plan knows it
   * @return empty when it can't be told what a litre of it weighs
   */
  Optional<Rational> litres(FluidMoved moved, Optional<Fluid> fluid);
}
