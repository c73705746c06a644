package tallyback.books;

import java.util.List;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Which entries are withdrawn while undos are applied in the order they were noted. Withdrawing an
 * undo brings back what that had withdrawn, and so on down the line. Used by one thread.
 */
final class Withdrawals {

  private final List<Slot> slots;

  /** Places of what a bare undo could still withdraw; only kept once one was met. */
  private @Nullable NavigableSet<Integer> withdrawable;

  Withdrawals(List<Slot> slots) {
    this.slots = slots;
  }

  /** The last entry before a bare undo that still stands and is no undo itself. */
  Optional<Slot> lastStandingBefore(Slot undo) {
    if (withdrawable == null) {
      withdrawable = new TreeSet<>();
      slots.forEach(this::keepTrackOf);
    }
    return Optional.ofNullable(withdrawable.lower(undo.place)).map(slots::get);
  }

  private void keepTrackOf(Slot slot) {
    if (withdrawable == null || !slot.withdrawableByBareUndo()) {
      return;
    }
    if (slot.isWithdrawn()) {
      withdrawable.remove(slot.place);
    } else {
      withdrawable.add(slot.place);
    }
  }

  /** Withdraws what stands. */
  void withdraw(Slot undo, Slot target) {
    undo.withdrew = target;
    if (target.chain == null && !target.alone) {
      target.chain = new UndoChain(target);
    }
    UndoChain chain = target.chain;
    if (chain != null && chain.endsWith(target)) {
      chain.add(undo);
      keepTrackOf(chain.entry());
    } else {
      if (chain != null) {
        chain.dissolve();
      }
      undo.alone = true;
      oneByOne(undo, target);
    }
  }

  private void oneByOne(Slot undo, Slot target) {
    Slot by = undo;
    boolean withdrawn = true;
    for (Slot each = target; each != null; each = each.withdrew) {
      each.withdrawnBy = withdrawn ? by.entry : null;
      keepTrackOf(each);
      withdrawn = !withdrawn;
      by = each;
    }
  }
}
