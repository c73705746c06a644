package tallyback.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.model.Entry;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;

/**
 * What later entries made of earlier ones. Nothing is overwritten, so a withdrawn or corrected
 * entry is still shown, with the number of the entry that did it.
 */
final class Trail {

  private final Map<String, Entry> byId = new HashMap<>();
  private final Map<String, Entry> withdrawnBy = new HashMap<>();
  private final Map<String, Entry> replacedBy = new HashMap<>();
  private final Map<String, Entry> retimedBy = new HashMap<>();

  private Trail() {}

  /**
   * Reads the trail from the last entry back to the first, so that an undo that was itself
   * withdrawn has no effect, and of two corrections the later one holds.
   *
   * @param entries every entry of a job, by number
   */
  static Trail of(List<Entry> entries) {
    Trail trail = new Trail();
    entries.forEach(entry -> trail.byId.put(entry.id(), entry));
    for (int index = entries.size() - 1; index >= 0; index--) {
      Entry entry = entries.get(index);
      if (!trail.withdrawnBy.containsKey(entry.id())) {
        trail.follow(entry, index == 0 ? Optional.empty() : Optional.of(entries.get(index - 1)));
      }
    }
    return trail;
  }

  private void follow(Entry entry, Optional<Entry> before) {
    if (entry.statement() instanceof Undone undone) {
      String target = undone.target();
      if (target != null) {
        withdrawnBy.putIfAbsent(target, entry);
      } else {
        before.ifPresent(last -> withdrawnBy.putIfAbsent(last.id(), entry));
      }
    } else if (entry.statement() instanceof Corrected corrected) {
      replacedBy.putIfAbsent(corrected.target(), entry);
    } else if (entry.statement() instanceof Retimed retimed) {
      retimedBy.putIfAbsent(retimed.target(), entry);
    }
  }

  /** The entry with this id. */
  Optional<Entry> entry(String id) {
    return Optional.ofNullable(byId.get(id));
  }

  /** {@code no. 14}, or words that say that there is no such entry. */
  String number(String id) {
    return entry(id).map(entry -> "no. " + entry.seq()).orElse("an entry that isn't in this log");
  }

  /** True when the entry as it was said no longer holds. */
  boolean struck(Entry entry) {
    return withdrawnBy.containsKey(entry.id()) || replacedBy.containsKey(entry.id());
  }

  /** What became of the entry, in words; empty when nothing did. */
  List<String> fate(Entry entry) {
    List<String> fate = new ArrayList<>();
    Optional.ofNullable(withdrawnBy.get(entry.id()))
        .ifPresent(by -> fate.add("withdrawn by no. " + by.seq()));
    Optional.ofNullable(replacedBy.get(entry.id()))
        .ifPresent(by -> fate.add("corrected by no. " + by.seq()));
    Optional.ofNullable(retimedBy.get(entry.id()))
        .ifPresent(by -> fate.add("time changed by no. " + by.seq()));
    return fate;
  }
}
