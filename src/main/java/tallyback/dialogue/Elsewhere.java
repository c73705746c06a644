package tallyback.dialogue;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MoreOfSame;
import tallyback.model.Statement.SameAgain;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.plan.Plan.Item;

/** The same statement about another item, place or amount: for follow-ons and corrections. */
final class Elsewhere {

  private final Resolver resolver;

  Elsewhere(Resolver resolver) {
    this.resolver = resolver;
  }

  /** "Same again on the left"; empty when the last statement can't be repeated there. */
  Optional<Statement> again(Statement last, SameAgain again) {
    if (again.item() == null && again.place() == null) {
      return last instanceof ItemsMoved || last instanceof FluidMoved
          ? Optional.of(last)
          : Optional.empty();
    }
    return moved(last, again.item(), again.place());
  }

  /** "And nine fifty from the other side"; empty when the last statement holds no such amount. */
  Optional<Statement> more(Statement last, MoreOfSame more) {
    Optional<Statement> now = amount(last, more);
    return now.flatMap(
        statement ->
            more.item() == null && more.place() == null
                ? now
                : moved(statement, more.item(), more.place()));
  }

  private static Optional<Statement> amount(Statement last, MoreOfSame more) {
    Amount amount = more.amount();
    if (amount != null) {
      return last instanceof FluidMoved fluid
          ? Optional.of(
              new FluidMoved(
                  fluid.move(),
                  amount,
                  false,
                  fluid.fluid(),
                  fluid.form(),
                  fluid.system(),
                  fluid.place(),
                  fluid.vessel(),
                  fluid.warmth(),
                  fluid.temperature()))
          : Optional.empty();
    }
    return last instanceof ItemsMoved items && more.count() != null
        ? Optional.of(
            new ItemsMoved(
                items.move(),
                items.item(),
                items.thing(),
                more.count(),
                false,
                items.headSize(),
                items.place(),
                items.where()))
        : Optional.empty();
  }

  /**
   * The statement moved to the item or place said; itself when neither was said; empty when it
   * can't be moved there or it isn't clear where that is.
   */
  Optional<Statement> moved(Statement statement, @Nullable String item, @Nullable String place) {
    if (item != null && item.equals(Subjects.itemOf(statement)) && place == null) {
      return Optional.of(statement);
    }
    if (place == null) {
      return item == null ? Optional.of(statement) : toItem(statement, item, null);
    }
    return resolver
        .place(place, statement)
        .flatMap(
            found -> item != null ? toItem(statement, item, found) : toPlace(statement, found));
  }

  private Optional<Statement> toPlace(Statement statement, String place) {
    if (statement instanceof FluidMoved) {
      return resolver.resolve(Subjects.at(withoutSystem(statement), place), null);
    }
    if (statement instanceof ItemsMoved old) {
      return Optional.of(items(old, meant(old.thing(), place), place));
    }
    if (statement instanceof Tightened old) {
      return Optional.of(tightened(old, meant(old.thing(), place), place));
    }
    return Optional.empty();
  }

  private static Optional<Statement> toItem(
      Statement statement, String item, @Nullable String place) {
    if (statement instanceof ItemsMoved old) {
      return Optional.of(items(old, item, place));
    }
    if (statement instanceof Tightened old) {
      return Optional.of(tightened(old, item, place));
    }
    return Optional.empty();
  }

  private static Statement withoutSystem(Statement statement) {
    return statement instanceof FluidMoved old
        ? new FluidMoved(
            old.move(),
            old.amount(),
            old.about(),
            old.fluid(),
            old.form(),
            null,
            old.place(),
            old.vessel(),
            old.warmth(),
            old.temperature())
        : statement;
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
        old.wrench(),
        old.torqueAt(),
        old.order());
  }

  private @Nullable String meant(@Nullable Thing thing, String place) {
    List<Item> candidates = resolver.candidates(thing, place, null);
    return candidates.size() == 1 ? candidates.get(0).id() : null;
  }
}
