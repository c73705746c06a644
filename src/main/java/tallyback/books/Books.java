package tallyback.books;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Balance;
import tallyback.model.Dimension;
import tallyback.model.Entry;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Unit;
import tallyback.plan.Plan;

/**
 * The books of a job: which entries stand, and where everything is. Immutable, safe for any thread;
 * made in time linear in the number of entries.
 */
public final class Books {

  private final Plan plan;
  private final PlanIndex index;
  private final FluidAmounts amounts;
  private final List<Standing> standing;
  private final List<Remark> remarks;
  private final Ledger confirmed;
  private final Ledger all;

  private Books(
      Plan plan,
      PlanIndex index,
      FluidAmounts amounts,
      List<Standing> standing,
      List<Remark> remarks,
      Ledger confirmed,
      Ledger all) {
    this.plan = plan;
    this.index = index;
    this.amounts = amounts;
    this.standing = List.copyOf(standing);
    this.remarks = List.copyOf(remarks);
    this.confirmed = confirmed;
    this.all = all;
  }

  /**
   * Makes the books.
   *
   * @param plan the expected job
   * @param entries every entry of one job, in any order
   */
  public static Books of(Plan plan, List<Entry> entries) {
    return of(plan, entries, Weighing.NONE);
  }

  /**
   * Makes the books.
   *
   * @param plan the expected job
   * @param entries every entry of one job, in any order
   * @param weighing what a litre weighs
   */
  public static Books of(Plan plan, List<Entry> entries, Weighing weighing) {
    PlanIndex index = new PlanIndex(plan);
    Editing.Edited edited = Editing.apply(entries);
    List<Standing> standing = edited.standing();
    List<Standing> sure = standing.stream().filter(Standing.certain(false)).toList();
    FluidAmounts amounts = new FluidAmounts(index, weighing);
    Ledger confirmed = Ledger.of(plan, index, amounts, sure);
    Ledger all =
        sure.size() == standing.size() ? confirmed : Ledger.of(plan, index, amounts, standing);
    List<Remark> remarks = new ArrayList<>(edited.remarks());
    standing.forEach(said -> unusable(said, amounts).ifPresent(remarks::add));
    return new Books(plan, index, amounts, standing, remarks, confirmed, all);
  }

  private static Optional<Remark> unusable(Standing said, FluidAmounts amounts) {
    Remark.Why why = null;
    if (impossibleCount(said)) {
      why = Remark.Why.IMPOSSIBLE_COUNT;
    } else if (said.statement() instanceof FluidMoved moved) {
      why = amounts.unusable(moved);
    }
    return why == null ? Optional.empty() : Optional.of(new Remark(said.entry(), why));
  }

  private static boolean impossibleCount(Standing said) {
    if (said.statement() instanceof ItemsMoved moved) {
      return notPositive(moved.count());
    }
    if (said.statement() instanceof TemporaryMoved moved) {
      return notPositive(moved.count());
    }
    return said.statement() instanceof Tightened tightened && notPositive(tightened.count());
  }

  private static boolean notPositive(@Nullable Integer count) {
    return count != null && count <= 0;
  }

  /** The plan's ids. */
  public PlanIndex index() {
    return index;
  }

  /**
   * The entries that still hold, corrections applied and withdrawn ones left out, by when they
   * happened, then by number.
   */
  public List<Standing> standing() {
    return standing;
  }

  /** What was said and could not be used, with the reason. */
  public List<Remark> remarks() {
    return remarks;
  }

  /** The accounts from confirmed entries only: what may close a finding. */
  public Ledger confirmed() {
    return confirmed;
  }

  /** The accounts from all entries, confirmed or not: what may open a finding. */
  public Ledger all() {
    return all;
  }

  /** The accounts from some of the standing entries only. */
  public Ledger of(List<Standing> some) {
    return Ledger.of(plan, index, amounts, some);
  }

  /** True when some standing entry is not confirmed. */
  public boolean anyUnconfirmed() {
    return standing.stream().anyMatch(said -> !said.entry().confirmed());
  }

  /** Where everything is now, from confirmed entries; volumes rounded for showing. */
  public List<Balance> balances() {
    List<Balance> balances = new ArrayList<>();
    confirmed.items().values().forEach(account -> add(balances, balanceOf(account)));
    confirmed.fluids().values().forEach(account -> add(balances, balanceOf(account)));
    return balances;
  }

  private static void add(List<Balance> balances, Balance balance) {
    if (!balance.lines().isEmpty()) {
      balances.add(balance);
    }
  }

  private static Balance balanceOf(ItemAccount account) {
    List<Balance.Line> lines = new ArrayList<>();
    for (Account each : ItemAccount.ACCOUNTS) {
      int count = account.count(each);
      if (count != 0) {
        boolean openingUnknown = each == Account.STOCK || account.item().isEmpty();
        lines.add(new Balance.Line(each, count, null, openingUnknown));
      }
    }
    return new Balance(account.subject(), account.label(), lines);
  }

  private static Balance balanceOf(FluidAccount account) {
    List<Balance.Line> lines = new ArrayList<>();
    for (Account each : FluidAccount.ACCOUNTS) {
      Rational litres = account.litres(each);
      if (litres.signum() != 0) {
        boolean openingUnknown =
            each == Account.CAN || (each == Account.SYSTEM && !account.openingKnown());
        lines.add(new Balance.Line(each, null, shown(litres, decimals(account)), openingUnknown));
      }
    }
    return new Balance(account.subject(), account.label(), lines);
  }

  /**
   * How many decimals of a litre are shown for a system: hundredths, thousandths when it holds less
   * than a litre.
   */
  public static int decimals(FluidAccount account) {
    boolean small =
        account
            .system()
            .map(Plan.FluidSystem::capacity)
            .filter(capacity -> capacity.unit().dimension() == Dimension.VOLUME)
            .map(capacity -> capacity.base().compareTo(Rational.of(1, 1)) < 0)
            .orElse(false);
    return small ? 3 : 2;
  }

  /** Litres rounded half up, for showing only. */
  public static Amount shown(Rational litres, int decimals) {
    BigDecimal value = litres.toBigDecimal().setScale(decimals, RoundingMode.HALF_UP);
    return new Amount(value, Unit.LITRE);
  }
}
