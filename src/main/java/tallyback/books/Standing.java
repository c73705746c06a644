package tallyback.books;

import java.util.List;
import java.util.function.Predicate;
import tallyback.model.Entry;
import tallyback.model.Statement;

/**
 * An entry that still holds, corrections and retiming applied. Immutable.
 *
 * @param entry the entry with the statement, time and certainty that hold now; id, words and sound
 *     are those first said
 * @param evidence ids of the entry and of those that changed it, in the order they were noted
 */
public record Standing(Entry entry, List<String> evidence) {

  /** Copies its list. */
  public Standing {
    evidence = List.copyOf(evidence);
  }

  /** What it means now. */
  public Statement statement() {
    return entry.statement();
  }

  /** Those of a kind that are confirmed, or all. */
  static Predicate<Standing> certain(boolean alsoUnconfirmed) {
    return standing -> alsoUnconfirmed || standing.entry().confirmed();
  }
}
