package tallyback.books;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement.Thing;

/** Every text of the books that a user may see. English only. */
final class BookText {

  private BookText() {}

  static final String FLUID_NOT_IN_PLAN = "fluid, system not said";

  /** For example "bolts, 10 mm (not in the plan)". */
  static String itemsNotInPlan(
      @Nullable String name, @Nullable Thing thing, @Nullable Amount head, @Nullable String place) {
    List<String> parts = new ArrayList<>();
    if (name != null) {
      parts.add(name);
    } else {
      parts.add(thing == null ? "things" : thing.name().toLowerCase(Locale.ROOT) + "s");
    }
    if (head != null) {
      parts.add(head.toString());
    }
    String where = place == null ? "" : " at " + place;
    return String.join(", ", parts) + where + " (not in the plan)";
  }

  /** For example "brake fluid (not in the plan)". */
  static String fluidNotInPlan(String name) {
    return name + " (not in the plan)";
  }
}
