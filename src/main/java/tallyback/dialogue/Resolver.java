package tallyback.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;

/**
 * Finds the thing of the plan that a statement means when it was named by its place ("six bolts out
 * of the splash guard"), by its side ("on the left") or by nothing but what went before ("lost
 * one"). Names are resolved; values never are: no number and no unit comes from the plan.
 */
final class Resolver {

  private final Plan plan;
  private final Sides sides;

  Resolver(Plan plan) {
    this.plan = plan;
    this.sides = new Sides(plan);
  }

  /**
   * The statement with its names filled in; empty when it names a side and it isn't clear of what.
   *
   * @param said as it was said
   * @param before the last statement noted, or null
   */
  Optional<Statement> resolve(Statement said, @Nullable Statement before) {
    String place = Subjects.placeOf(said);
    if (place == null || !Sides.isSide(place)) {
      return Optional.of(named(said, before));
    }
    return place(place, before).map(found -> named(Subjects.at(said, found), before));
  }

  /**
   * The place meant: as named, or found from its side and what was named before; empty when it
   * isn't clear.
   */
  Optional<String> place(String said, @Nullable Statement before) {
    if (!Sides.isSide(said)) {
      return Optional.of(said);
    }
    return sides
        .counterpart(said, Subjects.placeOf(before))
        .or(() -> sides.counterpart(said, Subjects.itemOf(before)));
  }

  private Statement named(Statement said, @Nullable Statement before) {
    if (said instanceof ItemsMoved moved) {
      return items(moved, before);
    }
    if (said instanceof Tightened tightened) {
      return tightness(tightened, before);
    }
    if (said instanceof FluidMoved fluid) {
      return fluid(fluid);
    }
    return said instanceof Measured measured ? measured(measured) : said;
  }

  /**
   * The groups that a noun, a place and a head size can mean; one when it is clear, several when it
   * must be asked.
   */
  List<Item> candidates(@Nullable Thing thing, @Nullable String place, @Nullable Amount headSize) {
    if (place == null) {
      return List.of();
    }
    List<Item> there = new ArrayList<>();
    for (Item item : plan.items()) {
      boolean belongs = place.equals(item.of()) || place.equals(item.id());
      boolean itself = place.equals(item.id()) && plan.basis() != Plan.Basis.NAMES;
      boolean fits = thing == null || item.thing() == thing || itself;
      if (belongs && fits && !item.temporary()) {
        there.add(item);
      }
    }
    List<Item> fasteners = there.stream().filter(item -> !item.id().equals(place)).toList();
    List<Item> meant = thing == null || fasteners.isEmpty() ? there : fasteners;
    if (meant.size() > 1 && headSize != null) {
      List<Item> ofThatSize =
          meant.stream()
              .filter(item -> item.head() != null && sameSize(item.head(), headSize))
              .toList();
      return ofThatSize.isEmpty() ? meant : ofThatSize;
    }
    return meant;
  }

  private static boolean sameSize(Amount one, Amount other) {
    return one.unit().dimension() == other.unit().dimension() && one.base().equals(other.base());
  }

  private Statement items(ItemsMoved said, @Nullable Statement before) {
    String item = said.item();
    if (item == null && said.place() != null) {
      List<Item> meant = candidates(said.thing(), said.place(), said.headSize());
      item = meant.size() == 1 ? meant.get(0).id() : null;
    }
    if (item == null && said.place() == null && followsOn(said.move())) {
      String inHand = itemOf(before, said.thing());
      item = said.count() == null || inHand == null ? inHand : oneOf(inHand);
    }
    boolean ofTheSame = item == null && said.place() == null && followsOn(said.move());
    Held held = ofTheSame ? held(said.thing(), before) : new Held(said.place(), said.thing());
    return new ItemsMoved(
        said.move(),
        item,
        held.thing(),
        said.count(),
        said.lump(),
        said.headSize(),
        held.place(),
        said.where());
  }

  /** Fasteners by what they hold and what they are. */
  private record Held(@Nullable String place, @Nullable Thing thing) {}

