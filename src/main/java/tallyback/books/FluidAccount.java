package tallyback.books;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.model.Account;
import tallyback.model.Rational;
import tallyback.plan.Plan.FluidSystem;

/**
 * Where the fluid of one system is, in litres, exact. Immutable.
 *
 * @param subject plan id, or a key for fluid whose system was not said or is not in the plan
 * @param system the system in the plan; empty when it is not in the plan
 * @param label how people call it
 * @param balances litres in each account; an unknown opening amount is taken as 0 and is then only
 *     a change
 * @param postings the moves, by when they happened
 * @param uncounted what was said with no amount, with no unit, or with one that is no volume:
 *     visible, never counted
 */
public record FluidAccount(
    String subject,
    Optional<FluidSystem> system,
    String label,
    Map<Account, Rational> balances,
    List<Posting> postings,
    List<Standing> uncounted) {

  /** Accounts of fluid in the order they are shown. */
  public static final List<Account> ACCOUNTS =
      List.of(
          Account.SYSTEM, Account.PAN, Account.CAN, Account.OLD_PART, Account.WASTE, Account.LOST);

  /** Copies its collections. */
  public FluidAccount {
    balances = Map.copyOf(balances);
    postings = List.copyOf(postings);
    uncounted = List.copyOf(uncounted);
  }

  /** Litres in an account. */
  public Rational litres(Account account) {
    return balances.getOrDefault(account, Rational.ZERO);
  }

  /**
   * True when the amount in the system before the job is known, so that the balance is more than a
   * change.
   */
  public boolean openingKnown() {
    return system.map(FluidSystem::before).isPresent();
  }

  /** True when anything was said about it. */
  public boolean mentioned() {
    return !postings.isEmpty() || !uncounted.isEmpty();
  }
}
