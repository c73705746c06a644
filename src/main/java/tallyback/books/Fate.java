package tallyback.books;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;

/**
 * What later entries made of one: nothing is overwritten, so that it can be told. Immutable.
 *
 * @param withdrawnBy the undo that holds, or null
 * @param correctedBy the last confirmed correction, or null
 * @param retimedBy the last confirmed change of its time, or null
 * @param doubtedBy the unconfirmed edit that casts doubt on it, or null
 * @param happenedAt when it happened, by the last confirmed time said for it
 */
public record Fate(
    @Nullable Entry withdrawnBy,
    @Nullable Entry correctedBy,
    @Nullable Entry retimedBy,
    @Nullable Entry doubtedBy,
    Instant happenedAt) {

  /**
   * What became of each entry.
   *
   * @param entries every entry of one job, in any order
   * @return by the entry's id
   */
  public static Map<String, Fate> of(List<Entry> entries) {
    return Editing.fates(entries);
  }

  /** True when the entry as it was said no longer holds. */
  public boolean struck() {
    return withdrawnBy != null || correctedBy != null;
  }
}
