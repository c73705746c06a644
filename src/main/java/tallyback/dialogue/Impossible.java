package tallyback.dialogue;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.ItemAccount;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Finding;
import tallyback.model.Rational;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.reconcile.Reconciler;
import tallyback.reconcile.TearDown;

/**
 * What can't be as it was heard: it contradicts what was said before, what a thing holds or how
 * many there are, what an instrument can show, or physics. Only that: a value that merely differs
 * from the plan is what the log is for, and is noted as said.
 */
final class Impossible {

  private static final String MORE_OUT_THAN_HOLDS = "more-out-than-holds";

  /** Absolute zero (SI brochure, 9th edition, 2.3.1). */
  private static final Amount COLDEST = Amount.of("-273.15", Unit.CELSIUS);

  /**
   * Nothing is emptier than empty: the highest air pressure ever measured at sea level was below
   * 1.1 bar, so no gauge can show less than that under it.
   */
  private static final Amount EMPTIEST = Amount.of("-1.1", Unit.BAR);

  private static final Amount WHOLE = Amount.of("100", Unit.PERCENT);

  private static final Set<Dimension> NEVER_BELOW_NOTHING =
      Set.of(
          Dimension.VOLUME,
          Dimension.MASS,
          Dimension.TORQUE,
          Dimension.LENGTH,
          Dimension.SPEED,
          Dimension.DISTANCE,
          Dimension.TIME,
          Dimension.RESISTANCE,
          Dimension.SHARE);

  private final Plan plan;
  private final JobSoFar soFar;

  Impossible(Plan plan, JobSoFar soFar) {
    this.plan = plan;
    this.soFar = soFar;
  }

  /**
   * Why it can't be, as a sentence; empty when it can.
   *
   * @param said what would be noted
   * @param happenedAt when it happened
   * @param saidAt when it was said
   */
  Optional<String> why(Statement said, Instant happenedAt, Instant saidAt) {
    Instant then = said instanceof Retimed retimed ? retimed.happenedAt() : happenedAt;
    boolean backThen = said instanceof Retimed || then.isBefore(saidAt);
    Optional<Instant> opened = soFar.openedAt().filter(at -> backThen && then.isBefore(at));
    if (opened.isPresent()) {
      return Optional.of(Texts.beforeTheJob(soFar.clockTime(then), soFar.clockTime(opened.get())));
    }
    Statement now = said instanceof Corrected corrected ? corrected.now() : said;
    return count(said, now, happenedAt)
        .or(() -> fluid(said, now, happenedAt))
        .or(() -> value(now))
        .or(() -> instrument(now))
        .or(() -> step(now));
  }

  // ---- how many there are

  private Optional<String> count(Statement said, Statement now, Instant happenedAt) {
    if (plan.basis() == Plan.Basis.NAMES) {
      return countWithoutPlan(said, now, happenedAt);
    }
    if (now instanceof ItemsMoved moved) {
      return moved.count() == null ? Optional.empty() : moved(said, moved, happenedAt);
    }
    if (now instanceof Tightened tightened && tightened.count() != null) {
      int count = tightened.count();
      return soFar
          .books()
          .index()
          .itemMeant(tightened.item(), tightened.place(), tightened.thing(), null)
          .filter(item -> count > item.count())
          .map(item -> Texts.tooMany(count, item.count(), item.label(), ""));
    }
    if (now instanceof TemporaryMoved moved && moved.count() != null) {
      int count = moved.count();
      return plan.item(moved.item())
          .filter(item -> count > item.count())
          .map(item -> Texts.tooMany(count, item.count(), item.label(), moved.in() ? "in" : "out"));
    }
    return Optional.empty();
  }

