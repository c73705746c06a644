package tallyback.planning;

import java.util.ArrayList;
import java.util.List;
import tallyback.reconcile.TearDown.Taken;
import tallyback.reconcile.TearDownSteps;

/**
 * What must be on before something else goes on, as far as a job shows it.
 *
 * <p>What came off later may have been in the way of nothing, so having come off in some order
 * proves little; having gone back in the very reverse proves more. Hence one thing needs another
 * when the other came off later <em>and</em> did not go back later. What is not back yet counts as
 * going back in reverse. Both orders are orders of time, so what both agree in is an order again;
 * only those needs are kept that do not follow from others.
 */
final class TearDownOrder implements TearDownSteps.Needs {

  private final List<Taken> taken;
  private final List<List<Integer>> needs = new ArrayList<>();

  /**
   * Works it out.
   *
   * @param taken what was taken off, first things first
   */
  TearDownOrder(List<Taken> taken) {
    this.taken = taken;
    for (int index = 0; index < taken.size(); index++) {
      needs.add(nearest(index));
    }
  }

  @Override
  public List<Integer> of(int index) {
    return needs.get(index);
  }

  private boolean before(int later, int earlier) {
    Integer on = taken.get(earlier).onAt();
    Integer onOfLater = taken.get(later).onAt();
    return later > earlier && (on == null || (onOfLater != null && onOfLater < on));
  }

  /** Those needed that none of the others needed needs. */
  private List<Integer> nearest(int index) {
    List<Integer> nearest = new ArrayList<>();
    for (int other = index + 1; other < taken.size(); other++) {
      int candidate = other;
      if (before(other, index)
          && nearest.stream().noneMatch(between -> before(candidate, between))) {
        nearest.add(other);
      }
    }
    return nearest;
  }
}
