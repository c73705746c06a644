package tallyback.review;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tallyback.model.Balance;
import tallyback.model.Finding;
import tallyback.model.Verdict;
import tallyback.reconcile.Outcome;

/**
 * A job before and after an act.
 *
 * @param before what was made of it before
 * @param after what is made of it after
 * @param gone findings that stand no longer, as they read before
 * @param come findings that stand now and didn't before
 * @param altered findings that stand as before and read otherwise now, each as it reads now
 * @param moved where the amount of something is now, for what has changed
 */
public record Change(
    Outcome before,
    Outcome after,
    List<Finding> gone,
    List<Finding> come,
    List<Finding> altered,
    List<Moved> moved) {

  /** Copies its lists. */
  public Change {
    gone = List.copyOf(gone);
    come = List.copyOf(come);
    altered = List.copyOf(altered);
    moved = List.copyOf(moved);
  }

  /**
   * One balance that has changed.
   *
   * @param before null when there was none
   * @param after null when there is none any more
   */
  public record Moved(@Nullable Balance before, @Nullable Balance after) {}

  /** What lies between two outcomes. */
  public static Change between(Outcome before, Outcome after) {
    Map<String, Finding> was = byId(before);
    Map<String, Finding> is = byId(after);
    return new Change(
        before,
        after,
        all(before).stream().filter(each -> !is.containsKey(each.id())).toList(),
        all(after).stream().filter(each -> !was.containsKey(each.id())).toList(),
        all(after).stream().filter(each -> readsOtherwise(was.get(each.id()), each)).toList(),
        moved(before, after));
  }

  /** All of them, with those that only follow. */
  private static List<Finding> all(Outcome outcome) {
    List<Finding> all = new ArrayList<>();
    for (Finding finding : outcome.findings()) {
      all.add(finding);
      all.addAll(finding.followers());
    }
    return all;
  }

  private static Map<String, Finding> byId(Outcome outcome) {
    Map<String, Finding> byId = new HashMap<>();
    all(outcome).forEach(finding -> byId.put(finding.id(), finding));
    return byId;
  }

  private static boolean readsOtherwise(@Nullable Finding before, Finding now) {
    return before != null && !before.says().equals(now.says());
  }

  private static List<Moved> moved(Outcome before, Outcome after) {
    Map<String, Balance> was = new HashMap<>();
    before.balances().forEach(balance -> was.put(balance.subject(), balance));
    List<Moved> moved = new ArrayList<>();
    for (Balance now : after.balances()) {
      Balance then = was.remove(now.subject());
      if (!Objects.equals(then, now)) {
        moved.add(new Moved(then, now));
      }
    }
    before.balances().stream()
        .filter(balance -> was.containsKey(balance.subject()))
        .forEach(balance -> moved.add(new Moved(balance, null)));
    return moved;
  }

  /** The verdict before. */
  public Verdict verdictBefore() {
    return before.verdict();
  }

  /** The verdict after. */
  public Verdict verdictAfter() {
    return after.verdict();
  }

  /** Whether nothing that a check tells is otherwise. */
  public boolean isNothing() {
    return gone.isEmpty()
        && come.isEmpty()
        && altered.isEmpty()
        && moved.isEmpty()
        && verdictBefore().equals(verdictAfter());
  }
}
