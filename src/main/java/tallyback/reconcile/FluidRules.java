package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.books.FluidAccount;
import tallyback.books.Posting;
import tallyback.books.Standing;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Point;

/** What was drained and filled, against the plan and against itself. */
final class FluidRules implements Rule {

  private static final Kind SHORT =
      Kind.stop("fluid-short", Kind.ALL)
          .following("more-out-than-holds", "amount-unsaid", "unit-unsaid", "amount-unusable")
          .whileUnfinished();
  private static final Kind EXCESS =
      Kind.check("fluid-excess", Kind.AFTER_TEST)
          .following("drain-low", "amount-unsaid", "unit-unsaid", "amount-unusable");
  private static final Kind DRAIN_LOW =
      Kind.check("drain-low", Kind.HAND_OVER)
          .following("amount-unsaid", "unit-unsaid", "amount-unusable");
  private static final Kind MORE_OUT = Kind.check("more-out-than-holds", Kind.ALL);
  private static final Kind WRONG_FLUID = Kind.stop("wrong-fluid", Kind.ALL);
  private static final Kind WRONG_FORM = Kind.check("wrong-form", Kind.AFTER_TEST);
  private static final Kind AMOUNT_UNSAID = Kind.check("amount-unsaid", Kind.AFTER_TEST);

  /**
   * A drain that gave less than this share of the usual is worth a look. Common practice, no
   * source.
   */
  private static final Rational FAR_LESS = Rational.of(1, 2);

  @Override
  public List<Kind> kinds() {
    return List.of(SHORT, EXCESS, DRAIN_LOW, MORE_OUT, WRONG_FLUID, WRONG_FORM, AMOUNT_UNSAID);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (FluidSystem system : job.plan().systems()) {
      FluidSums sums = job.sums(system);
      if (sums.account().mentioned()) {
        amountUnsaid(job, system, found);
        moreOutThanHolds(system, sums, found);
        drainLow(system, sums, found);
        shortOrExcess(job, system, sums, found);
        wrongFluid(job, system, found);
      }
    }
  }

  private static void shortOrExcess(JobView job, FluidSystem system, FluidSums sums, Drafts found) {
    FluidSums.Sum shortage = sums.shortage();
    if (!shortage.tells()
        || sums.tooSmallToMatter(shortage.value())
        || job.levelSettled(system)
        || (shortage.value().signum() < 0 && fitsInside(system, sums))) {
      return;
    }
    Kind kind = shortage.value().signum() > 0 ? SHORT : EXCESS;
    found
        .add(kind, system.id(), system.label())
        .with("expected", expected(sums))
        .with("in", sums.litres(sums.out().value().plus(sums.dryParts()).minus(shortage.value())))
        .with("amount", sums.litres(shortage.value()))
        .with("uncertainty", sums.litres(shortage.uncertainty()))
        .with("origin", shortage.origin())
        .seenIn(moving(sums.account()));
  }

  private static String expected(FluidSums sums) {
    Rational dry = sums.dryParts();
    return FindingText.inAsMuchAsOut(
        sums.litres(sums.out().value()), dry.signum() > 0 ? sums.litres(dry) : null);
  }

  /**
   * With the content before known, more in than out is right as long as the book capacity is not
   * passed.
   */
  private static boolean fitsInside(FluidSystem system, FluidSums sums) {
    Optional<Rational> capacity = litresOf(system.capacity());
    if (capacity.isEmpty() || !sums.account().openingKnown()) {
      return false;
    }
    Rational after = sums.account().litres(Account.SYSTEM);
    return after.compareTo(capacity.get().plus(sums.shortage().uncertainty())) <= 0;
  }

  private static Optional<Rational> litresOf(@org.jspecify.annotations.Nullable Amount amount) {
    return Optional.ofNullable(amount)
        .filter(each -> each.unit().dimension() == Dimension.VOLUME)
        .map(Amount::base);
  }

  private static List<Standing> moving(FluidAccount account) {
    return account.postings().stream()
        .filter(each -> each.from() == Account.SYSTEM || each.to() == Account.SYSTEM)
        .map(Posting::said)
        .toList();
  }

  private static void moreOutThanHolds(FluidSystem system, FluidSums sums, Drafts found) {
    Optional<Rational> capacity = litresOf(system.capacity());
    FluidSums.Sum out = sums.out();
    if (capacity.isPresent()
        && out.value()
                .minus(refilledBetween(sums))
                .compareTo(capacity.get().plus(out.uncertainty()))
            > 0) {
      found
          .add(MORE_OUT, system.id(), system.label())
          .with("capacity", sums.litres(capacity.get()))
          .with("out", sums.litres(out.value()))
          .with("amount", sums.litres(out.value().minus(capacity.get())))
          .with("uncertainty", sums.litres(out.uncertainty()))
          .with("origin", out.origin())
          .seenIn(leaving(sums.account()));
    }
  }

