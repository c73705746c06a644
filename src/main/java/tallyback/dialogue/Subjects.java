package tallyback.dialogue;

import java.util.ArrayList;
import java.util.List;
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

  /** Ids of everything a statement names, what it is about first. */
  static List<String> all(Statement statement) {
    List<@Nullable String> named = new ArrayList<>();
    named.add(itemOf(statement));
    named.add(placeOf(statement));
    if (statement instanceof FluidMoved fluid) {
      named.add(fluid.system());
    } else if (statement instanceof Measured measured) {
      named.add(measured.mark());
    } else if (statement instanceof Statement.TemporaryMoved moved) {
      named.add(moved.item());
    } else if (statement instanceof Statement.PartFitted fitted) {
      named.add(fitted.item());
    } else if (statement instanceof Statement.Aligned aligned) {
      named.add(aligned.item());
    } else if (statement instanceof Statement.ProblemSeen problem) {
      named.add(problem.subject());
    } else if (statement instanceof Statement.SecondCheck check) {
      named.add(check.subject());
    } else if (statement instanceof Statement.PhotoMarked photo) {
      named.add(photo.subject());
    } else if (statement instanceof Statement.LookAgain again) {
      named.add(again.subject());
    }
    List<String> ids = new ArrayList<>();
    for (String id : named) {
      if (id != null) {
        ids.add(id);
      }
    }
    return ids;
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
