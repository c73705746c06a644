package tallyback.reconcile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.books.PlanIndex;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Basis;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Place;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.TearDown.About;
import tallyback.reconcile.TearDown.Open;
import tallyback.reconcile.TearDown.Taken;

/** Reads what a job tells of itself. One job each, used by one thread. */
final class TearDownReading {

  /** The most that a plan can count. */
  private static final int LARGEST_COUNT = 99;

  private static final Pattern NUMBERED_PLACE = Pattern.compile("place-[0-9]+");

  private final Plan told;
  private final PlanIndex known;
  private final List<Standing> standing;

  /** Things of the plan that were named as taken off, fitted or tightened, in that order. */
  private final Map<String, Item> items = new LinkedHashMap<>();

  private final Map<Held, List<Amount>> heldBy = new LinkedHashMap<>();
  private final Set<String> named = new LinkedHashSet<>();
  private final Set<String> systems = new LinkedHashSet<>();
  private final Set<String> fluids = new LinkedHashSet<>();
  private final Map<String, Counting> countings = new LinkedHashMap<>();
  private final List<Open> open = new ArrayList<>();

  /** Fasteners by what they hold and what they are, as they are named without a plan. */
  private record Held(String holder, Thing thing) {}

  TearDownReading(Plan told, List<Standing> standing) {
    this.told = told;
    this.known = new PlanIndex(told);
    this.standing = standing;
  }

  private boolean namesOnly() {
    return told.basis() == Basis.NAMES;
  }

  TearDown read() {
    if (!namesOnly()) {
      told.items().forEach(item -> items.put(item.id(), item));
    }
    standing.forEach(said -> name(said.statement()));
    List<Item> groups = groups();
    count(groups);
    List<Item> counted = new ArrayList<>();
    items.values().forEach(item -> counted.add(counted(item, namesOnly())));
    groups.forEach(item -> counted.add(counted(item, true)));
    List<Taken> taken = taken(counted);
    unnamed();
    return new TearDown(plan(counted, steps(taken, counted)), open, taken);
  }

  // ---- what was named

  private void name(Statement said) {
    if (said instanceof ItemsMoved moved) {
      item(moved.item());
      held(moved.item(), moved.place(), moved.thing(), moved);
    } else if (said instanceof Tightened tightened) {
      item(tightened.item());
      held(tightened.item(), tightened.place(), tightened.thing(), null);
    } else if (said instanceof TemporaryMoved moved) {
      item(moved.item());
    } else if (said instanceof Statement.PartFitted fitted) {
      item(fitted.item());
    } else if (said instanceof Statement.Aligned aligned) {
      item(aligned.item());
    } else if (said instanceof FluidMoved moved) {
      fluid(moved);
    } else if (said instanceof Measured measured) {
      subject(measured.subject());
      subject(measured.mark());
    } else {
      others(said);
    }
  }

  private void others(Statement said) {
    if (said instanceof Statement.ProblemSeen problem) {
      subject(problem.subject());
    } else if (said instanceof Statement.PhotoMarked photo) {
      subject(photo.subject());
    } else if (said instanceof Statement.SecondCheck check) {
      subject(check.subject());
    } else if (said instanceof Statement.StateSaid state) {
      subject(state.place());
    } else if (said instanceof Statement.TimerSet timer) {
      subject(timer.subject());
    } else if (said instanceof Statement.LookAgain again) {
      subject(again.subject());
    } else if (said instanceof Memo memo) {
      subject(memo.subject());
    }
  }

  private void item(@Nullable String id) {
    known.item(id).ifPresent(item -> items.put(item.id(), item));
  }

  private void subject(@Nullable String id) {
    if (id != null) {
      named.add(id);
      known.systemMeant(id, null, null).ifPresent(system -> systems.add(system.id()));
    }
  }

