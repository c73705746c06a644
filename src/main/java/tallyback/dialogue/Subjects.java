package tallyback.dialogue;

import org.jspecify.annotations.Nullable;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.Tightened;

/** The names that stand in a statement. */
final class Subjects {

  private Subjects() {}

  /** The place that was named, or null. */
  static @Nullable String placeOf(@Nullable Statement statement) {
    if (statement instanceof FluidMoved fluid) {
      return fluid.place();
    }
    if (statement instanceof ItemsMoved items) {
      return items.place();
    }
    if (statement instanceof Tightened tightened) {
      return tightened.place();
    }
    return statement instanceof StateSaid state ? state.place() : null;
  }

  /** The item that was named, or null. */
  static @Nullable String itemOf(@Nullable Statement statement) {
    if (statement instanceof ItemsMoved items) {
      return items.item();
    }
    if (statement instanceof Tightened tightened) {
      return tightened.item();
    }
    return statement instanceof Measured measured ? measured.subject() : null;
  }

  /** The statement with another place. */
  static Statement at(Statement statement, @Nullable String place) {
    if (statement instanceof FluidMoved old) {
      return new FluidMoved(
          old.move(),
          old.amount(),
          old.about(),
          old.fluid(),
          old.form(),
          old.system(),
          place,
          old.vessel(),
          old.warmth(),
          old.temperature());
    }
    if (statement instanceof ItemsMoved old) {
      return new ItemsMoved(
          old.move(),
          old.item(),
          old.thing(),
          old.count(),
          old.lump(),
          old.headSize(),
          place,
          old.where());
    }
    if (statement instanceof Tightened old) {
      return new Tightened(
          old.state(),
          old.item(),
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
    return statement instanceof StateSaid old ? new StateSaid(old.state(), place) : statement;
  }
}
