package tallyback.books;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Account;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.plan.Plan.Item;

/** The account of one group while it is being written; closed into an {@link ItemAccount}. */
final class ItemBook {

  private final String subject;
  private final Optional<Item> item;
  private final String label;
  private final Map<Account, Integer> balances;
  private final List<Posting> postings = new ArrayList<>();
  private final List<Standing> uncounted = new ArrayList<>();
  private final List<Standing> restated = new ArrayList<>();
  private final List<Standing> fittedNew = new ArrayList<>();
  private final List<Standing> fittedOld = new ArrayList<>();
  private final List<Standing> carriedOver = new ArrayList<>();
  private int newCount;
  private int lostInMachine;
  private int lostSomewhere;

  ItemBook(String subject, Optional<Item> item, String label) {
    this.subject = subject;
    this.item = item;
    this.label = label;
    this.balances = new EnumMap<>(ItemAccount.opening(item));
    for (Account account : ItemAccount.ACCOUNTS) {
      balances.putIfAbsent(account, 0);
    }
  }

  ItemAccount close() {
    return new ItemAccount(
        subject,
        item,
        label,
        balances,
        postings,
        uncounted,
        restated,
        fittedNew,
        newCount,
        fittedOld,
        carriedOver,
        lostInMachine,
        lostSomewhere);
  }

  boolean hasLost() {
    return count(Account.LOST) > 0;
  }

  /** Books a move of items; a count of nought or less is for the caller to refuse. */
  void move(Standing said, ItemsMoved moved) {
    if (item.map(Item::temporary).orElse(false)
        && (moved.move() == ItemMove.ON || moved.move() == ItemMove.OFF)) {
      moveTemporary(said, moved.move() == ItemMove.ON, moved.count());
      return;
    }
    if (moved.move() == ItemMove.NEW_ON) {
      fittedNew.add(said);
    }
    Integer count = counted(moved);
    if (count == null) {
      uncounted.add(said);
    } else if (isRestated(moved, count)) {
      restated.add(said);
    } else {
      if (moved.move() == ItemMove.NEW_ON) {
        newCount += count;
      }
      keepTrackOfLost(moved, count);
      post(said, fromOf(moved.move()), toOf(moved.move()), count);
    }
  }

  private @Nullable Integer counted(ItemsMoved moved) {
    if (single()) {
      return moved.count() == null ? 1 : moved.count();
    }
    if (moved.move() == ItemMove.FOUND && moved.count() == null && count(Account.LOST) == 1) {
      return 1; // "Found it": the one that was lost.
    }
    return moved.lump() ? null : moved.count();
  }

  private boolean single() {
    return item.map(each -> each.count() == 1).orElse(false);
  }

  /** One part said to be off when it is off, or on when it is on, was only said again. */
  private boolean isRestated(ItemsMoved moved, int count) {
    if (!single() || count != 1) {
      return false;
    }
    return switch (moved.move()) {
      case OFF -> count(Account.MACHINE) <= 0;
      case ON, NEW_ON -> count(Account.MACHINE) >= 1;
      default -> false;
    };
  }

  private void keepTrackOfLost(ItemsMoved moved, int count) {
    if (moved.move() == ItemMove.DROPPED) {
      if (moved.where() == FellWhere.MACHINE) {
        lostInMachine += count;
      } else if (moved.where() == null) {
        lostSomewhere += count;
      }
    } else if (moved.move() == ItemMove.FOUND) {
      found(moved.where(), count);
    }
  }

  /**
   * What was found on the floor leaves the machine clear only of what was not known to be in it.
   */
  private void found(@Nullable FellWhere where, int count) {
    int onFloor = Math.max(0, count(Account.LOST) - lostInMachine - lostSomewhere);
    int left = count;
    if (where == FellWhere.MACHINE) {
      int fromMachine = Math.min(left, lostInMachine);
      lostInMachine -= fromMachine;
      left -= fromMachine;
      lostSomewhere -= Math.min(left, lostSomewhere);
      return;
    }
    left -= Math.min(left, onFloor);
    int fromSomewhere = Math.min(left, lostSomewhere);
    lostSomewhere -= fromSomewhere;
    left -= fromSomewhere;
    if (where == null) {
      lostInMachine -= Math.min(left, lostInMachine);
    }
  }

  /**
   * A temporary item goes from the tray into the machine and back; in without a number means all of
   * them.
   */
  void moveTemporary(Standing said, boolean in, @Nullable Integer count) {
    int planned = item.map(Item::count).orElse(1);
    if (in) {
      int number = count == null ? planned : count;
      if (single() && number == 1 && count(Account.MACHINE) >= 1) {
        restated.add(said);
      } else {
        post(said, Account.TRAY, Account.MACHINE, number);
      }
    } else if (count == null && count(Account.MACHINE) > 1) {
      uncounted.add(said);
    } else if (single() && count(Account.MACHINE) <= 0) {
      restated.add(said);
    } else {
      post(said, Account.MACHINE, Account.TRAY, count == null ? 1 : count);
    }
  }

  /** Notes in what condition a part went in, and moves it when the machine still lacks it. */
  void fit(Standing said, PartFitted fitted) {
    switch (fitted.condition()) {
      case NEW -> fittedNew.add(said);
      case OLD -> fittedOld.add(said);
      case CARRIED_OVER -> carriedOver.add(said);
    }
    int lacking = item.map(Item::count).orElse(0) - count(Account.MACHINE);
    boolean fromStock = fitted.condition() == PartCondition.NEW;
    if (!single()) {
      if (lacking > 0) {
        uncounted.add(said);
      }
      return;
    }
    if (fromStock) {
      newCount++;
    }
    if (lacking >= 1) {
      post(said, fromStock ? Account.STOCK : Account.TRAY, Account.MACHINE, 1);
    }
  }

  private void post(Standing said, Account from, Account to, int count) {
    balances.merge(from, -count, Integer::sum);
    balances.merge(to, count, Integer::sum);
    postings.add(new Posting(said, from, to, ItemAccount.quantity(count)));
  }

  private int count(Account account) {
    return balances.getOrDefault(account, 0);
  }

  private static Account fromOf(ItemMove move) {
    return switch (move) {
      case OFF, SHEARED -> Account.MACHINE;
      case ON, SCRAPPED, MISSING, DROPPED -> Account.TRAY;
      case NEW_ON -> Account.STOCK;
      case FOUND -> Account.LOST;
    };
  }

  private static Account toOf(ItemMove move) {
    return switch (move) {
      case OFF, FOUND -> Account.TRAY;
      case ON, NEW_ON -> Account.MACHINE;
      case SCRAPPED, SHEARED -> Account.SCRAP;
      case MISSING, DROPPED -> Account.LOST;
    };
  }
}
