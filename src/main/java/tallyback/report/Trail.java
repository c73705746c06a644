package tallyback.report;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Fate;
import tallyback.model.Entry;

/**
 * What later entries made of earlier ones, in words. Nothing is overwritten, so a withdrawn or
 * corrected entry is still shown, with the number of the entry that did it.
 */
public final class Trail {

  private final Map<String, Entry> byId = new HashMap<>();
  private final Map<String, Fate> fates;

  private Trail(List<Entry> entries) {
    entries.forEach(entry -> byId.putIfAbsent(entry.id(), entry));
    this.fates = Fate.of(entries);
  }

  /**
   * Reads the trail.
   *
   * @param entries every entry of a job
   */
  public static Trail of(List<Entry> entries) {
    return new Trail(entries);
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
  public Instant happenedAt(Entry entry) {
    Fate fate = fates.get(entry.id());
    return fate == null ? entry.happenedAt() : fate.happenedAt();
  }

  /** True when the entry as it was said no longer holds. */
  public boolean struck(Entry entry) {
    Fate fate = fates.get(entry.id());
    return fate != null && fate.struck();
  }

  /** What became of the entry, in words; empty when nothing did. */
  public List<String> fate(Entry entry) {
    List<String> words = new ArrayList<>();
    Fate fate = fates.get(entry.id());
    if (fate != null) {
      add(words, "withdrawn by no. ", fate.withdrawnBy(), "");
      add(words, "corrected by no. ", fate.correctedBy(), "");
      add(words, "time changed by no. ", fate.retimedBy(), "");
      add(words, "put in doubt by no. ", fate.doubtedBy(), ", which is unconfirmed");
    }
    return words;
  }

  private static void add(List<String> words, String what, @Nullable Entry by, String more) {
    if (by != null) {
      words.add(what + by.seq() + more);
    }
  }
}
