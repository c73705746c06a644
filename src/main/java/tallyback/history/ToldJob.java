package tallyback.history;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.PlanIndex;
import tallyback.model.Entry;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.reconcile.MovedFluid;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.WorkedTime;

/**
 * A job with what was made of it, to be held against others. Immutable.
 *
 * @param id its id
 * @param openedAt when it was opened
 * @param zone the shop's zone then
 * @param plan the plan frozen in it; of a job without a plan what came off
 * @param outcome the reconciliation
 * @param fluids what moved in and out of its systems
 */
public record ToldJob(
    String id, Instant openedAt, ZoneId zone, Plan plan, Outcome outcome, List<MovedFluid> fluids) {

  /** Copies the list. */
  public ToldJob {
    fluids = List.copyOf(fluids);
  }

  /**
   * Of a job that was reconciled.
   *
   * @param entries every entry of it, its opening first
   */
  public static ToldJob of(String id, Plan plan, List<Entry> entries, Outcome outcome) {
    Entry opening = entries.get(0);
    return new ToldJob(
        id, opening.happenedAt(), opening.zone(), plan, outcome, MovedFluid.of(plan, entries));
  }

  /** Time worked. */
  public Duration worked() {
    return WorkedTime.of(outcome).counted();
  }

  /** Parts that were renewed, by plan id, with their names; fasteners too. */
  Map<String, String> renewed() {
    PlanIndex index = new PlanIndex(plan);
    Map<String, String> renewed = new LinkedHashMap<>();
    for (Entry entry : outcome.standing()) {
      String id = entry.confirmed() ? renewed(entry, index) : null;
      if (id != null) {
        renewed.putIfAbsent(id, index.label(id));
      }
    }
    return renewed;
  }

  private static @Nullable String renewed(Entry entry, PlanIndex index) {
    if (entry.statement() instanceof PartFitted fitted && fitted.condition() == PartCondition.NEW) {
      return fitted.item();
    }
    if (entry.statement() instanceof ItemsMoved moved && moved.move() == ItemMove.NEW_ON) {
      Optional<Item> item =
          index.itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize());
      return item.map(Item::id).orElse(null);
    }
    return null;
  }
}
