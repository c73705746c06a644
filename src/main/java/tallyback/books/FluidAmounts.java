package tallyback.books;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMoved;
import tallyback.plan.Plan.FluidSystem;

/** How many litres a move of fluid comes to, measured or weighed. */
record FluidAmounts(PlanIndex index, Weighing weighing) {

  /** Exact for a volume; empty for what is neither a volume nor a weight with a known density. */
  Optional<Rational> litres(FluidMoved moved) {
    Amount amount = moved.amount();
    if (amount == null || amount.value().signum() <= 0) {
      return Optional.empty();
    }
    return switch (amount.unit().dimension()) {
      case VOLUME -> Optional.of(amount.base());
      case MASS -> weighing.litres(moved, index.fluid(fluidOf(moved)));
      default -> Optional.empty();
    };
  }

  private @Nullable String fluidOf(FluidMoved moved) {
    return moved.fluid() != null
        ? moved.fluid()
        : index
            .systemMeant(moved.system(), moved.place(), null)
            .map(FluidSystem::fluid)
            .orElse(null);
  }

  /** Why an amount that was said can't be counted; null when it can, or has no unit yet. */
  Remark.@Nullable Why unusable(FluidMoved moved) {
    Amount amount = moved.amount();
    if (amount == null || amount.unitUnsaid() || litres(moved).isPresent()) {
      return null;
    }
    Dimension dimension = amount.unit().dimension();
    if (dimension != Dimension.VOLUME && dimension != Dimension.MASS) {
      return Remark.Why.NOT_A_VOLUME;
    }
    return amount.value().signum() <= 0
        ? Remark.Why.IMPOSSIBLE_AMOUNT
        : Remark.Why.WEIGHT_WITHOUT_DENSITY;
  }
}