  private void fluid(FluidMoved moved) {
    subject(moved.place());
    if (moved.fluid() != null) {
      fluids.add(moved.fluid());
    }
    boolean only =
        moved.system() == null
            && moved.fluid() == null
            && (moved.place() == null || known.systemMeant(moved.place(), null, null).isEmpty());
    if (!only) {
      known
          .systemMeant(moved.system(), moved.place(), moved.fluid())
          .ifPresent(system -> systems.add(system.id()));
    }
  }

  /** Fasteners named by what they hold, of which the plan knows none. */
  private void held(
      @Nullable String item,
      @Nullable String place,
      @Nullable Thing thing,
      @Nullable ItemsMoved moved) {
    subject(place);
    if (item != null || place == null || thing == null || !holdsNone(place, thing)) {
      return;
    }
    List<Amount> heads = heldBy.computeIfAbsent(new Held(place, thing), key -> new ArrayList<>());
    if (moved != null
        && (moved.move() == ItemMove.OFF || moved.move() == ItemMove.SHEARED)
        && moved.headSize() != null
        && heads.stream().noneMatch(head -> same(head, moved.headSize()))) {
      heads.add(moved.headSize());
    }
  }

  private boolean holdsNone(String place, Thing thing) {
    return told.items().stream()
        .noneMatch(each -> !each.temporary() && place.equals(each.of()) && each.thing() == thing);
  }

  private static boolean same(Amount one, Amount other) {
    return one.unit().dimension() == other.unit().dimension()
        && one.base().compareTo(other.base()) == 0;
  }

  // ---- groups

  private List<Item> groups() {
    List<Item> groups = new ArrayList<>();
    heldBy.forEach(
        (held, heads) -> {
          if (heads.size() < 2) {
            groups.add(group(held, heads.isEmpty() ? null : heads.get(0), false));
          } else {
            heads.forEach(head -> groups.add(group(held, head, true)));
          }
        });
    return groups;
  }

  private Item group(Held held, @Nullable Amount head, boolean oneOfSeveral) {
    String noun = held.thing().name().toLowerCase(Locale.ROOT) + "s";
    String size = oneOfSeveral && head != null ? "-" + idPart(head.toString()) : "";
    String id = held.holder() + "-" + noun + size;
    while (known.item(id).isPresent()) {
      id = id + "-held";
    }
    String label = known.label(held.holder()) + " " + noun;
    return new Item(
        id,
        List.of(oneOfSeveral && head != null ? label + ", " + head : label),
        held.thing(),
        1,
        held.holder(),
        null,
        head,
        null,
        null,
        null,
        null,
        false,
        false,
        false,
        false,
        null);
  }

  private static String idPart(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
  }

  // ---- how many

  private void count(List<Item> groups) {
    List<Item> all = new ArrayList<>(items.values());
    all.addAll(groups);
    for (Item item : all) {
      boolean group = groups.contains(item);
      boolean single = !group && item.count() == 1;
      countings.put(item.id(), new Counting(item.label(), single, item.temporary()));
    }
    PlanIndex index = new PlanIndex(plan(all, List.of()));
    boolean sureOnly = standing.stream().anyMatch(said -> said.entry().confirmed());
    for (int position = 0; position < standing.size(); position++) {
      Standing said = standing.get(position);
      if (said.entry().confirmed() || !sureOnly) {
        count(index, position, said);
      }
    }
    // What only an unconfirmed entry tells of came off all the same, as far as anybody knows.
    for (int position = 0; sureOnly && position < standing.size(); position++) {
      Standing said = standing.get(position);
      Counting counting = said.entry().confirmed() ? null : countingOf(index, said.statement());
      if (counting != null && counting.firstAway() == null) {
        counting.take(position, said);
      }
    }
  }

  private void count(PlanIndex index, int position, Standing said) {
    Statement statement = said.statement();
    Counting counting = countingOf(index, statement);
    if (counting != null && statement instanceof Tightened tightened) {
      counting.tightened(tightened.count());
    } else if (counting != null) {
      counting.take(position, said);
    } else if (statement instanceof ItemsMoved moved
        && (moved.move() == ItemMove.OFF || moved.move() == ItemMove.ON)) {
      open.add(
          new Open(
              About.GROUP,
              moved.place() == null ? "" : moved.place(),
              FindingText.openGroup(said)));
    }
  }

