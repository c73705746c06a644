package tallyback.dialogue;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.plan.Plan.Item;

/**
 * The same statement about another item or place: for "same again on the left" and for corrections.
 */
final class Elsewhere {

  private Elsewhere() {}

  /**
   * The statement moved to the item or place said; itself when neither was said; empty when it
   * can't be moved there.
   */
  static Optional<Statement> of(
      Statement statement, @Nullable String item, @Nullable String place, Resolver resolver) {
    if (item == null && place == null) {
      return Optional.of(statement);
    }
    if (statement instanceof FluidMoved old) {
      return place == null ? Optional.empty() : Optional.of(fluid(old, place, resolver));
    }
    if (statement instanceof ItemsMoved old) {
      return Optional.of(items(old, meant(item, old.thing(), place, resolver), place));
    }
    if (statement instanceof Tightened old) {
      return Optional.of(tightened(old, meant(item, old.thing(), place, resolver), place));
    }
    return Optional.empty();
  }

  private static Statement fluid(FluidMoved old, String place, Resolver resolver) {
    FluidMoved moved =
        new FluidMoved(
            old.move(),
            old.amount(),
            old.about(),
            old.fluid(),
            old.form(),
            null,
            place,
            old.vessel(),
            old.warmth(),
            old.temperature());
    return resolver.resolve(moved, null);
  }

  private static Statement items(ItemsMoved old, @Nullable String item, @Nullable String place) {
    return new ItemsMoved(
        old.move(), item, old.thing(), old.count(), old.lump(), old.headSize(), place, old.where());
  }

  private static Statement tightened(Tightened old, @Nullable String item, @Nullable String place) {
    return new Tightened(
        old.state(),
        item,
        place,
        old.thing(),
        old.count(),
        old.lump(),
        old.torque(),
        old.pass(),
        old.angle(),
        old.wrench());
  }

  private static @Nullable String meant(
      @Nullable String item, @Nullable Thing thing, @Nullable String place, Resolver resolver) {
    return item != null ? item : onlyOne(resolver.candidates(thing, place, null));
  }

  private static @Nullable String onlyOne(List<Item> candidates) {
    return candidates.size() == 1 ? candidates.get(0).id() : null;
  }
}
