package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.Posting;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.reconcile.Outcome.FluidLine;
import tallyback.reconcile.Outcome.FluidPart;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.trade.Uncertainty;

/**
 * The sum of one fluid system with its uncertainty. Every reading has two components: the error of
 * the vessel's scale, common to all readings of that vessel and so fully correlated with its sign;
 * and how finely it was read, half a step of the last figure said and never more than the vessel's
 * tolerance, on its own for each reading (JCGM 100:2008, F.2.2.1, from memory).
 */
final class FluidSums {

  /** What moved in or out, with its uncertainty. Amounts in litres. */
  record Sum(Rational value, Rational uncertainty, String origin) {

    /** True when the value is larger than its uncertainty, either way. */
    boolean tells() {
      return value.abs().compareTo(uncertainty) > 0;
    }
  }

  /**
   * One move into the system or out of it, as it counts in the sums.
   *
   * @param posting the move
   * @param litres its volume at 20 degC where that can be told, else as read
   * @param halfWidths how far it may be off, by source, each source being one error for all moves;
   *     with the sign of the move, plus for out
   * @param origins where that comes from, in words
   */
  record Read(
      Posting posting,
      Rational litres,
      List<Uncertainty.Component> halfWidths,
      List<String> origins) {}

  private final JobView job;
  private final FluidSystem system;
  private final FluidAccount account;
  private final List<Read> reads;
  private final boolean anyWarm;
  private final Sum shortage;
  private @Nullable Sum out;
  private @Nullable Map<String, List<Read>> outByPlace;

  FluidSums(JobView job, FluidSystem system) {
    this.job = job;
    this.system = system;
    this.account = job.account(system);
    this.reads =
        account.postings().stream().filter(each -> signOf(each) != 0).map(this::read).toList();
    this.anyWarm =
        reads.stream().anyMatch(each -> !each.litres().equals(each.posting().quantity()));
    this.shortage = shortageOf();
  }

  /** What the new parts that go in dry will hold; nought when nothing came out or went in. */
  Rational dryParts() {
    Amount dry = system.dryParts();
    return dry == null || dry.unit().dimension() != Dimension.VOLUME || reads.isEmpty()
        ? Rational.ZERO
        : dry.base();
  }

  /** What went in and what came out, by when it happened. */
  List<Read> reads() {
    return reads;
  }

  FluidAccount account() {
    return account;
  }

  int decimals() {
    return Books.decimals(account);
  }

  /** How much more came out than went in; negative for an excess. */
  Sum shortage() {
    return shortage;
  }

  /** All that came out, whichever way. */
  Sum out() {
    if (out == null) {
      out = sum(reads.stream().filter(each -> each.posting().from() == Account.SYSTEM).toList());
    }
    return out;
  }

  /** All that went in. */
  Sum in() {
    Sum negative =
        sum(reads.stream().filter(each -> each.posting().to() == Account.SYSTEM).toList());
    return new Sum(negative.value().negate(), negative.uncertainty(), negative.origin());
  }

  /** All that came out at one drain point. */
  Sum outAt(String point) {
    if (outByPlace == null) {
      outByPlace =
          reads.stream()
              .filter(each -> each.posting().from() == Account.SYSTEM)
              .filter(each -> moved(each.posting()).place() != null)
              .collect(
                  Collectors.groupingBy(
                      each -> Objects.requireNonNull(moved(each.posting()).place())));
    }
    return sum(outByPlace.getOrDefault(point, List.of()));
  }

  private Sum shortageOf() {
    Sum moved = sum(reads);
    Rational dry = dryParts();
    if (dry.signum() == 0) {
      return moved;
    }
    double width = dry.times(Tolerances.DRY_PARTS_SHARE).toDouble();
    Rational uncertainty =
        Tolerances.roundedUp(
            Uncertainty.quadrature(
                moved.uncertainty().toDouble(),
                Uncertainty.COVERAGE_FACTOR * Uncertainty.ofRectangular(width)));
    return new Sum(
        moved.value().plus(dry), uncertainty, moved.origin() + ", " + FindingText.DRY_PARTS);
  }

  private static Sum sum(List<Read> reads) {
    List<Uncertainty.Component> components = new ArrayList<>();
    Set<String> origins = new LinkedHashSet<>();
    Rational total = Rational.ZERO;
    for (Read read : reads) {
      int sign = signOf(read.posting());
      total = sign > 0 ? total.plus(read.litres()) : total.minus(read.litres());
      components.addAll(read.halfWidths());
      origins.addAll(read.origins());
    }
    Rational uncertainty = Tolerances.roundedUp(Uncertainty.expanded(components));
    return new Sum(total, uncertainty, String.join(", ", origins));
  }

  private static int signOf(Posting posting) {
    if (posting.from() == Account.SYSTEM) {
      return 1;
    }
    return posting.to() == Account.SYSTEM ? -1 : 0;
  }

