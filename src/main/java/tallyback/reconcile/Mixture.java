package tallyback.reconcile;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidBase;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.trade.Glycol;

/** What is mixed in a system at the end: glycol with water, and new fluid with old. */
final class Mixture {

  /** A concentrate holds up to 5 % by mass of water (JIS K 2234). */
  private static final double NEAT_SHARE = 0.975;

  private static final double NEAT_HALF_WIDTH = 0.025;

  /** Half-width of a strength that nobody read, as a share of it. Common practice, no source. */
  private static final double UNREAD_HALF_WIDTH = 0.5;

  /** Half-width of a content taken as the capacity. Common practice, no source. */
  private static final double CONTENT_HALF_WIDTH = 0.1;

  /** Half a step of a label's whole percent. */
  private static final double LABEL_HALF_WIDTH = 0.005;

  private final JobView job;
  private final FluidSystem system;
  private final FluidSums sums;
  private final Set<String> origins = new LinkedHashSet<>();

  private Mixture(JobView job, FluidSystem system) {
    this.job = job;
    this.system = system;
    this.sums = job.sums(system);
  }

  /** The glycol of a fluid, if that is what it is made of. */
  static Optional<Glycol> glycolOf(Optional<Fluid> fluid) {
    FluidBase base = fluid.map(Fluid::base).orElse(null);
    if (base == FluidBase.ETHYLENE_GLYCOL) {
      return Optional.of(Glycol.ETHYLENE);
    }
    return base == FluidBase.PROPYLENE_GLYCOL ? Optional.of(Glycol.PROPYLENE) : Optional.empty();
  }

  /**
   * A share with where its uncertainty comes from.
   *
   * @param share the share
   * @param origin words
   */
  record Share(Mixing.Result share, String origin) {}

  /**
   * Glycol by volume in the end; empty when the system holds none, nothing was poured, or some
   * amount or strength is not known.
   */
  static Optional<Share> strength(JobView job, FluidSystem system) {
    Optional<Glycol> glycol = glycolOf(job.index().fluid(system.fluid()));
    Mixture mixture = new Mixture(job, system);
    if (glycol.isEmpty() || !mixture.whole()) {
      return Optional.empty();
    }
    return mixture
        .strengthBefore(glycol.get())
        .flatMap(before -> mixture.follow(before, mixture::strengthPoured));
  }

  /** Share of the old fluid in the end; empty when some amount is not known. */
  static Optional<Share> oldFluid(JobView job, FluidSystem system) {
    Mixture mixture = new Mixture(job, system);
    return mixture.whole()
        ? mixture.follow(
            new Mixing.Strength(1, 0, "old fluid"),
            read -> Optional.of(new Mixing.Strength(0, 0, "new fluid")))
        : Optional.empty();
  }

  /**
   * Share of flush water in the end; empty when none was poured before something came out, or some
   * amount is not known.
   */
  static Optional<Mixing.Result> flushWater(JobView job, FluidSystem system) {
    Mixture mixture = new Mixture(job, system);
    return mixture.flushed() && mixture.whole()
        ? mixture
            .follow(
                new Mixing.Strength(0, 0, "what was inside"),
                read -> Optional.of(new Mixing.Strength(mixture.isWater(read) ? 1 : 0, 0, "water")))
            .map(Share::share)
        : Optional.empty();
  }

  private boolean flushed() {
    boolean water = false;
    for (FluidSums.Read read : sums.reads()) {
      if (water && FluidSums.moved(read.posting()).move() == FluidMove.OUT) {
        return true;
      }
      water |= isWater(read);
    }
    return false;
  }

  /** Plain water poured into a system that is not filled with it. */
  private boolean isWater(FluidSums.Read read) {
    FluidMoved moved = FluidSums.moved(read.posting());
    Optional<Fluid> said = job.index().fluid(moved.fluid());
    Optional<Fluid> own = job.index().fluid(system.fluid());
    boolean ownIsWater =
        own.map(Fluid::form).orElse(null) == FluidForm.WATER
            || own.map(Fluid::base).orElse(null) == FluidBase.WATER;
    return !ownIsWater
        && moved.move() == FluidMove.IN
        && (moved.form() == FluidForm.WATER
            || said.map(Fluid::form).orElse(null) == FluidForm.WATER
            || said.map(Fluid::base).orElse(null) == FluidBase.WATER);
  }

  /** True when fluid went in, every amount was said, and it is known how much was inside before. */
  private boolean whole() {
    boolean poured =
        sums.reads().stream()
            .anyMatch(read -> read.posting().to() == tallyback.model.Account.SYSTEM);
    return poured && !sums.someAmountUnsaid() && contentBefore().isPresent();
  }

