package tallyback.books;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;

/** What a plan's ids mean, looked up in constant time. Immutable, safe for any thread. */
public final class PlanIndex {

  private final Map<String, String> labels = new HashMap<>();
  private final Map<String, Item> items = new LinkedHashMap<>();
  private final Map<String, Step> steps = new LinkedHashMap<>();
  private final Map<String, Instrument> instruments = new HashMap<>();
  private final Map<String, FluidSystem> systemByPart = new HashMap<>();
  private final Map<String, List<FluidSystem>> systemsByFluid = new HashMap<>();
  private final Map<String, LevelMark> marks = new HashMap<>();
  private final Map<String, List<Item>> itemsByPlace = new HashMap<>();
  private final Map<String, List<Step>> stepsByItem = new HashMap<>();
  private final Map<String, Fluid> fluids = new HashMap<>();
  private final List<FluidSystem> systems;

  /** Indexes a plan. */
  public PlanIndex(Plan plan) {
    for (Named named : plan.named()) {
      labels.putIfAbsent(named.id(), named.label());
    }
    systems = plan.systems();
    plan.items().forEach(this::add);
    plan.steps().forEach(this::add);
    plan.instruments().forEach(each -> instruments.putIfAbsent(each.id(), each));
    plan.systems().forEach(this::add);
    plan.fluids().forEach(each -> fluids.putIfAbsent(each.id(), each));
  }

  private void add(Item item) {
    items.putIfAbsent(item.id(), item);
    if (item.of() != null) {
      itemsByPlace.computeIfAbsent(item.of(), key -> new ArrayList<>()).add(item);
    }
  }

  private void add(Step step) {
    steps.putIfAbsent(step.id(), step);
    for (List<String> ids : List.of(step.off(), step.on())) {
      for (String id : ids) {
        List<Step> known = stepsByItem.computeIfAbsent(id, key -> new ArrayList<>());
        if (!known.contains(step)) {
          known.add(step);
        }
      }
    }
  }

  private void add(FluidSystem system) {
    systemByPart.putIfAbsent(system.id(), system);
    for (Point point : system.drains()) {
      systemByPart.putIfAbsent(point.id(), system);
    }
    for (Point point : system.fills()) {
      systemByPart.putIfAbsent(point.id(), system);
    }
    for (LevelMark mark : system.marks()) {
      systemByPart.putIfAbsent(mark.id(), system);
      marks.putIfAbsent(mark.id(), mark);
    }
    systemsByFluid.computeIfAbsent(system.fluid(), key -> new ArrayList<>()).add(system);
  }

  /** The preferred spoken name, or the id itself. */
  public String label(String id) {
    return labels.getOrDefault(id, id);
  }

  /** The item with this id. */
  public Optional<Item> item(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : items.get(id));
  }

  /** The step with this id. */
  public Optional<Step> step(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : steps.get(id));
  }

  /** The instrument with this id. */
  public Optional<Instrument> instrument(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : instruments.get(id));
  }

  /** The fluid with this id. */
  public Optional<Fluid> fluid(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : fluids.get(id));
  }

  /** The level mark with this id. */
  public Optional<LevelMark> mark(@Nullable String id) {
    return Optional.ofNullable(id == null ? null : marks.get(id));
  }

  /** The steps in which an item comes off or goes on. */
  public List<Step> stepsWith(String item) {
    return stepsByItem.getOrDefault(item, List.of());
  }

  /**
   * The group meant: by its id, else the only group of that sort (and head size, when that is
   * needed to tell) at the place. Empty when nothing or more than one fits: then it is not guessed.
   */
  public Optional<Item> itemMeant(
      @Nullable String id, @Nullable String place, @Nullable Thing thing, @Nullable Amount head) {
    if (id != null) {
      return item(id);
    }
    if (place == null) {
      return Optional.empty();
    }
    List<Item> fitting = new ArrayList<>();
    for (Item item : itemsByPlace.getOrDefault(place, List.of())) {
      if (!item.temporary() && (thing == null || item.thing() == thing)) {
        fitting.add(item);
      }
    }
    if (fitting.size() > 1 && head != null) {
      fitting.removeIf(item -> !sameSize(item.head(), head));
    }
    if (fitting.isEmpty() && thing == null) {
      return item(place);
    }
    return fitting.size() == 1 ? Optional.of(fitting.get(0)) : Optional.empty();
  }

  private static boolean sameSize(@Nullable Amount planned, Amount said) {
    return planned != null
        && planned.unit().dimension() == said.unit().dimension()
        && planned.base().compareTo(said.base()) == 0;
  }

  /**
   * The system meant: by its id, else by one of its points or marks, else the only one with the
   * fluid, else the only one.
   */
  public Optional<FluidSystem> systemMeant(
      @Nullable String id, @Nullable String place, @Nullable String fluid) {
    if (id != null) {
      return Optional.ofNullable(systemByPart.get(id));
    }
    FluidSystem atPlace = place == null ? null : systemByPart.get(place);
    if (atPlace != null) {
      return Optional.of(atPlace);
    }
    List<FluidSystem> withFluid =
        fluid == null ? List.of() : systemsByFluid.getOrDefault(fluid, List.of());
    if (withFluid.size() == 1) {
      return Optional.of(withFluid.get(0));
    }
    return systems.size() == 1 ? Optional.of(systems.get(0)) : Optional.empty();
  }
}
