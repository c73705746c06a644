package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidBase;
import tallyback.trade.Glycol;
import tallyback.trade.LiquidDensity;

/** What a litre of a fluid weighs at 20 degC, and how well that is known. */
final class Densities {

  /** Half-width of a strength that nobody read, as a share of it. Common practice, no source. */
  private static final double UNREAD_HALF_WIDTH = 0.5;

  private static final int DECIMALS = 6;

  private Densities() {}

  /**
   * A density.
   *
   * @param kilograms what a litre weighs
   * @param halfWidth how far that may be off, as a share of it
   * @param source what it stems from: an error common to all that was weighed of it
   * @param origin the same in words
   */
  record Density(Rational kilograms, Rational halfWidth, String source, String origin) {}

  /** Litres at 20 degC of what was weighed; empty when nobody knows what a litre weighs. */
  static Optional<Rational> litres(FluidMoved moved, Optional<Fluid> fluid) {
    Amount weight = moved.amount();
    return weight == null
        ? Optional.empty()
        : of(moved, fluid).map(density -> weight.base().dividedBy(density.kilograms()));
  }

  static Optional<Density> of(FluidMoved moved, Optional<Fluid> fluid) {
    FluidForm own = fluid.map(Fluid::form).orElse(null);
    FluidForm form = moved.form() == null ? own : moved.form();
    FluidBase base = fluid.map(Fluid::base).orElse(null);
    if (form == FluidForm.WATER || base == FluidBase.WATER) {
      return Optional.of(
          density(LiquidDensity.water(), 0, "density of water", FindingText.DENSITY_OF_WATER));
    }
    Amount given = fluid.map(Fluid::litreWeighs).orElse(null);
    if (given != null && given.unit().dimension() == Dimension.MASS && form == own) {
      return Optional.of(given(given, fluid.map(Fluid::id).orElse("")));
    }
    return Mixture.glycolOf(fluid).flatMap(glycol -> ofGlycol(glycol, form, moved, fluid));
  }

  private static Density given(Amount given, String fluid) {
    return new Density(
        given.base(),
        Tolerances.halfLastFigure(given).dividedBy(given.base()),
        "density of " + fluid,
        FindingText.densityOfPlan(given));
  }

  private static Optional<Density> ofGlycol(
      Glycol glycol, @Nullable FluidForm form, FluidMoved moved, Optional<Fluid> fluid) {
    boolean fromCan = moved.move() == FluidMove.IN;
    Amount label = fluid.map(Fluid::strength).orElse(null);
    boolean labelFits = label != null && (!fromCan || fluid.map(Fluid::form).orElse(form) == form);
    if (fromCan && form == FluidForm.CONCENTRATE && !labelFits) {
      return glycol == Glycol.ETHYLENE ? Optional.of(concentrate()) : Optional.empty();
    }
    if (fromCan && !labelFits) {
      return Optional.empty();
    }
    double share = labelFits && label != null ? label.base().toDouble() / 100 : UNREAD_HALF_WIDTH;
    double halfWidth = fromCan ? 0 : share * UNREAD_HALF_WIDTH;
    return ofShare(
        glycol, share, halfWidth, fromCan ? FindingText.BY_LABEL : FindingText.STRENGTH_UNREAD);
  }

  private static Density concentrate() {
    double least = LiquidDensity.LEAST_OF_ETHYLENE_CONCENTRATE;
    double most = LiquidDensity.MOST_OF_ETHYLENE_CONCENTRATE;
    return density(
        (least + most) / 2,
        (most - least) / 2,
        "density of concentrate",
        FindingText.DENSITY_OF_CONCENTRATE);
  }

  private static Optional<Density> ofShare(
      Glycol glycol, double share, double halfWidth, String strength) {
    OptionalDouble middle = LiquidDensity.mixture(glycol, share);
    OptionalDouble weak = LiquidDensity.mixture(glycol, Math.max(0, share - halfWidth));
    if (middle.isEmpty() || weak.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        density(
            middle.getAsDouble(),
            middle.getAsDouble() - weak.getAsDouble(),
            "density of a mixture, " + strength,
            FindingText.densityOfMixture(percent(share), strength)));
  }

  private static String percent(double share) {
    return BigDecimal.valueOf(share * 100).setScale(0, RoundingMode.HALF_UP).toPlainString();
  }

  private static Density density(double kilograms, double halfWidth, String source, String words) {
    return new Density(
        Rational.of(BigDecimal.valueOf(kilograms).setScale(DECIMALS, RoundingMode.HALF_UP)),
        Tolerances.roundedUp(halfWidth / kilograms),
        source,
        words);
  }
}
