package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.Measure;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Limit;
import tallyback.trade.Dilution;
import tallyback.trade.Glycol;

/**
 * Whether what was poured came to the strength that the plan asks for, and how much old fluid
 * stayed. A strength read after the last pouring outranks the arithmetic.
 */
final class MixtureRules implements Rule {

  private static final String[] CAUSES = {
    "wrong-fluid",
    "wrong-form",
    "more-out-than-holds",
    "drain-low",
    "fluid-short",
    "fluid-excess",
    "amount-unsaid",
    "unit-unsaid",
    "amount-unusable"
  };

  private static final Kind WEAK =
      Kind.check("mixture-weak", Kind.AFTER_TEST).following(CAUSES).whileUnfinished();
  private static final Kind STRONG =
      Kind.check("mixture-strong", Kind.AFTER_TEST).following(CAUSES).whileUnfinished();
  private static final Kind OLD_LEFT =
      Kind.check("old-fluid-left", Kind.HAND_OVER).following(CAUSES).whileUnfinished();

  private static final Rational HUNDRED = Rational.of(100, 1);

  /** How the arithmetic stands to the plan's limit. */
  private enum Standing {
    INSIDE,
    UNSURE,
    WEAK,
    STRONG
  }

  @Override
  public List<Kind> kinds() {
    return List.of(WEAK, STRONG, OLD_LEFT);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (FluidSystem system : job.plan().systems()) {
      if (job.account(system).mentioned()) {
        limitOf(job, system).ifPresent(limit -> strength(job, system, limit, found));
        oldFluid(job, system, found);
      }
    }
  }

  private static Optional<Limit> limitOf(JobView job, FluidSystem system) {
    return job.plan().limits().stream()
        .filter(each -> each.measure() == Measure.STRENGTH && each.subject().equals(system.id()))
        .findFirst();
  }

  /** True when the amounts poured prove that the mixture is within the plan's limit. */
  static boolean proved(JobView job, FluidSystem system) {
    Optional<Limit> limit = limitOf(job, system);
    Optional<Glycol> glycol = Mixture.glycolOf(job.index().fluid(system.fluid()));
    if (limit.isEmpty() || glycol.isEmpty()) {
      return false;
    }
    return Mixture.strength(job, system)
        .filter(
            share ->
                new Judged(glycol.get(), share.share(), limit.get()).stands() == Standing.INSIDE)
        .isPresent();
  }

  private static void strength(JobView job, FluidSystem system, Limit limit, Drafts found) {
    Optional<Glycol> glycol = Mixture.glycolOf(job.index().fluid(system.fluid()));
    if (glycol.isEmpty() || readSince(job, system)) {
      return;
    }
    Optional<Mixture.Share> strength = Mixture.strength(job, system);
    if (strength.isEmpty()) {
      return;
    }
    Judged judged = new Judged(glycol.get(), strength.get().share(), limit);
    Standing stands = judged.stands();
    if (stands == Standing.WEAK || stands == Standing.STRONG) {
      found
          .add(stands == Standing.WEAK ? WEAK : STRONG, system.id(), system.label())
          .with("limit", FindingText.range(limit.from(), limit.to()))
          .with("strength", judged.inWords())
          .with("difference", judged.difference(stands == Standing.WEAK))
          .with("origin", strength.get().origin())
          .with("pour", pour(job, system, glycol.get(), strength.get().share(), limit, stands))
          .seenIn(moving(job, system));
    }
  }

  private static boolean readSince(JobView job, FluidSystem system) {
    int lastMove =
        job.fluidOf(system.id()).stream()
            .filter(each -> each.statement().move() != tallyback.model.Statement.FluidMove.TO_WASTE)
            .mapToInt(At::position)
            .max()
            .orElse(-1);
    return Mixture.readings(job, system).stream().anyMatch(each -> each.position() > lastMove);
  }

  private static List<tallyback.books.Standing> moving(JobView job, FluidSystem system) {
    return job.account(system).postings().stream()
        .filter(each -> each.from() == Account.SYSTEM || each.to() == Account.SYSTEM)
        .map(tallyback.books.Posting::said)
        .toList();
  }

  /** A strength held against a limit, which is a share or a freezing point. */
  private record Judged(Glycol glycol, Mixing.Result result, Limit limit) {

    boolean byTemperature() {
      Amount bound = limit.from() == null ? limit.to() : limit.from();
      return bound != null && bound.unit().dimension() == Dimension.TEMPERATURE;
    }

    /** In percent, or the freezing point in degC; empty beyond the tables. */
    OptionalDouble value() {
      return byTemperature()
          ? glycol.freezesAtC(result.share())
          : OptionalDouble.of(result.share() * 100);
    }

    double uncertainty() {
      return byTemperature()
          ? glycol.uncertaintyOfFreezing(result.share(), result.expanded()).orElse(0)
          : result.expanded() * 100;
    }