  private Read read(Posting posting) {
    FluidMoved moved = moved(posting);
    String own = posting.said().entry().id();
    int sign = signOf(posting);
    List<Uncertainty.Component> halfWidths = new ArrayList<>();
    List<String> origins = new ArrayList<>();
    readOff(posting, moved, sign, halfWidths, origins);
    Optional<Densities.Density> weighed =
        weighed(moved) ? Densities.of(moved, fluidOf(moved)) : Optional.empty();
    if (weighed.isPresent()) {
      Rational density = posting.quantity().times(weighed.get().halfWidth());
      halfWidths.add(new Uncertainty.Component(weighed.get().source(), sign * density.toDouble()));
      origins.add(weighed.get().origin());
      return new Read(posting, posting.quantity(), halfWidths, origins);
    }
    Warmths.At20 at20 = Warmths.of(job, posting.said(), moved, fluidOf(moved));
    if (at20.halfWidth().signum() > 0) {
      halfWidths.add(
          new Uncertainty.Component(
              "temperature of " + own,
              sign * posting.quantity().times(at20.halfWidth()).toDouble()));
    }
    if (!at20.origin().isEmpty()) {
      origins.add(at20.origin());
    }
    return new Read(posting, posting.quantity().times(at20.factor()), halfWidths, origins);
  }

  /** The vessel's or scale's own error, and how finely it was read. */
  private void readOff(
      Posting posting,
      FluidMoved moved,
      int sign,
      List<Uncertainty.Component> halfWidths,
      List<String> origins) {
    String own = posting.said().entry().id();
    Optional<Instrument> vessel = vesselOf(moved);
    Rational scale = scaleHalfWidth(moved, posting.quantity(), vessel);
    origins.add(originOf(moved, vessel));
    halfWidths.add(
        new Uncertainty.Component(
            vessel.map(Instrument::id).orElse("scale of " + own), sign * scale.toDouble()));
    Rational reading = scale;
    if (moved.about()) {
      reading = posting.quantity().times(Tolerances.ABOUT_SHARE);
      origins.add(FindingText.ABOUT);
    } else if (moved.amount() != null) {
      Rational figure =
          inLitres(Tolerances.halfLastFigure(moved.amount()), moved.amount(), posting.quantity());
      reading = figure.compareTo(scale) < 0 ? figure : scale;
    }
    halfWidths.add(new Uncertainty.Component("reading of " + own, sign * reading.toDouble()));
  }

  /** A part of what was said, as a part of the litres it comes to. */
  private static Rational inLitres(Rational part, Amount said, Rational litres) {
    return said.unit().dimension() == Dimension.VOLUME
        ? part
        : part.times(litres).dividedBy(said.base());
  }

  private static boolean weighed(FluidMoved moved) {
    return moved.amount() != null && moved.amount().unit().dimension() == Dimension.MASS;
  }

  /** The vessel or scale named, if it reads what was said: nobody reads kilograms off a jug. */
  private Optional<Instrument> vesselOf(FluidMoved moved) {
    Amount amount = moved.amount();
    return job.index()
        .instrument(moved.vessel())
        .filter(
            each -> amount == null || each.to().unit().dimension() == amount.unit().dimension());
  }

  private Optional<Fluid> fluidOf(FluidMoved moved) {
    return job.index().fluid(moved.fluid() == null ? system.fluid() : moved.fluid());
  }

  private static Rational scaleHalfWidth(
      FluidMoved moved, Rational litres, Optional<Instrument> vessel) {
    if (vessel.isEmpty()) {
      Rational share =
          moved.move() == FluidMove.LOST
              ? Tolerances.SPILLED_SHARE
              : Tolerances.UNNAMED_VESSEL_SHARE;
      return litres.times(share);
    }
    Amount said = moved.amount();
    if (said == null) {
      return Rational.ZERO;
    }
    Rational once = inLitres(Tolerances.halfWidth(vessel.get(), said), said, litres);
    return vessel.get().tolerancePercent() != null
        ? once
        : once.times(fillings(said, vessel.get()));
  }

  /** How often a vessel was filled to carry an amount: an absolute tolerance counts each time. */
  private static Rational fillings(Amount said, Instrument vessel) {
    if (vessel.to().base().signum() <= 0) {
      return Rational.of(1, 1);
    }
    double times = Math.ceil(said.base().dividedBy(vessel.to().base()).toDouble());
    return Rational.of(Math.max(1, (long) times), 1);
  }

  private static String originOf(FluidMoved moved, Optional<Instrument> vessel) {
    if (vessel.isPresent()) {
      return Tolerances.inWords(vessel.get()) + FindingText.FROM_PLAN;
    }
    return moved.move() == FluidMove.LOST ? FindingText.BY_EYE : FindingText.VESSEL_NOT_SAID;
  }

  static FluidMoved moved(Posting posting) {
    if (posting.said().statement() instanceof FluidMoved moved) {
      return moved;
    }
    throw new IllegalStateException("only fluid moves are booked to fluid accounts");
  }

