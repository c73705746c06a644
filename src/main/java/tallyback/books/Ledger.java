package tallyback.books;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;

/**
 * The accounts of one job: one per item group and fluid system of the plan, in plan order, then
 * those of whatever was said about things that are not in the plan, in the order they came up.
 * Immutable.
 *
 * @param items item accounts by subject
 * @param fluids fluid accounts by subject
 */
public record Ledger(Map<String, ItemAccount> items, Map<String, FluidAccount> fluids) {

  /** The account of an item group, by plan id. */
  public Optional<ItemAccount> item(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : items.get(id));
  }

  /** The account of a fluid system, by plan id. */
  public Optional<FluidAccount> fluid(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : fluids.get(id));
  }

  static Ledger of(Plan plan, PlanIndex index, FluidAmounts amounts, List<Standing> standing) {
    Writer writer = new Writer(plan, index, amounts);
    standing.forEach(writer::write);
    return writer.close();
  }

  /** Writes the moves of standing entries, by when they happened. */
  private static final class Writer {

    private final PlanIndex index;
    private final FluidAmounts amounts;
    private final Map<String, ItemBook> itemBooks = new LinkedHashMap<>();
    private final Map<String, FluidBook> fluidBooks = new LinkedHashMap<>();

    Writer(Plan plan, PlanIndex index, FluidAmounts amounts) {
      this.index = index;
      this.amounts = amounts;
      for (Item item : plan.items()) {
        itemBooks.put(item.id(), new ItemBook(item.id(), Optional.of(item), item.label()));
      }
      for (FluidSystem system : plan.systems()) {
        fluidBooks.put(
            system.id(), new FluidBook(system.id(), Optional.of(system), system.label()));
      }
    }

    void write(Standing said) {
      if (said.statement() instanceof ItemsMoved moved) {
        write(said, moved);
      } else if (said.statement() instanceof TemporaryMoved moved) {
        write(said, moved);
      } else if (said.statement() instanceof PartFitted fitted) {
        bookOf(fitted.item()).fit(said, fitted);
      } else if (said.statement() instanceof FluidMoved moved) {
        bookOf(moved).move(said, moved, amounts.litres(moved));
      }
    }

    private void write(Standing said, ItemsMoved moved) {
      if (moved.count() == null || moved.count() > 0) {
        bookOf(moved).move(said, moved);
      }
    }

    private void write(Standing said, TemporaryMoved moved) {
      if (moved.count() == null || moved.count() > 0) {
        bookOf(moved.item()).moveTemporary(said, moved.in(), moved.count());
      }
    }

    private ItemBook bookOf(ItemsMoved moved) {
      Optional<Item> meant =
          index.itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize());
      if (meant.isPresent()) {
        return bookOf(meant.get().id());
      }
      if (moved.move() == ItemMove.FOUND && moved.item() == null) {
        List<ItemBook> withLost = itemBooks.values().stream().filter(ItemBook::hasLost).toList();
        if (withLost.size() == 1) {
          return withLost.get(0);
        }
      }
      return notInPlan(moved.item(), moved.thing(), moved.headSize(), moved.place());
    }

    private ItemBook bookOf(String id) {
      ItemBook known = itemBooks.get(id);
      return known != null ? known : notInPlan(id, null, null, null);
    }

    private ItemBook notInPlan(
        @Nullable String id, @Nullable Thing thing, @Nullable Amount head, @Nullable String place) {
      String name = id == null ? null : index.label(id);
      String where = place == null ? null : index.label(place);
      String label = BookText.itemsNotInPlan(name, thing, head, where);
      return itemBooks.computeIfAbsent(
          "not-in-plan:" + label, key -> new ItemBook(key, Optional.empty(), label));
    }

    private FluidBook bookOf(FluidMoved moved) {
      Optional<FluidSystem> meant = index.systemMeant(moved.system(), moved.place(), moved.fluid());
      if (meant.isPresent()) {
        FluidBook known = fluidBooks.get(meant.get().id());
        if (known != null) {
          return known;
        }
      }
      String name = moved.system() != null ? moved.system() : moved.fluid();
      String label =
          name == null ? BookText.FLUID_NOT_IN_PLAN : BookText.fluidNotInPlan(index.label(name));
      return fluidBooks.computeIfAbsent(
          "not-in-plan:" + label, key -> new FluidBook(key, Optional.empty(), label));
    }

    Ledger close() {
      Map<String, ItemAccount> items = new LinkedHashMap<>();
      itemBooks.forEach((subject, book) -> items.put(subject, book.close()));
      Map<String, FluidAccount> fluids = new LinkedHashMap<>();
      fluidBooks.forEach((subject, book) -> fluids.put(subject, book.close()));
      return new Ledger(Collections.unmodifiableMap(items), Collections.unmodifiableMap(fluids));
    }
  }
}
