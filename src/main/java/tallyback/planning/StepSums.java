package tallyback.planning;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Step;

/**
 * Whether the steps add up: what comes off as often as it goes on, in an order that is possible,
 * and the count that the name speaks of.
 */
final class StepSums {

  /** A name that ends so speaks of several; what is named "gas" or "bus" is none of these. */
  private static final Pattern SEVERAL =
      Pattern.compile("(.* )?(bolts|nuts|screws|studs|washers|clips|clamps|plugs|pins|hoses)");

  private final LintList list;
  private final Map<String, List<Step>> off = new LinkedHashMap<>();
  private final Map<String, List<Step>> on = new LinkedHashMap<>();
  private final Map<String, Step> byId = new HashMap<>();
  private final Map<String, Set<String>> before = new HashMap<>();

  private StepSums(Plan plan, LintList list) {
    this.list = list;
    for (Step step : plan.steps()) {
      byId.putIfAbsent(step.id(), step);
      step.off().forEach(id -> off.computeIfAbsent(id, unused -> new ArrayList<>()).add(step));
      step.on().forEach(id -> on.computeIfAbsent(id, unused -> new ArrayList<>()).add(step));
    }
  }

  static void look(Plan plan, LintList list) {
    StepSums sums = new StepSums(plan, list);
    plan.items().stream().filter(item -> !item.say().isEmpty()).forEach(sums::look);
  }

  private void look(Item item) {
    if (item.count() == 1
        && SEVERAL.matcher(item.label()).matches()
        && !list.has(list.places().of(item.id(), "count"))) {
      LintText.severalInName(item, list);
    }
    List<Step> takenOff = off.getOrDefault(item.id(), List.of());
    List<Step> putOn = on.getOrDefault(item.id(), List.of());
    // What only goes one way the reader tells, all but this.
    if (takenOff.isEmpty() && !putOn.isEmpty() && !item.temporary()) {
      LintText.onNeverOff(item, putOn.get(0), list);
    }
    if (takenOff.isEmpty() || putOn.isEmpty()) {
      return;
    }
    if (takenOff.size() != putOn.size()) {
      LintText.sumsDiffer(item, takenOff, putOn, list);
    } else if (takenOff.size() == 1) {
      Step first = item.temporary() ? putOn.get(0) : takenOff.get(0);
      Step second = item.temporary() ? takenOff.get(0) : putOn.get(0);
      if (!first.id().equals(second.id()) && needed(first.id()).contains(second.id())) {
        LintText.wrongWayRound(item, first, second, list);
      }
    }
  }

  /** All steps that must be done before this one. */
  private Set<String> needed(String step) {
    Set<String> known = before.get(step);
    if (known != null) {
      return known;
    }
    Set<String> all = new HashSet<>();
    Deque<String> open = new ArrayDeque<>(List.of(step));
    while (!open.isEmpty()) {
      Step at = byId.get(open.remove());
      List<String> needs = at == null ? List.of() : at.needs();
      needs.stream().filter(all::add).forEach(open::add);
    }
    before.put(step, all);
    return all;
  }
}
