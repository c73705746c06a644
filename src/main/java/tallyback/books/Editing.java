package tallyback.books;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
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
  private final Map<String, Slot> slotById = new HashMap<>();
  private final List<Remark> remarks = new ArrayList<>();

  /** Places of the entries that a bare undo could still withdraw. */
  private final NavigableSet<Integer> withdrawable = new TreeSet<>();

  /** What is known of one entry while edits are applied. */
  private static final class Slot {
    final Entry entry;
    final int place;
    final List<String> evidence = new ArrayList<>();
    final List<Slot> openCorrections = new ArrayList<>();
    boolean withdrawn;
    boolean settled;
    long doubtedBySeq;
    @Nullable Slot withdrew;
    @Nullable Slot root;
    Statement statement;
    Certainty certainty;
    Instant happenedAt;

    Slot(Entry entry, int place) {
      this.entry = entry;
      this.place = place;
      this.statement = entry.statement();
      this.certainty = entry.certainty();
      this.happenedAt = entry.happenedAt();
      evidence.add(entry.id());
    }

    boolean withdrawableByBareUndo() {
      return !(statement instanceof Undone) && !(entry.statement() instanceof JobOpened);
    }

    boolean edits() {
      return statement instanceof Undone
          || entry.statement() instanceof Corrected
          || statement instanceof Retimed;
    }

    Standing standing(Statement now) {
      return new Standing(
          new Entry(
              entry.id(),
              entry.job(),
              entry.seq(),
              happenedAt,
              entry.recordedAt(),
              entry.zone(),
              entry.actor(),
              entry.device(),
              entry.source(),
              doubtedBySeq > 0 ? Certainty.UNCONFIRMED : certainty,
              entry.words(),
              entry.clip(),
              now),
          evidence);
    }
  }

  private Editing() {}

  /** What stands and what came to nothing. */
  record Edited(List<Standing> standing, List<Remark> remarks) {}

  static Edited apply(List<Entry> entries) {
    Editing editing = new Editing();
    editing.readIn(entries);
    editing.withdraw();
    editing.correctAndRetime();
    return new Edited(editing.standing(), editing.remarks);
  }

  private void readIn(List<Entry> entries) {
    List<Entry> bySeq = new ArrayList<>(entries);
    bySeq.sort(Comparator.comparingLong(Entry::seq));
    for (Entry entry : bySeq) {
      Slot slot = new Slot(entry, slots.size());
      if (slotById.putIfAbsent(entry.id(), slot) == null) {
        slots.add(slot);
        if (slot.withdrawableByBareUndo()) {
          withdrawable.add(slot.place);
        }
      } else {
        remark(slot, Remark.Why.NOTED_TWICE);
      }
    }
  }

  private void withdraw() {
    for (int index = 0; index < slots.size(); index++) {
      Slot slot = slots.get(index);
      if (slot.statement instanceof Undone undone) {
        Optional<Slot> target =
            undone.target() == null ? lastStandingBefore(index) : find(undone.target(), slot);
        if (target.isPresent()) {
          withdraw(slot, target.get());
        } else {
          remark(
              slot,
              undone.target() == null ? Remark.Why.NOTHING_TO_UNDO : Remark.Why.UNKNOWN_TARGET);
        }
      }
    }
  }

  private void withdraw(Slot undo, Slot target) {
    if (target.entry.statement() instanceof JobOpened) {
      remark(undo, Remark.Why.OPENING_STAYS);
    } else if (target.withdrawn) {
      remark(undo, Remark.Why.ALREADY_WITHDRAWN);
    } else if (!undo.entry.confirmed()) {
      target.doubtedBySeq = undo.entry.seq();
    } else {
      undo.withdrew = target;
      setWithdrawn(target, true);
    }
  }

  /** Withdrawing an undo brings back what that had withdrawn, and so on down the line. */
  private void setWithdrawn(Slot slot, boolean withdrawn) {
    boolean now = withdrawn;
    for (Slot each = slot; each != null; each = each.withdrew) {
      each.withdrawn = now;
      if (now) {
        withdrawable.remove(each.place);
      } else if (each.withdrawableByBareUndo()) {
        withdrawable.add(each.place);
      }
      now = !now;
    }
  }

  private Optional<Slot> lastStandingBefore(int index) {
    return Optional.ofNullable(withdrawable.lower(index)).map(slots::get);
  }

  private Optional<Slot> find(String id, Slot editor) {
    return Optional.ofNullable(slotById.get(id))
        .filter(target -> target.entry.seq() < editor.entry.seq());
  }

  private void correctAndRetime() {
    for (Slot slot : slots) {
      if (slot.withdrawn) {
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
    if (found.withdrawn || root.withdrawn) {
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
      root.doubtedBySeq = correction.entry.seq();
      root.openCorrections.add(correction);
      correction.statement = now;
      correction.happenedAt = root.happenedAt;
      return;
    }
    root.openCorrections.forEach(open -> open.settled = true);
    root.openCorrections.clear();
    root.statement = now;
    root.certainty = Certainty.CONFIRMED;
    root.doubtedBySeq =
        root.doubtedBySeq > correction.entry.seq() ? root.doubtedBySeq : correction.doubtedBySeq;
    root.evidence.add(correction.entry.id());
  }

  private void retime(Slot retiming, Slot root, Instant happenedAt) {
    retiming.root = root;
    if (retiming.entry.confirmed()) {
      root.happenedAt = happenedAt;
      root.evidence.add(retiming.entry.id());
    }
  }

  private static boolean changesOthers(Statement statement) {
    return statement instanceof Undone
        || statement instanceof Corrected
        || statement instanceof Retimed
        || statement instanceof JobOpened;
  }

  private List<Standing> standing() {
    List<Standing> standing = new ArrayList<>();
    for (Slot slot : slots) {
      if (!slot.withdrawn && !slot.settled && !changesOthersNow(slot)) {
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
