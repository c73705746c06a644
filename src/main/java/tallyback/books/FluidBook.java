package tallyback.books;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.plan.Plan.FluidSystem;

/**
 * The account of one fluid system while it is being written; closed into a {@link FluidAccount}.
 */
final class FluidBook {

  private final String subject;
  private final Optional<FluidSystem> system;
  private final String label;
  private final Map<Account, Rational> balances = new EnumMap<>(Account.class);
  private final List<Posting> postings = new ArrayList<>();
  private final List<Standing> uncounted = new ArrayList<>();

  FluidBook(String subject, Optional<FluidSystem> system, String label) {
    this.subject = subject;
    this.system = system;
    this.label = label;
    for (Account account : FluidAccount.ACCOUNTS) {
      balances.put(account, Rational.ZERO);
    }
    system
        .map(FluidSystem::before)
        .filter(before -> before.unit().dimension() == Dimension.VOLUME)
        .map(Amount::base)
        .ifPresent(before -> balances.put(Account.SYSTEM, before));
  }

  FluidAccount close() {
    return new FluidAccount(subject, system, label, balances, postings, uncounted);
  }

  /**
   * Books a move of fluid; what has no usable amount stays visible.
   *
   * @param litres how much it is; empty when that can't be told
   */
  void move(Standing said, FluidMoved moved, Optional<Rational> litres) {
    if (litres.isEmpty()) {
      uncounted.add(said);
      return;
    }
    Account from = fromOf(moved.move());
    Account to = toOf(moved.move());
    balances.merge(from, litres.get().negate(), Rational::plus);
    balances.merge(to, litres.get(), Rational::plus);
    postings.add(new Posting(said, from, to, litres.get()));
  }

  private static Account fromOf(FluidMove move) {
    return switch (move) {
      case OUT, LOST, BLED_OUT, LEFT_IN_PART -> Account.SYSTEM;
      case IN -> Account.CAN;
      case PUT_BACK, TO_WASTE -> Account.PAN;
    };
  }

  private static Account toOf(FluidMove move) {
    return switch (move) {
      case OUT, BLED_OUT -> Account.PAN;
      case IN, PUT_BACK -> Account.SYSTEM;
      case LOST -> Account.LOST;
      case TO_WASTE -> Account.WASTE;
      case LEFT_IN_PART -> Account.OLD_PART;
    };
  }
}