  /**
   * Without a plan there are as many as came off; more than that can neither go on nor be tight.
   */
  private Optional<String> countWithoutPlan(Statement said, Statement now, Instant happenedAt) {
    boolean on =
        now instanceof ItemsMoved moved
            && (moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON)
            && moved.count() != null;
    boolean tight = now instanceof Tightened tightened && tightened.count() != null;
    if (!on && !tight) {
      return Optional.empty();
    }
    Plan cameOff = TearDown.expected(plan, soFar.entries());
    Books after = Books.of(cameOff, soFar.with(said, happenedAt));
    if (now instanceof ItemsMoved moved) {
      return after
          .index()
          .itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize())
          .flatMap(item -> after.all().item(item.id()))
          .filter(account -> account.uncounted().isEmpty())
          .filter(account -> account.count(Account.MACHINE) > account.expectedOnMachine())
          .map(
              account ->
                  Texts.tooMany(
                      account.count(Account.MACHINE),
                      account.expectedOnMachine(),
                      account.label(),
                      "on"));
    }
    return now instanceof Tightened tightened ? tooManyTight(after, tightened) : Optional.empty();
  }

  private static Optional<String> tooManyTight(Books books, Tightened tightened) {
    int count = tightened.count() == null ? 0 : tightened.count();
    return books
        .index()
        .itemMeant(tightened.item(), tightened.place(), tightened.thing(), null)
        .filter(item -> books.all().item(item.id()).map(ItemAccount::mentioned).orElse(false))
        .filter(item -> count > item.count())
        .map(item -> Texts.tooMany(count, item.count(), item.label(), ""));
  }

  private Optional<String> moved(Statement said, ItemsMoved moved, Instant happenedAt) {
    boolean on = moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON;
    boolean off = moved.move() == ItemMove.OFF;
    Books books = soFar.books();
    Optional<Item> meant =
        books.index().itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize());
    if (meant.isEmpty() || !(on || off)) {
      return Optional.empty();
    }
    Item item = meant.get();
    ItemAccount after = soFar.booksWith(said, happenedAt).all().item(item.id()).orElse(null);
    if (after == null) {
      return Optional.empty();
    }
    int onMachine = after.count(Account.MACHINE);
    int count = moved.count() == null ? 0 : moved.count();
    // What was said without a number moved as well, so the sum can't be held against anybody.
    boolean sumKnown = after.uncounted().isEmpty() || count > item.count();
    if (on && sumKnown && onMachine > item.count()) {
      return Optional.of(Texts.tooMany(onMachine, item.count(), item.label(), "on"));
    }
    return off && sumKnown && onMachine < 0
        ? Optional.of(Texts.tooMany(item.count() - onMachine, item.count(), item.label(), "off"))
        : Optional.empty();
  }

  // ---- how much a system holds

  private Optional<String> fluid(Statement said, Statement now, Instant happenedAt) {
    if (!(now instanceof FluidMoved moved) || moved.amount() == null || !comesOut(moved.move())) {
      return Optional.empty();
    }
    Set<String> before = overfull(soFar.entries());
    return Reconciler.reconcile(plan, soFar.with(said, happenedAt)).findings().stream()
        .filter(finding -> finding.kind().equals(MORE_OUT_THAN_HOLDS))
        .filter(finding -> !before.contains(finding.subject()))
        .findFirst()
        .flatMap(finding -> outOf(finding.subject(), soFar.booksWith(said, happenedAt)));
  }

  private static boolean comesOut(FluidMove move) {
    return switch (move) {
      case OUT, LOST, BLED_OUT, LEFT_IN_PART -> true;
      case IN, PUT_BACK, TO_WASTE -> false;
    };
  }

  private Set<String> overfull(List<tallyback.model.Entry> entries) {
    Set<String> subjects = new HashSet<>();
    Reconciler.reconcile(plan, entries).findings().stream()
        .filter(finding -> finding.kind().equals(MORE_OUT_THAN_HOLDS))
        .map(Finding::subject)
        .forEach(subjects::add);
    return subjects;
  }

  private Optional<String> outOf(String label, Books books) {
    for (FluidAccount account : books.all().fluids().values()) {
      Amount capacity = account.system().map(Plan.FluidSystem::capacity).orElse(null);
      if (account.label().equals(label) && capacity != null) {
        Rational out = Rational.ZERO;
        for (var posting : account.postings()) {
          out = posting.from() == Account.SYSTEM ? out.plus(posting.quantity()) : out;
        }
        return Optional.of(
            Texts.moreThanItHolds(Books.shown(out, Books.decimals(account)), capacity, label));
      }
    }
    return Optional.empty();
  }

  // ---- physics

  private static Optional<String> value(Statement now) {
    Optional<String> value = Amounts.of(now).flatMap(amount -> value(now, amount));
    return value.isEmpty() && now instanceof FluidMoved moved && moved.temperature() != null
        ? outsidePhysics(moved.temperature())
        : value;
  }

  private static Optional<String> value(Statement now, Amount amount) {
    if (now instanceof Measured measured
        && measured.measure() == Measure.STRENGTH
        && amount.unit().dimension() == Dimension.SHARE
        && amount.base().compareTo(WHOLE.base()) > 0) {
      return Optional.of(Texts.MORE_THAN_ALL);
    }
    return outsidePhysics(amount);
  }

  private static Optional<String> outsidePhysics(Amount amount) {
    Dimension dimension = amount.unit().dimension();
    if (dimension == Dimension.TEMPERATURE && below(amount, COLDEST)) {
      return Optional.of(Texts.COLDER_THAN_COLDEST);
    }
    if (dimension == Dimension.PRESSURE && below(amount, EMPTIEST)) {
      return Optional.of(Texts.EMPTIER_THAN_EMPTY);
    }
    return NEVER_BELOW_NOTHING.contains(dimension) && amount.value().signum() < 0
        ? Optional.of(Texts.LESS_THAN_NOTHING)
        : Optional.empty();
  }

  private static boolean below(Amount amount, Amount limit) {
    return amount.base().compareTo(limit.base()) < 0;
  }

  // ---- what an instrument can show

  private Optional<String> instrument(Statement now) {
    if (now instanceof Tightened tightened && tightened.torque() != null) {
      return torque(tightened.torque(), tightened.wrench());
    }
    return now instanceof Measured measured && measured.amount() != null
        ? beyond(measured.amount(), measured.instrument())
        : Optional.empty();
  }

  private Optional<String> torque(Amount torque, @Nullable String wrench) {
    if (wrench != null) {
      return beyond(torque, wrench);
    }
    List<Instrument> wrenches =
        plan.instruments().stream()
            .filter(each -> each.kind() == InstrumentKind.WRENCH && measures(each, torque))
            .toList();
    Instrument biggest = null;
    for (Instrument each : wrenches) {
      boolean bigger = biggest == null || biggest.to().base().compareTo(each.to().base()) < 0;
      biggest = bigger ? each : biggest;
    }
    boolean adapted = wrenches.stream().anyMatch(each -> each.adapter() != null);
    return biggest == null || adapted || torque.base().compareTo(biggest.to().base()) <= 0
        ? Optional.empty()
        : Optional.of(Texts.beyondAnyWrench(torque, biggest.to()));
  }

  /** Through an adapter another value may reach the bolt than the scale shows. */
  private Optional<String> beyond(Amount amount, @Nullable String instrument) {
    return Optional.ofNullable(instrument)
        .flatMap(plan::instrument)
        .filter(each -> each.adapter() == null && measures(each, amount))
        .filter(each -> below(amount, each.from()) || below(each.to(), amount))
        .map(each -> Texts.beyond(amount, each.label(), each.from(), each.to()));
  }

  private static boolean measures(Instrument instrument, Amount amount) {
    return instrument.to().unit().dimension() == amount.unit().dimension();
  }

  // ---- what was done already

  private Optional<String> step(Statement now) {
    return now instanceof StepMarked marked && marked.mark() == StepMark.DONE
        ? soFar.standing().stream()
            .filter(each -> each.entry().confirmed())
            .filter(
                each ->
                    each.statement() instanceof StepMarked earlier
                        && earlier.step().equals(marked.step())
                        && (earlier.mark() == StepMark.DONE || earlier.mark() == StepMark.REDONE))
            .findFirst()
            .map(
                each ->
                    Texts.doneAlready(
                        plan.label(marked.step()), soFar.clockTime(each.entry().happenedAt())))
        : Optional.empty();
  }
}