    Standing stands() {
      if (value().isEmpty()) {
        boolean beyondTable = result.share() - result.expanded() > glycol.strongestByVolume();
        return beyondTable && limit.from() != null ? Standing.STRONG : Standing.UNSURE;
      }
      double high = bound(limit.to(), Double.POSITIVE_INFINITY);
      double low = bound(limit.from(), Double.NEGATIVE_INFINITY);
      double value = value().getAsDouble();
      boolean above = value - uncertainty() > high;
      boolean below = value + uncertainty() < low;
      if (above || below) {
        return above == byTemperature() ? Standing.WEAK : Standing.STRONG;
      }
      return value + uncertainty() <= high && value - uncertainty() >= low
          ? Standing.INSIDE
          : Standing.UNSURE;
    }

    private static double bound(@Nullable Amount bound, double none) {
      return bound == null ? none : bound.base().toDouble();
    }

    /** For example "about 25 % by volume (27 % by mass), freezes at −12 °C". */
    String inWords() {
      return FindingText.mixture(
          whole(result.share() * 100),
          mapped(glycol.massShare(result.share()), 100),
          mapped(glycol.freezesAtC(result.share()), 1));
    }

    private static @Nullable String mapped(OptionalDouble value, int times) {
      return value.isEmpty() ? null : whole(value.getAsDouble() * times);
    }

    String difference(boolean weak) {
      if (value().isEmpty()) {
        return FindingText.BEYOND_TABLES;
      }
      double value = value().getAsDouble();
      boolean upper = weak == byTemperature();
      double bound = bound(upper ? limit.to() : limit.from(), value);
      return FindingText.tooFar(
          oneDecimal(Math.abs(value - bound)), oneDecimal(uncertainty()), byTemperature(), weak);
    }
  }

  private static String whole(double value) {
    return BigDecimal.valueOf(value).setScale(0, RoundingMode.HALF_UP).toPlainString();
  }

  private static String oneDecimal(double value) {
    return BigDecimal.valueOf(value).setScale(1, RoundingMode.HALF_UP).toPlainString();
  }

  /** What to drain and pour to reach the nearer end of the limit, in words. */
  private static String pour(
      JobView job,
      FluidSystem system,
      Glycol glycol,
      Mixing.Result result,
      Limit limit,
      Standing stands) {
    boolean upper = (stands == Standing.WEAK) == new Judged(glycol, result, limit).byTemperature();
    Amount wanted = upper ? limit.to() : limit.from();
    OptionalDouble share = Mixture.shareOf(glycol, wanted);
    if (share.isEmpty()) {
      return FindingText.MIX_AFTER_MANUAL;
    }
    Amount capacity = system.capacity();
    Rational inside = rounded(result.litres());
    Rational content =
        capacity == null || capacity.base().compareTo(inside) < 0 ? inside : capacity.base();
    Dilution.Recipe recipe =
        Dilution.toReach(
            content,
            inside,
            rounded(result.share()),
            concentrateOf(job, glycol),
            rounded(share.getAsDouble()));
    return FindingText.recipe(recipe, job.sums(system)::litres);
  }

  private static Rational rounded(double value) {
    return Rational.of(BigDecimal.valueOf(value).setScale(6, RoundingMode.HALF_UP));
  }

  private static Rational concentrateOf(JobView job, Glycol glycol) {
    return job.plan().fluids().stream()
        .filter(each -> each.form() == FluidForm.CONCENTRATE)
        .filter(each -> Mixture.glycolOf(Optional.of(each)).filter(glycol::equals).isPresent())
        .map(Fluid::strength)
        .filter(java.util.Objects::nonNull)
        .map(strength -> strength.base().dividedBy(HUNDRED))
        .filter(share -> share.signum() > 0)
        .findFirst()
        .orElse(Rational.of(1, 1));
  }

  private static void oldFluid(JobView job, FluidSystem system, Drafts found) {
    Amount most = system.oldAtMost();
    if (most == null) {
      return;
    }
    Mixture.Share left = Mixture.oldFluid(job, system).orElse(null);
    if (left == null) {
      return;
    }
    double share = left.share().share();
    double expanded = left.share().expanded();
    if (share - expanded > most.base().toDouble() / 100) {
      found
          .add(OLD_LEFT, system.id(), system.label())
          .with("most", most)
          .with("left", whole(share * 100))
          .with("uncertainty", whole(expanded * 100))
          .with("rounds", rounds(job, system, left.share(), most))
          .with("origin", left.origin())
          .seenIn(moving(job, system));
    }
  }

  /** How many more rounds like this one bring it down, in words. */
  private static String rounds(JobView job, FluidSystem system, Mixing.Result left, Amount most) {
    Rational content = rounded(left.litres());
    Rational drained = job.sums(system).out().value();
    Rational wanted = most.base().dividedBy(HUNDRED);
    boolean usable = drained.signum() > 0 && drained.compareTo(content) < 0;
    OptionalInt rounds =
        usable
            ? Dilution.roundsTo(drained, content, rounded(left.share()), wanted)
            : OptionalInt.empty();
    return rounds.isPresent() ? FindingText.moreRounds(rounds.getAsInt()) : FindingText.DRAIN_AGAIN;
  }
}
