package tallyback.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;

/** A large plan for tests of size and speed: 150 items, each with a spoken name of two words. */
public final class BigPlan {

  /** How many items {@link #text()} has. */
  public static final int ITEMS = 150;

  /** Words of the CMU dictionary that sound unlike each other. */
  private static final List<String> WHERE =
      List.of(
          "radiator",
          "gearbox",
          "throttle",
          "exhaust",
          "cylinder",
          "battery",
          "alternator",
          "crankshaft",
          "manifold",
          "hydraulic",
          "steering",
          "clutch",
          "injector",
          "turbo",
          "valve");

  private record Noun(String word, String thing, int count, boolean torqued) {}

  private static final List<Noun> WHAT =
      List.of(
          new Noun("bolts", "bolt", 6, true),
          new Noun("nuts", "nut", 4, true),
          new Noun("screws", "screw", 3, true),
          new Noun("clamp", "clamp", 1, false),
          new Noun("gasket", "part", 1, false),
          new Noun("bracket", "part", 1, false),
          new Noun("cover", "part", 1, false),
          new Noun("hose", "hose", 1, false),
          new Noun("connector", "connector", 1, false),
          new Noun("sensor", "part", 1, false));

  private BigPlan() {}

  /** The plan. */
  public static Plan plan() {
    PlanReading reading = PlanReader.read("big.yaml", text());
    return reading
        .plan()
        .orElseThrow(() -> new IllegalStateException(reading.faults().get(0).text()));
  }

  /** The plan as YAML. */
  public static String text() {
    StringJoiner text = new StringJoiner("\n", "", "\n");
    text.add("tallyback-plan: 1").add("name: everything off and on again");
    text.add("fluids: [{say: [coolant], grade: any, form: premix}]");
    text.add("systems:");
    text.add("  - {say: [cooling system], fluid: coolant, capacity: 12 L,");
    text.add(
        "     drains: [{id: drain, say: [drain tap]}], marks: [{say: [cold mark], cold: true}]}");
    text.add("items:");
    for (String where : WHERE) {
      WHAT.forEach(what -> text.add(item(where, what)));
    }
    text.add("steps:");
    for (int i = 0; i < WHERE.size(); i++) {
      steps(WHERE.get(i), i == 0 ? null : WHERE.get(i - 1)).forEach(text::add);
    }
    text.add("instruments:");
    text.add("  - {say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}");
    text.add("  - {say: [big wrench], kind: wrench, from: 10 N·m, to: 100 N·m, tolerance: 4 %}");
    return text.toString();
  }

  private static String item(String where, Noun what) {
    String torque =
        what.torqued()
            ? ", head: 13 mm, torque: {value: 24 N·m, tolerance: 10 %, tolerance-from: made up for the test}"
            : "";
    return "  - {say: [%s %s], thing: %s, count: %d%s}"
        .formatted(where, what.word(), what.thing(), what.count(), torque);
  }

  private static List<String> steps(
      String where, @org.jspecify.annotations.Nullable String before) {
    StringJoiner ids = new StringJoiner(", ", "[", "]");
    WHAT.forEach(what -> ids.add(where + "-" + what.word()));
    List<String> steps = new ArrayList<>();
    steps.add(
        "  - {say: [strip %s], off: %s%s}"
            .formatted(where, ids, before == null ? "" : ", needs: [strip-" + before + "]"));
    steps.add("  - {say: [fit %s], on: %s, needs: [strip-%s]}".formatted(where, ids, where));
    return steps;
  }
}