  /** Where no plan has groups, "lost one" speaks of the fasteners named before by their place. */
  private Held held(@Nullable Thing thing, @Nullable Statement before) {
    Held earlier = new Held(null, null);
    if (before instanceof ItemsMoved moved && moved.item() == null) {
      earlier = new Held(moved.place(), moved.thing());
    } else if (before instanceof Tightened tightened && tightened.item() == null) {
      earlier = new Held(tightened.place(), tightened.thing());
    }
    boolean same =
        plan.basis() == Plan.Basis.NAMES
            && earlier.place() != null
            && (thing == null || thing == earlier.thing());
    return same ? earlier : new Held(null, thing);
  }

  /**
   * "Lost one", "found it", "one snapped" speak of what is in the hand; "three bolts off" does not.
   */
  private static boolean followsOn(ItemMove move) {
    return switch (move) {
      case DROPPED, FOUND, MISSING, SHEARED, SCRAPPED, NEW_ON -> true;
      case OFF, ON -> false;
    };
  }

  /**
   * "One" is one of several: after "cover off", one of the bolts that held it; nothing in
   * particular where it was held by several kinds.
   */
  private @Nullable String oneOf(String inHand) {
    if (plan.item(inHand).filter(item -> item.count() == 1).isEmpty()) {
      return inHand;
    }
    List<Item> several =
        plan.items().stream()
            .filter(item -> inHand.equals(item.of()) && item.count() > 1 && !item.temporary())
            .toList();
    return several.size() == 1 ? several.get(0).id() : null;
  }

  private @Nullable String itemOf(@Nullable Statement before, @Nullable Thing thing) {
    String item = null;
    if (before instanceof ItemsMoved moved) {
      item = moved.item();
    } else if (before instanceof Tightened tightened) {
      item = tightened.item();
    }
    if (item == null || thing == null) {
      return item;
    }
    String named = item;
    return plan.item(named).filter(each -> each.thing() == thing).isPresent() ? item : null;
  }

  private Statement tightness(Tightened said, @Nullable Statement before) {
    String item = said.item();
    if (item == null && said.place() != null) {
      List<Item> meant =
          candidates(said.thing(), said.place(), null).stream()
              .filter(each -> each.torque() != null)
              .toList();
      item = meant.size() == 1 ? meant.get(0).id() : null;
    }
    if (item == null && said.place() == null) {
      item = itemOf(before, said.thing());
    }
    boolean ofTheSame = item == null && said.place() == null;
    Held held = ofTheSame ? held(said.thing(), before) : new Held(said.place(), said.thing());
    return new Tightened(
        said.state(),
        item,
        held.place(),
        held.thing(),
        said.count(),
        said.lump(),
        said.torque(),
        said.pass(),
        said.angle(),
        said.wrench(),
        said.torqueAt(),
        said.order());
  }

  private Statement fluid(FluidMoved said) {
    String system = said.system();
    if (system == null && said.place() != null) {
      system = plan.system(said.place()).map(Plan.FluidSystem::id).orElse(null);
    }
    if (system == null && said.fluid() != null) {
      List<Plan.FluidSystem> filledWithIt =
          plan.systems().stream().filter(each -> each.fluid().equals(said.fluid())).toList();
      system = filledWithIt.size() == 1 ? filledWithIt.get(0).id() : null;
    }
    if (system == null && plan.systems().size() == 1) {
      system = plan.systems().get(0).id();
    }
    return new FluidMoved(
        said.move(),
        said.amount(),
        said.about(),
        said.fluid(),
        said.form(),
        system,
        said.place(),
        said.vessel(),
        said.warmth(),
        said.temperature());
  }

  private Statement measured(Measured said) {
    String subject = said.subject();
    if (subject == null && said.mark() != null) {
      subject = plan.system(said.mark()).map(Plan.FluidSystem::id).orElse(null);
    }
    return new Measured(
        said.measure(),
        said.amount(),
        said.level(),
        said.mark(),
        subject,
        said.warmth(),
        said.instrument());
  }
}
