package tallyback.books;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.model.Account;
import tallyback.model.Rational;
import tallyback.plan.Plan.Item;

/**
 * Where the items of one group are. Immutable.
 *
 * @param subject plan id, or a key made from what was said for something that is not in the plan
 * @param item the group in the plan; empty when it is not in the plan
 * @param label how people call it
 * @param balances how many are in each account; opening amounts of things not in the plan and of
 *     stock are taken as 0
 * @param postings the moves, by when they happened
 * @param uncounted what was said of it without a number ("all six back"): visible, never counted
 * @param restated a single part said to be off or on that was so already
 * @param fittedNew said to be new, by number or as a whole
 * @param newCount how many were said to be new
 * @param fittedOld said to be the old one put back
 * @param carriedOver said to have moved over from the old part
 * @param lostInMachine how many fell into the machine and were not found
 * @param lostSomewhere how many fell, nobody said where, and were not found
 */
public record ItemAccount(
    String subject,
    Optional<Item> item,
    String label,
    Map<Account, Integer> balances,
    List<Posting> postings,
    List<Standing> uncounted,
    List<Standing> restated,
    List<Standing> fittedNew,
    int newCount,
    List<Standing> fittedOld,
    List<Standing> carriedOver,
    int lostInMachine,
    int lostSomewhere) {

  /** Accounts of items in the order they are shown. */
  public static final List<Account> ACCOUNTS =
      List.of(Account.MACHINE, Account.TRAY, Account.SCRAP, Account.STOCK, Account.LOST);

  /** Copies its collections. */
  public ItemAccount {
    balances = Map.copyOf(balances);
    postings = List.copyOf(postings);
    uncounted = List.copyOf(uncounted);
    restated = List.copyOf(restated);
    fittedNew = List.copyOf(fittedNew);
    fittedOld = List.copyOf(fittedOld);
    carriedOver = List.copyOf(carriedOver);
  }

  /** How many are in an account; negative when more left it than was ever known to be in it. */
  public int count(Account account) {
    return balances.getOrDefault(account, 0);
  }

  /**
   * How many must be on the machine in the end: those of the plan, none of what only goes in for
   * the job.
   */
  public int expectedOnMachine() {
    return item.filter(each -> !each.temporary()).map(Item::count).orElse(0);
  }

  /** How many the machine still lacks, at least 0. */
  public int lacking() {
    return Math.max(0, expectedOnMachine() - count(Account.MACHINE));
  }

  /** True when anything was said about it. */
  public boolean mentioned() {
    return !postings.isEmpty()
        || !uncounted.isEmpty()
        || !restated.isEmpty()
        || !fittedNew.isEmpty()
        || !fittedOld.isEmpty()
        || !carriedOver.isEmpty();
  }

  /** What was in each account before the first move. */
  static Map<Account, Integer> opening(Optional<Item> item) {
    Map<Account, Integer> opening = new EnumMap<>(Account.class);
    item.ifPresent(
        each -> opening.put(each.temporary() ? Account.TRAY : Account.MACHINE, each.count()));
    return opening;
  }

  /** A count as the exact quantity of a posting. */
  static Rational quantity(int count) {
    return Rational.of(count, 1);
  }
}
