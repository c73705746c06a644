package tallyback.report;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;

/**
 * What later entries made of earlier ones. Nothing is overwritten, so a withdrawn or corrected
 * entry is still shown, with the number of the entry that did it. Follows the rules by which the
 * books apply such entries: what is not confirmed settles nothing and only throws doubt.
 */
final class Trail {

  private final Map<String, Entry> byId = new LinkedHashMap<>();
  private final Map<String, Entry> withdrawnBy = new HashMap<>();
  private final Map<String, Entry> withdrew = new HashMap<>();
  private final Map<String, Entry> replacedBy = new HashMap<>();
  private final Map<String, Entry> retimedBy = new HashMap<>();
  private final Map<String, Entry> doubtedBy = new HashMap<>();
  private final Map<String, Instant> happenedAt = new HashMap<>();
  private final Map<String, Entry> firstSaid = new HashMap<>();

  private Trail() {}

  /**
   * Reads the trail.
   *
   * @param entries every entry of a job, by number
   */
  static Trail of(List<Entry> entries) {
    Trail trail = new Trail();
    for (Entry entry : entries) {
      if (entry.statement() instanceof Undone undone) {
        trail.target(undone).ifPresent(target -> trail.undo(entry, target));
      }
      trail.byId.putIfAbsent(entry.id(), entry);
    }
    for (Entry entry : entries) {
      if (trail.withdrawnBy.containsKey(entry.id())) {
        continue;
      }
      if (entry.statement() instanceof Corrected corrected) {
        trail.changeable(corrected.target(), entry).ifPresent(first -> trail.correct(entry, first));
      } else if (entry.statement() instanceof Retimed retimed) {
        trail
            .changeable(retimed.target(), entry)
            .ifPresent(first -> trail.retime(entry, first, retimed.happenedAt()));
      }
    }
    return trail;
  }

  private Optional<Entry> target(Undone undone) {
    String id = undone.target();
    if (id != null) {
      return entry(id);
    }
    @Nullable Entry last = null;
    for (Entry earlier : byId.values()) {
      boolean candidate =
          !withdrawnBy.containsKey(earlier.id())
              && !(earlier.statement() instanceof JobOpened)
              && !(earlier.statement() instanceof Undone);
      last = candidate ? earlier : last;
    }
    return Optional.ofNullable(last);
  }

  private void undo(Entry undo, Entry target) {
    if (target.statement() instanceof JobOpened || withdrawnBy.containsKey(target.id())) {
      return;
    }
    if (!undo.confirmed()) {
      doubtedBy.put(target.id(), undo);
      return;
    }
    withdrew.put(undo.id(), target);
    withdraw(target, undo);
  }

  /** Withdrawing an undo brings back what that had withdrawn, and so on down the line. */
  private void withdraw(Entry target, Entry by) {
    withdrawnBy.put(target.id(), by);
    Entry broughtBack = withdrew.get(target.id());
    if (broughtBack != null) {
      withdrawnBy.remove(broughtBack.id());
      Entry again = withdrew.get(broughtBack.id());
      if (again != null) {
        withdraw(again, broughtBack);
      }
    }
  }

  /** The entry first said that a correction or another time for {@code id} finally changes. */
  private Optional<Entry> changeable(String id, Entry editor) {
    return entry(id)
        .filter(target -> target.seq() < editor.seq() && !withdrawnBy.containsKey(target.id()))
        .map(target -> firstSaid.getOrDefault(target.id(), target))
        .filter(first -> !withdrawnBy.containsKey(first.id()) && !isEdit(first))
        .filter(first -> !(first.statement() instanceof JobOpened));
  }

  private static boolean isEdit(Entry entry) {
    return entry.statement() instanceof Undone
        || entry.statement() instanceof Corrected
        || entry.statement() instanceof Retimed;
  }

  private void correct(Entry correction, Entry first) {
    firstSaid.put(correction.id(), first);
    if (correction.confirmed()) {
      replacedBy.put(first.id(), correction);
    } else {
      doubtedBy.put(first.id(), correction);
    }
  }

  private void retime(Entry retiming, Entry first, Instant at) {
    firstSaid.put(retiming.id(), first);
    if (retiming.confirmed()) {
      retimedBy.put(first.id(), retiming);
      happenedAt.put(first.id(), at);
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

  /** When it happened, by the last time that was said for it. */
  Instant happenedAt(Entry entry) {
    return happenedAt.getOrDefault(entry.id(), entry.happenedAt());
  }

  /** True when the entry as it was said no longer holds. */
  boolean struck(Entry entry) {
    return withdrawnBy.containsKey(entry.id()) || replacedBy.containsKey(entry.id());
  }

  /** What became of the entry, in words; empty when nothing did. */
  List<String> fate(Entry entry) {
    List<String> fate = new ArrayList<>();
    add(fate, "withdrawn by no. ", withdrawnBy.get(entry.id()), "");
    add(fate, "corrected by no. ", replacedBy.get(entry.id()), "");
    add(fate, "time changed by no. ", retimedBy.get(entry.id()), "");
    add(fate, "put in doubt by no. ", doubtedBy.get(entry.id()), ", which is unconfirmed");
    return fate;
  }

  private static void add(List<String> fate, String words, @Nullable Entry by, String more) {
    if (by != null) {
      fate.add(words + by.seq() + more);
    }
  }
}