  /** Litres that moved in one of the ways given. */
  private Rational total(Set<FluidMove> moves) {
    Rational total = Rational.ZERO;
    for (Read read : reads) {
      if (moves.contains(moved(read.posting()).move())) {
        total = total.plus(read.litres());
      }
    }
    return total;
  }

  /** True when something was poured or drained of which no usable amount was said. */
  boolean someAmountUnsaid() {
    return account.uncounted().stream()
        .anyMatch(
            said ->
                said.statement() instanceof FluidMoved moved && moved.move() != FluidMove.TO_WASTE);
  }

  /**
   * True when the arithmetic is too coarse for what matters to the machine, and no level outranks
   * it.
   */
  boolean jugsCannotTell() {
    Amount matters = system.matters();
    return matters != null
        && matters.unit().dimension() == Dimension.VOLUME
        && !account.postings().isEmpty()
        && !shortage.tells()
        && shortage.uncertainty().compareTo(matters.base()) > 0
        && !job.levelSettled(system);
  }

  /** True when an amount is smaller than what the plan says matters to the machine. */
  boolean tooSmallToMatter(Rational litres) {
    Amount matters = system.matters();
    return matters != null
        && matters.unit().dimension() == Dimension.VOLUME
        && litres.abs().compareTo(matters.base()) < 0;
  }

  /** For example "0.62 L"; the size without its sign. */
  String litres(Rational value) {
    return Books.shown(value.abs(), decimals()).toString();
  }

  FluidSum line() {
    Amount capacity = system.capacity();
    return new FluidSum(
        system.id(),
        system.label(),
        capacity,
        shown(total(Set.of(FluidMove.OUT, FluidMove.BLED_OUT, FluidMove.LEFT_IN_PART))),
        shown(total(Set.of(FluidMove.LOST))),
        shown(total(Set.of(FluidMove.IN, FluidMove.PUT_BACK))),
        shown(shortage.value()),
        shown(shortage.uncertainty()),
        lines(),
        says());
  }

  private List<FluidLine> lines() {
    Map<FluidPart, Rational> parts = new EnumMap<>(FluidPart.class);
    for (Read read : reads) {
      parts.merge(partOf(moved(read.posting()).move()), read.litres(), Rational::plus);
    }
    parts.put(FluidPart.DRY_PARTS, dryParts());
    return parts.entrySet().stream()
        .filter(each -> each.getValue().signum() > 0)
        .map(each -> new FluidLine(each.getKey(), shown(each.getValue())))
        .toList();
  }

  private static FluidPart partOf(FluidMove move) {
    return switch (move) {
      case OUT -> FluidPart.DRAINED;
      case LEFT_IN_PART -> FluidPart.LEFT_IN_PART;
      case BLED_OUT -> FluidPart.BLED_OUT;
      case LOST -> FluidPart.SPILLED;
      case IN -> FluidPart.FILLED;
      case PUT_BACK -> FluidPart.PUT_BACK;
      case TO_WASTE -> throw new IllegalStateException("waste moves nothing in the system");
    };
  }

  /** What was inside before and is now, where the plan knows what was inside. */
  private String content() {
    Amount before = system.before();
    if (before == null || before.unit().dimension() != Dimension.VOLUME || reads.isEmpty()) {
      return "";
    }
    Sum moved = sum(reads);
    Rational after = before.base().minus(moved.value());
    return FindingText.sumContent(
        litres(before.base()),
        shown(after).toString(),
        litres(moved.uncertainty()),
        system.capacity());
  }

  /** Flush water that came in, was let out again, and stayed in part. */
  private String flushWater() {
    return Mixture.flushWater(job, system)
        .map(
            share ->
                FindingText.sumFlushWater(
                    litres(Tolerances.roundedUp(share.litres() * share.share())),
                    litres(Tolerances.roundedUp(share.litres() * share.expanded()))))
        .orElse("");
  }

  private Amount shown(Rational litres) {
    return Books.shown(litres, decimals());
  }

  private String says() {
    if (!account.mentioned()) {
      return FindingText.SUM_NOTHING_SAID;
    }
    return sentence()
        + (dryParts().signum() > 0 ? FindingText.sumDry(litres(dryParts())) : "")
        + content()
        + flushWater()
        + (anyWarm ? FindingText.SUM_AT_20 : "");
  }

  private String sentence() {
    String sum = litres(shortage.value()) + " ± " + litres(shortage.uncertainty());
    if (job.levelSettled(system)) {
      return FindingText.SUM_SETTLED + sum + ".";
    }
    if (someAmountUnsaid()) {
      return FindingText.SUM_INCOMPLETE + sum + ".";
    }
    if (jugsCannotTell()) {
      return FindingText.SUM_CANNOT_TELL + sum + ".";
    }
    if (!shortage.tells()) {
      return FindingText.SUM_AGREES + sum + ".";
    }
    return (shortage.value().signum() > 0 ? FindingText.SUM_SHORT : FindingText.SUM_EXCESS)
        + sum
        + ".";
  }
}
