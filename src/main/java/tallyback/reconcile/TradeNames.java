package tallyback.reconcile;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;

/**
 * What the spoken name of a thing tells of it where the plan does not say it. Common practice, no
 * source; English only. Whatever rests on a name says so in its finding.
 */
final class TradeNames {

  private static final List<String> SINGLE_USE =
      List.of(
          "gasket",
          "crush washer",
          "copper washer",
          "sealing washer",
          "o ring",
          "cotter pin",
          "split pin",
          "lock nut",
          "stretch bolt");

  private static final Set<String> BATTERY_EARTH =
      Set.of(
          "earth lead",
          "ground lead",
          "negative lead",
          "earth cable",
          "ground cable",
          "negative cable",
          "battery lead",
          "battery cable",
          "battery earth",
          "battery ground",
          "negative terminal");

  private static final String BATTERY = "battery ";

  private static final List<String> TIMING =
      List.of("timing", "camshaft", "cam belt", "cambelt", "cam chain");

  /** Guards against dirt: the machine may run without them and hurt nobody. */
  private static final Set<String> AGAINST_DIRT = Set.of("splash", "mud", "stone", "dust");

  /** What may lie under a name for something else ("guard bolts" are bolts). */
  private static final Set<Thing> FASTENERS =
      EnumSet.of(
          Thing.BOLT,
          Thing.NUT,
          Thing.SCREW,
          Thing.STUD,
          Thing.WASHER,
          Thing.CLIP,
          Thing.CLAMP,
          Thing.PIN);

  private TradeNames() {}

  /** The sort of single-use thing an item is by its name, such as "gasket". */
  static Optional<String> singleUse(Item item) {
    return SINGLE_USE.stream()
        .filter(sort -> anyName(item, name -> endsWith(name, sort)))
        .findFirst();
  }

  /** True for the lead that takes the battery off the machine. */
  static boolean batteryEarth(Item item) {
    return !FASTENERS.contains(item.thing())
        && anyName(
            item,
            name ->
                BATTERY_EARTH.contains(name)
                    || (name.startsWith(BATTERY)
                        && BATTERY_EARTH.contains(name.substring(BATTERY.length()))));
  }

  /** True for a guard that keeps hands from what turns. */
  static boolean guard(Item item) {
    return !item.temporary()
        && !FASTENERS.contains(item.thing())
        && anyName(
            item,
            name ->
                endsWith(name, "guard")
                    && AGAINST_DIRT.stream().noneMatch(word -> hasWords(name, word)));
  }

  /** True for what sets when valves and pump move against the crank. */
  static boolean timing(Named named) {
    return anyName(named, name -> TIMING.stream().anyMatch(words -> hasWords(name, words)));
  }

  private static boolean anyName(Named named, java.util.function.Predicate<String> wanted) {
    return named.say().stream().map(name -> name.replace('-', ' ')).anyMatch(wanted);
  }

  private static boolean endsWith(String name, String words) {
    String padded = " " + name;
    return padded.endsWith(" " + words) || padded.endsWith(" " + words + "s");
  }

  private static boolean hasWords(String name, String words) {
    return (" " + name + " ").contains(" " + words + " ");
  }
}