  private @Nullable Counting countingOf(PlanIndex index, Statement statement) {
    Optional<Item> item = Optional.empty();
    if (statement instanceof ItemsMoved moved) {
      item = index.itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize());
    } else if (statement instanceof Tightened tightened) {
      item = index.itemMeant(tightened.item(), tightened.place(), tightened.thing(), null);
    } else if (statement instanceof TemporaryMoved moved) {
      item = index.item(moved.item());
    } else if (statement instanceof Statement.PartFitted fitted) {
      item = index.item(fitted.item());
    }
    return item.map(each -> countings.get(each.id())).orElse(null);
  }

  /** The item with its number; one of a plan keeps the number of the plan. */
  private Item counted(Item item, boolean byTelling) {
    Counting counting = counting(item.id());
    int count = counting.count();
    if (count > LARGEST_COUNT) {
      open.add(new Open(About.COUNT, item.id(), FindingText.openTooMany(item.label(), count)));
      count = LARGEST_COUNT;
    } else if (!byTelling && count > item.count()) {
      open.add(
          new Open(
              About.COUNT,
              item.id(),
              FindingText.openAgainstPlan(item.label(), item.count(), count)));
    } else if (byTelling) {
      counting.open().ifPresent(words -> open.add(new Open(About.COUNT, item.id(), words)));
    }
    if (!byTelling) {
      return item;
    }
    // "Alternator connectors", of which there is one.
    boolean made = known.item(item.id()).isEmpty();
    boolean one = made && count == 1 && counting.open().isEmpty();
    List<String> say = one ? List.of(item.label().replaceFirst("s(?=,|$)", "")) : item.say();
    return withCount(item, say, count);
  }

  private Counting counting(String id) {
    Counting counting = countings.get(id);
    if (counting == null) {
      throw new IllegalStateException("nothing was counted of " + id);
    }
    return counting;
  }

  private static Item withCount(Item item, List<String> say, int count) {
    return new Item(
        item.id(),
        say,
        item.thing(),
        count,
        item.of(),
        item.thread(),
        item.head(),
        item.drive(),
        item.length(),
        item.grade(),
        item.torque(),
        item.stretch(),
        item.renew(),
        item.carryOver(),
        item.temporary(),
        item.alignment());
  }

  // ---- what came off together

  private List<Taken> taken(List<Item> counted) {
    Map<String, Item> byId = new HashMap<>();
    counted.forEach(item -> byId.put(item.id(), item));
    Map<String, List<Item>> byHolder = new LinkedHashMap<>();
    for (Item item : counted) {
      if (counting(item.id()).firstAway() != null) {
        byHolder.computeIfAbsent(holder(item, byId), key -> new ArrayList<>()).add(item);
      }
    }
    List<Taken> taken = new ArrayList<>();
    byHolder.forEach((holder, members) -> taken.add(together(holder, members)));
    taken.sort(Comparator.comparingInt(Taken::offAt));
    return taken;
  }

  /** What it holds, as far as that was taken off too or is a place; else itself. */
  private String holder(Item item, Map<String, Item> byId) {
    String of = item.of();
    if (of == null || item.temporary()) {
      return item.id();
    }
    Item holder = byId.get(of);
    boolean stays = holder != null && counting(holder.id()).firstAway() == null && !namesOnly();
    return stays ? item.id() : of;
  }

  private Taken together(String holder, List<Item> members) {
    members.sort(Comparator.comparingInt(item -> firstAway(item.id())));
    Optional<Item> part = members.stream().filter(item -> item.id().equals(holder)).findFirst();
    int off =
        part.map(item -> firstAway(item.id()))
            .orElseGet(() -> firstAway(members.get(members.size() - 1).id()));
    Integer on = null;
    if (part.isPresent()) {
      on = counting(holder).backAt();
    } else {
      for (Item member : members) {
        Integer back = counting(member.id()).backAt();
        on = back == null || (on != null && on < back) ? on : back;
      }
    }
    return new Taken(
        holder, members.stream().map(Item::id).toList(), members.get(0).temporary(), off, on);
  }

  private int firstAway(String id) {
    Integer first = counting(id).firstAway();
    return first == null ? Integer.MAX_VALUE : first;
  }

  // ---- steps

  /** Those of the tear-down and then its reverse; or those of the plan, with what it lacks. */
  private List<Step> steps(List<Taken> taken, List<Item> counted) {
    if (namesOnly()) {
      return TearDownSteps.of(taken, id -> label(id, counted), List.of());
    }
    List<Step> steps = new ArrayList<>();
    for (Step step : told.steps()) {
      steps.add(
          new Step(
              step.id(),
              step.say(),
              withHeld(step.off(), counted, false),
              withHeld(step.on(), counted, true),
              step.needs(),
              step.states(),
              step.minutes(),
              step.cautions(),
              step.injury()));
    }
    return steps;
  }

  /** Fasteners that the plan lacks come off before what they hold, and go on after it. */
  private List<String> withHeld(List<String> ids, List<Item> counted, boolean on) {
    List<String> all = new ArrayList<>(ids);
    for (Item item : counted) {
      int holder = item.of() == null ? -1 : all.indexOf(item.of());
      if (holder >= 0 && known.item(item.id()).isEmpty()) {
        all.add(on ? holder + 1 : holder, item.id());
      }
    }
    return all;
  }

  private String label(String id, List<Item> counted) {
    return counted.stream()
        .filter(item -> item.id().equals(id))
        .findFirst()
        .map(Item::label)
        .orElseGet(() -> known.label(id));
  }

  // ---- names that are missing

  private void unnamed() {
    for (Place place : told.places()) {
      boolean named = standing.stream().anyMatch(said -> TearDown.names(said.statement(), place));
      if (NUMBERED_PLACE.matcher(place.id()).matches() && used(place.id()) && !named) {
        open.add(new Open(About.NAME, place.id(), FindingText.openName(place.label())));
      }
    }
  }

  private boolean used(String place) {
    return named.contains(place)
        || heldBy.keySet().stream().anyMatch(held -> held.holder().equals(place));
  }

  // ---- the plan

  private Plan plan(List<Item> all, List<Step> steps) {
    if (!namesOnly()) {
      return new Plan(
          told.name(),
          told.text(),
          told.hash(),
          told.machine(),
          told.people(),
          told.fluids(),
          told.systems(),
          told.places(),
          all,
          steps,
          told.instruments(),
          told.limits(),
          told.pronunciations(),
          told.open(),
          told.basis());
    }
    Set<String> ids = new LinkedHashSet<>();
    all.forEach(item -> ids.add(item.id()));
    Set<String> wanted = new LinkedHashSet<>(named);
    heldBy.keySet().forEach(held -> wanted.add(held.holder()));
    List<Place> places = new ArrayList<>();
    for (Named each : told.named()) {
      boolean placeOrPart = each instanceof Place || each instanceof Item;
      if (placeOrPart && wanted.contains(each.id()) && !ids.contains(each.id())) {
        places.add(new Place(each.id(), each.say()));
      }
    }
    List<FluidSystem> opened =
        told.systems().stream().filter(system -> systems.contains(system.id())).toList();
    opened.forEach(system -> fluids.add(system.fluid()));
    return new Plan(
        told.name(),
        told.text(),
        told.hash(),
        told.machine(),
        told.people(),
        told.fluids().stream().filter(fluid -> fluids.contains(fluid.id())).toList(),
        opened,
        places,
        all,
        steps,
        told.instruments(),
        told.limits(),
        told.pronunciations(),
        told.open(),
        Basis.TEAR_DOWN);
  }
}
