package tallyback.books;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;

/**
 * An entry, the undo of it, the undo of that undo and so on, each withdrawing the one before: of
 * two neighbours one stands and the other doesn't, so that one more undo turns all of them over at
 * once. Used by one thread.
 */
final class UndoChain {

  private final List<Slot> members = new ArrayList<>();

  UndoChain(Slot entry) {
    join(entry);
  }

  private void join(Slot slot) {
    members.add(slot);
    slot.chain = this;
    slot.placeInChain = members.size() - 1;
  }

  Slot entry() {
    return members.get(0);
  }

  boolean endsWith(Slot slot) {
    return members.get(members.size() - 1) == slot;
  }

  /** Adds an undo of the last member. */
  void add(Slot undo) {
    join(undo);
  }

  /** The last one stands, the one before it doesn't, and so on. */
  boolean withdraws(Slot slot) {
    return (members.size() - 1 - slot.placeInChain) % 2 == 1;
  }

  /** The next one, if it withdraws it. */
  @Nullable Entry undoOf(Slot slot) {
    return withdraws(slot) ? members.get(slot.placeInChain + 1).entry : null;
  }

  /** Lets each member keep its state by itself: somebody undid something in the middle. */
  void dissolve() {
    for (Slot member : members) {
      member.withdrawnBy = undoOf(member);
    }
    for (Slot member : members) {
      member.chain = null;
      member.alone = true;
    }
  }
}
