package tallyback.reconcile;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.Warmth;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidBase;
import tallyback.trade.Glycol;
import tallyback.trade.LiquidVolume;

/**
 * What a volume read warm measures at 20 degC, and how much less sure it is when no temperature was
 * said. Only for fluids of which the plan says what they are made of; of others, a warm volume is
 * only less sure.
 */
final class Warmths {

  /** A span of temperatures in degC and the words that say where it comes from. */
  private record Span(double middle, double halfWidth, String origin) {}

  /** Density of common oils at 60 degF. Common practice, no source. */
  private static final double OIL_KG_PER_M3 = 880;

  /** Strength taken when the plan gives none: it moves the factor by less than 0.4 % at 80 degC. */
  private static final double USUAL_SHARE = 0.5;

  private static final Set<FluidMove> OUT_OF_MACHINE =
      EnumSet.of(FluidMove.OUT, FluidMove.LOST, FluidMove.BLED_OUT);

  private Warmths() {}

  /**
   * A volume at 20 degC.
   *
   * @param factor from the volume as read
   * @param halfWidth how far the factor may be off, as a share of the volume read
   * @param origin where that comes from, in words; empty when nothing is to be said
   */
  record At20(Rational factor, Rational halfWidth, String origin) {}

  private static final At20 AS_READ = new At20(Rational.of(1, 1), Rational.ZERO, "");

  static At20 of(JobView job, Standing said, FluidMoved moved, Optional<Fluid> fluid) {
    FluidBase base = fluid.map(Fluid::base).orElse(null);
    boolean warmSaid = moved.warmth() == Warmth.HOT || celsius(moved.temperature()).isPresent();
    if (base == null && !warmSaid) {
      return AS_READ;
    }
    Span span = span(job, said, moved);
    double share = shareOf(moved, fluid);
    double middle = factor(base, share, span.middle());
    if (base == null) {
      return new At20(
          Rational.of(1, 1), rounded(Math.abs(1 - middle)), FindingText.warmUnknownFluid());
    }
    double spread =
        Math.abs(
                factor(base, share, span.middle() - span.halfWidth())
                    - factor(base, share, span.middle() + span.halfWidth()))
            / 2;
    Rational factor =
        span.middle() == LiquidVolume.REFERENCE_C ? Rational.of(1, 1) : rounded(middle);
    return new At20(factor, rounded(spread), span.origin());
  }

  private static Span span(JobView job, Standing at, FluidMoved moved) {
    Optional<Double> said = celsius(moved.temperature());
    if (said.isPresent() && moved.temperature() != null) {
      return new Span(said.get(), 0, FindingText.broughtTo20(moved.temperature()));
    }
    if (moved.warmth() == Warmth.HOT) {
      return new Span(80, 20, FindingText.SAID_HOT);
    }
    boolean machineWarm =
        moved.warmth() == null && OUT_OF_MACHINE.contains(moved.move()) && job.saidWhileWarm(at);
    return machineWarm
        ? new Span(60, 40, FindingText.MACHINE_WARM)
        : new Span(LiquidVolume.REFERENCE_C, 15, FindingText.SHOP_TEMPERATURE);
  }

  private static Optional<Double> celsius(@Nullable Amount temperature) {
    return Optional.ofNullable(temperature)
        .filter(each -> each.unit().dimension() == Dimension.TEMPERATURE)
        .map(each -> each.base().toDouble());
  }

  private static double shareOf(FluidMoved moved, Optional<Fluid> fluid) {
    if (moved.form() == FluidForm.WATER) {
      return 0;
    }
    return fluid
        .map(Fluid::strength)
        .map(strength -> strength.base().toDouble() / 100)
        .orElse(USUAL_SHARE);
  }

  private static double factor(@Nullable FluidBase base, double share, double celsius) {
    if (base == null || base == FluidBase.OIL) {
      return LiquidVolume.oilFactor(OIL_KG_PER_M3, celsius);
    }
    return switch (base) {
      case ETHYLENE_GLYCOL -> LiquidVolume.mixtureFactor(Glycol.ETHYLENE, share, celsius);
      case PROPYLENE_GLYCOL -> LiquidVolume.mixtureFactor(Glycol.PROPYLENE, share, celsius);
      case WATER, OIL -> LiquidVolume.waterFactor(celsius);
    };
  }

  private static Rational rounded(double value) {
    return Tolerances.roundedUp(value);
  }
}