  /** What went in before the last of it came out could come out again. */
  private static Rational refilledBetween(FluidSums sums) {
    Rational refilled = Rational.ZERO;
    Rational waiting = Rational.ZERO;
    for (Posting posting : sums.account().postings()) {
      if (posting.to() == Account.SYSTEM) {
        waiting = waiting.plus(posting.quantity());
      } else if (posting.from() == Account.SYSTEM) {
        refilled = refilled.plus(waiting);
        waiting = Rational.ZERO;
      }
    }
    return refilled;
  }

  private static List<Standing> leaving(FluidAccount account) {
    return account.postings().stream()
        .filter(each -> each.from() == Account.SYSTEM)
        .map(Posting::said)
        .toList();
  }

  private static void drainLow(FluidSystem system, FluidSums sums, Drafts found) {
    boolean drained = sums.account().postings().stream().anyMatch(each -> each.to() == Account.PAN);
    for (Point point : system.drains()) {
      Optional<Rational> share = litresOf(point.share());
      FluidSums.Sum out = sums.outAt(point.id());
      if (drained
          && share.isPresent()
          && out.value().plus(out.uncertainty()).compareTo(share.get().times(FAR_LESS)) < 0) {
        found
            .add(DRAIN_LOW, point.id(), point.label())
            .about(List.of(system.id()))
            .with("share", sums.litres(share.get()))
            .with("out", sums.litres(out.value()))
            .with("amount", sums.litres(share.get().minus(out.value())))
            .with("uncertainty", sums.litres(out.uncertainty()))
            .with("origin", out.origin().isEmpty() ? FindingText.NO_READING : out.origin())
            .seenIn(at(sums.account(), point));
      }
    }
  }

  private static List<Standing> at(FluidAccount account, Point point) {
    List<Standing> at = new ArrayList<>();
    for (Posting posting : account.postings()) {
      if (posting.said().statement() instanceof FluidMoved moved
          && point.id().equals(moved.place())) {
        at.add(posting.said());
      }
    }
    return at;
  }

  private static void amountUnsaid(JobView job, FluidSystem system, Drafts found) {
    for (Standing said : job.account(system).uncounted()) {
      if (said.statement() instanceof FluidMoved moved && moved.amount() == null) {
        List<String> about =
            moved.place() == null ? List.of(system.id()) : List.of(system.id(), moved.place());
        found
            .add(AMOUNT_UNSAID, said.entry().id(), system.label())
            .about(about)
            .with("what", FindingText.move(moved.move()))
            .seenIn(said);
      }
    }
  }

  private static void wrongFluid(JobView job, FluidSystem system, Drafts found) {
    Optional<Fluid> planned = job.index().fluid(system.fluid());
    for (At<FluidMoved> poured : job.fluidOf(system.id())) {
      FluidMoved moved = poured.statement();
      if (moved.move() != FluidMove.IN || planned.isEmpty()) {
        continue;
      }
      Optional<Fluid> said = job.index().fluid(moved.fluid());
      FluidForm form = moved.form() != null ? moved.form() : said.map(Fluid::form).orElse(null);
      boolean water =
          form == FluidForm.WATER
              && (planned.get().form() != null || Mixture.glycolOf(planned).isPresent());
      if (moved.fluid() != null && !water && !sameGrade(planned.get(), said)) {
        found
            .add(WRONG_FLUID, system.id() + " " + moved.fluid(), system.label())
            .about(List.of(system.id()))
            .with("planned", planned.get().label() + ", " + planned.get().grade())
            .with("said", said.map(FluidRules::named).orElse(moved.fluid()))
            .seenIn(poured.said());
      } else if (form != null
          && planned.get().form() != null
          && form != planned.get().form()
          && poured.position() > lastProof(job, system)
          && !job.mixtureProved(system)) {
        found
            .add(WRONG_FORM, system.id(), system.label())
            .with("planned", FindingText.form(planned.get().form()))
            .with("said", FindingText.form(form))
            .seenIn(poured.said());
      }
    }
  }

  private static String named(Fluid fluid) {
    return fluid.label() + ", " + fluid.grade();
  }

  private static boolean sameGrade(Fluid planned, Optional<Fluid> said) {
    return said.isPresent()
        && (said.get().id().equals(planned.id())
            || said.get().grade().equalsIgnoreCase(planned.grade()));
  }

  /**
   * Where a strength within the plan's limit was last read: that settles what concentrate and water
   * came to until then; -1 when it never was.
   */
  private static int lastProof(JobView job, FluidSystem system) {
    Optional<Limit> limit =
        job.plan().limits().stream()
            .filter(
                each -> each.measure() == Measure.STRENGTH && each.subject().equals(system.id()))
            .findFirst();
    List<At<Measured>> readings = job.readings(Measure.STRENGTH);
    for (int last = readings.size() - 1; limit.isPresent() && last >= 0; last--) {
      if (ReadingRules.within(limit.get(), readings.get(last).statement().amount())) {
        return readings.get(last).position();
      }
    }
    return -1;
  }

  /** Moves after which a sum is wanted. */
  static boolean opened(JobView job, FluidSystem system) {
    return job.fluidOf(system.id()).stream()
        .anyMatch(each -> !Set.of(FluidMove.TO_WASTE).contains(each.statement().move()));
  }
}