  private Optional<Share> follow(
      Mixing.Strength before,
      java.util.function.Function<FluidSums.Read, Optional<Mixing.Strength>> poured) {
    Amount said = system.before();
    Rational content = contentBefore().orElse(Rational.ZERO);
    double halfWidth =
        said == null
            ? content.toDouble() * CONTENT_HALF_WIDTH
            : Tolerances.halfLastFigure(said).toDouble();
    sums.reads().forEach(read -> origins.addAll(read.origins()));
    if (said == null) {
      origins.add(FindingText.CONTENT_AS_CAPACITY);
    }
    return Mixing.follow(content, halfWidth, before, sums, poured)
        .map(result -> new Share(result, String.join(", ", origins)));
  }

  private Optional<Rational> contentBefore() {
    Amount content = system.before() == null ? system.capacity() : system.before();
    return Optional.ofNullable(content)
        .filter(each -> each.unit().dimension() == Dimension.VOLUME)
        .map(Amount::base);
  }

  private Optional<Mixing.Strength> strengthBefore(Glycol glycol) {
    int firstMove =
        job.fluidOf(system.id()).stream().mapToInt(At::position).min().orElse(Integer.MAX_VALUE);
    At<Measured> last = null;
    for (At<Measured> reading : readings(job, system)) {
      if (reading.position() < firstMove) {
        last = reading;
      }
    }
    if (last != null) {
      return strengthRead(glycol, last);
    }
    Amount strength = job.index().fluid(system.fluid()).map(Fluid::strength).orElse(null);
    if (strength == null) {
      return Optional.empty();
    }
    double share = strength.base().toDouble() / 100;
    origins.add(FindingText.STRENGTH_NOT_READ);
    return Optional.of(new Mixing.Strength(share, share * UNREAD_HALF_WIDTH, "strength before"));
  }

  private Optional<Mixing.Strength> strengthRead(Glycol glycol, At<Measured> reading) {
    Amount amount = reading.statement().amount();
    OptionalDouble share = shareOf(glycol, amount);
    if (amount == null || share.isEmpty()) {
      return Optional.empty();
    }
    Instrument gauge = job.index().instrument(reading.statement().instrument()).orElse(null);
    double tolerance = Tolerances.halfWidthOrNone(gauge, amount).toDouble();
    double halfWidth = tolerance / 100;
    if (amount.unit().dimension() == Dimension.TEMPERATURE) {
      double celsius = amount.base().toDouble();
      double weaker =
          glycol
              .volumeShareFreezingAt(Math.min(0, celsius + tolerance))
              .orElse(share.getAsDouble());
      halfWidth = share.getAsDouble() - weaker;
    }
    origins.add(gauge == null ? FindingText.NO_GAUGE : Tolerances.inWords(gauge));
    return Optional.of(new Mixing.Strength(share.getAsDouble(), halfWidth, "strength before"));
  }

  /** Share by volume that a strength means: a percentage, or the temperature it freezes at. */
  static OptionalDouble shareOf(Glycol glycol, @Nullable Amount amount) {
    if (amount == null) {
      return OptionalDouble.empty();
    }
    return switch (amount.unit().dimension()) {
      case SHARE -> OptionalDouble.of(amount.base().toDouble() / 100);
      case TEMPERATURE -> glycol.volumeShareFreezingAt(amount.base().toDouble());
      default -> OptionalDouble.empty();
    };
  }

  /** The readings of a system's strength, in order. */
  static List<At<Measured>> readings(JobView job, FluidSystem system) {
    return job.readings(Measure.STRENGTH).stream()
        .filter(
            each ->
                each.statement().subject() == null
                    || system.id().equals(each.statement().subject()))
        .filter(each -> each.statement().amount() != null)
        .toList();
  }

  private Optional<Mixing.Strength> strengthPoured(FluidSums.Read read) {
    FluidMoved moved = FluidSums.moved(read.posting());
    Optional<Fluid> fluid =
        job.index().fluid(moved.fluid() == null ? system.fluid() : moved.fluid());
    FluidForm form = moved.form() != null ? moved.form() : fluid.map(Fluid::form).orElse(null);
    boolean water =
        form == FluidForm.WATER || fluid.map(Fluid::base).orElse(null) == FluidBase.WATER;
    if (water) {
      return Optional.of(new Mixing.Strength(0, 0, "water"));
    }
    Amount label = fluid.map(Fluid::strength).orElse(null);
    boolean labelFits = label != null && fluid.map(Fluid::form).orElse(form) == form;
    if (label != null && labelFits) {
      double share = label.base().toDouble() / 100;
      return Optional.of(new Mixing.Strength(share, LABEL_HALF_WIDTH, label(fluid)));
    }
    if (form == FluidForm.CONCENTRATE) {
      origins.add(FindingText.NEAT_CONCENTRATE);
      return Optional.of(new Mixing.Strength(NEAT_SHARE, NEAT_HALF_WIDTH, "concentrate"));
    }
    return Optional.empty();
  }

  private static String label(Optional<Fluid> fluid) {
    return "label of " + fluid.map(Fluid::id).orElse("");
  }
}
