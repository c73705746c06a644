package tallyback.books;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;

/**
 * Applies undo, correction and retiming, in the order they were noted.
 *
 * <ul>
 *   <li>Undo withdraws its target; undo of an undo brings back what that had withdrawn. Without a
 *       target it withdraws the last entry that still stands and is no undo itself.
 *   <li>A correction puts a new statement in the place of its target and may be corrected or undone
 *       in turn. When the target is withdrawn the correction does not count and says so.
 *   <li>What is not confirmed settles nothing: an unconfirmed undo leaves its target standing,
 *       unconfirmed; an unconfirmed correction stands beside its target, both unconfirmed; an
 *       unconfirmed retiming changes no time.
 * </ul>
 */
final class Editing {

  private static final Comparator<Standing> BY_HAPPENING =
      Comparator.comparing((Standing standing) -> standing.entry().happenedAt())
          .thenComparingLong(standing -> standing.entry().seq());

  private final List<Slot> slots = new ArrayList<>();
  private final Map<String, Slot> slotById;
  private final List<Remark> remarks = new ArrayList<>();

  private Editing(int entries) {
    this.slotById = new HashMap<>(2 * entries);
  }

  /** What stands and what came to nothing. */
  record Edited(List<Standing> standing, List<Remark> remarks) {}

  static Edited apply(List<Entry> entries) {
    Editing editing = edited(entries);
    return new Edited(editing.standing(), editing.remarks);
  }

  /** What became of each entry, by id. */
  static Map<String, Fate> fates(List<Entry> entries) {
    Map<String, Fate> fates = new HashMap<>();
    edited(entries).slots.forEach(slot -> fates.put(slot.entry.id(), slot.fate()));
    return fates;
  }

  private static Editing edited(List<Entry> entries) {
    Editing editing = new Editing(entries.size());
    editing.readIn(entries);
    editing.withdraw();
    editing.correctAndRetime();
    return editing;
  }

  private void readIn(List<Entry> entries) {
    List<Entry> bySeq = new ArrayList<>(entries);
    bySeq.sort(Comparator.comparingLong(Entry::seq));
    for (Entry entry : bySeq) {
      Slot slot = new Slot(entry, slots.size());
      if (slotById.putIfAbsent(entry.id(), slot) == null) {
        slots.add(slot);
      } else {
        remark(slot, Remark.Why.NOTED_TWICE);
      }
    }
  }

  private void withdraw() {
    Withdrawals withdrawals = new Withdrawals(slots);
    for (Slot slot : slots) {
      if (slot.statement instanceof Undone undone) {
        Optional<Slot> target =
            undone.target() == null
                ? withdrawals.lastStandingBefore(slot)
                : find(undone.target(), slot);
        if (target.isPresent()) {
          withdraw(withdrawals, slot, target.get());
        } else {
          remark(
              slot,
              undone.target() == null ? Remark.Why.NOTHING_TO_UNDO : Remark.Why.UNKNOWN_TARGET);
        }
      }
    }
  }

  private void withdraw(Withdrawals withdrawals, Slot undo, Slot target) {
    if (target.entry.statement() instanceof JobOpened) {
      remark(undo, Remark.Why.OPENING_STAYS);
    } else if (target.isWithdrawn()) {
      remark(undo, Remark.Why.ALREADY_WITHDRAWN);
    } else if (!undo.entry.confirmed()) {
      target.doubtedBy = undo.entry;
    } else {
      withdrawals.withdraw(undo, target);
    }
  }

  private Optional<Slot> find(String id, Slot editor) {
    return Optional.ofNullable(slotById.get(id))
        .filter(target -> target.entry.seq() < editor.entry.seq());
  }

  private void correctAndRetime() {
    for (Slot slot : slots) {
      if (slot.isWithdrawn()) {
        continue;
      }
      if (slot.entry.statement() instanceof Corrected corrected) {
        rootOf(corrected.target(), slot, Remark.Why.CORRECTS_WITHDRAWN)
            .ifPresent(root -> correct(slot, root, corrected.now()));
      } else if (slot.entry.statement() instanceof Retimed retimed) {
        rootOf(retimed.target(), slot, Remark.Why.RETIMES_WITHDRAWN)
            .ifPresent(root -> retime(slot, root, retimed.happenedAt()));
      }
    }
  }

  /** The entry first said that an edit of {@code id} finally changes. */
  private Optional<Slot> rootOf(String id, Slot editor, Remark.Why whenWithdrawn) {
    Optional<Slot> target = find(id, editor);
    if (target.isEmpty()) {
      remark(editor, Remark.Why.UNKNOWN_TARGET);
      return Optional.empty();
    }
    Slot found = target.get();
    Slot root = found.root == null ? found : found.root;
    if (found.isWithdrawn() || root.isWithdrawn()) {
      remark(editor, whenWithdrawn);
      return Optional.empty();
    }
    if (root.entry.statement() instanceof JobOpened) {
      remark(editor, Remark.Why.OPENING_STAYS);
      return Optional.empty();
    }
    if (root.edits()) {
      remark(editor, Remark.Why.NOT_A_CORRECTION);
      return Optional.empty();
    }
    return Optional.of(root);
  }

  private void correct(Slot correction, Slot root, Statement now) {
    if (!now.notable() || changesOthers(now)) {
      remark(correction, Remark.Why.NOT_A_CORRECTION);
      return;
    }
    correction.root = root;
    if (!correction.entry.confirmed()) {
      root.doubtedBy = correction.entry;
      root.addOpenCorrection(correction);
      correction.statement = now;
      correction.happenedAt = root.happenedAt;
      return;
    }
    root.settleOpenCorrections();
    root.statement = now;
    root.certainty = Certainty.CONFIRMED;
    boolean doubtedSince = root.doubtedBy != null && root.doubtedBy.seq() > correction.entry.seq();
    root.doubtedBy = doubtedSince ? root.doubtedBy : correction.doubtedBy;
    root.correctedBy = correction.entry;
    root.seenIn(correction.entry);
  }

  private void retime(Slot retiming, Slot root, Instant happenedAt) {
    retiming.root = root;
    if (retiming.entry.confirmed()) {
      root.happenedAt = happenedAt;
      root.retimedBy = retiming.entry;
      root.seenIn(retiming.entry);
    }
  }

  private static boolean changesOthers(Statement statement) {
    return statement instanceof Undone
        || statement instanceof Corrected
        || statement instanceof Retimed
        || statement instanceof JobOpened;
  }

  private List<Standing> standing() {
    List<Standing> standing = new ArrayList<>(slots.size());
    for (Slot slot : slots) {
      if (!slot.isWithdrawn() && !slot.settled && !changesOthersNow(slot)) {
        standing.add(slot.standing(slot.statement));
      }
    }
    standing.sort(BY_HAPPENING);
    return standing;
  }

  /** True for edits themselves; an unconfirmed correction has become a statement of its own. */
  private static boolean changesOthersNow(Slot slot) {
    return slot.statement instanceof Undone
        || slot.statement instanceof Corrected
        || slot.statement instanceof Retimed;
  }

  private void remark(Slot slot, Remark.Why why) {
    remarks.add(new Remark(slot.entry, why));
  }
}
