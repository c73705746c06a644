package tallyback.dialogue;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Statement;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;

/** Finds what "on the left" and "the other side" mean after something that was named in full. */
final class Sides {

  private final Plan plan;

  Sides(Plan plan) {
    this.plan = plan;
  }

  /** True when a name only says the side. */
  static boolean isSide(@Nullable String id) {
    return Statement.LEFT_SIDE.equals(id)
        || Statement.RIGHT_SIDE.equals(id)
        || Statement.OTHER_SIDE.equals(id);
  }

  /**
   * The counterpart of what was named before.
   *
   * @param side the side said
   * @param before id of what was named before, or null
   * @return its id; empty when it isn't clear which is meant
   */
  Optional<String> counterpart(String side, @Nullable String before) {
    if (before == null) {
      return Optional.empty();
    }
    Optional<Named> named = plan.find(before);
    if (side.equals(Statement.OTHER_SIDE)) {
      return otherPoint(before)
          .or(() -> named.flatMap(each -> mirrored(each, "left", "right")))
          .or(() -> named.flatMap(each -> mirrored(each, "right", "left")));
    }
    boolean left = side.equals(Statement.LEFT_SIDE);
    String wanted = left ? "left" : "right";
    return named
        .flatMap(each -> mirrored(each, left ? "right" : "left", wanted))
        .or(() -> named.flatMap(each -> onlyOneNamed(each, wanted)));
  }

  /** Of two drain points or two fill points the other one. */
  private Optional<String> otherPoint(String before) {
    for (FluidSystem system : plan.systems()) {
      for (List<Point> points : List.of(system.drains(), system.fills())) {
        if (points.size() == 2 && points.stream().anyMatch(point -> point.id().equals(before))) {
          return points.stream().map(Point::id).filter(id -> !id.equals(before)).findFirst();
        }
      }
    }
    return Optional.empty();
  }

  /** What is called the same but for the side. */
  private Optional<String> mirrored(Named named, String from, String to) {
    for (String name : named.say()) {
      String mirrored = (" " + name + " ").replace(" " + from + " ", " " + to + " ").strip();
      if (!mirrored.equals(name)) {
        for (Named other : plan.named()) {
          if (other.getClass() == named.getClass() && other.say().contains(mirrored)) {
            return Optional.of(other.id());
          }
        }
      }
    }
    return Optional.empty();
  }

  private Optional<String> onlyOneNamed(Named named, String side) {
    List<String> there =
        plan.named().stream()
            .filter(other -> other.getClass() == named.getClass())
            .filter(other -> !other.id().equals(named.id()))
            .filter(
                other ->
                    other.say().stream()
                        .anyMatch(name -> (" " + name + " ").contains(" " + side + " ")))
            .map(Named::id)
            .toList();
    return there.size() == 1 ? Optional.of(there.get(0)) : Optional.empty();
  }
}
