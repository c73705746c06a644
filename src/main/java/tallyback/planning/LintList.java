package tallyback.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tallyback.model.Weight;
import tallyback.plan.Places;
import tallyback.plan.PlanFault;
import tallyback.plan.Spot;

/** Gathers what is found in one file. Not thread-safe: one look, one list. */
final class LintList {

  private final String file;
  private final Places places;
  private final List<PlanFault> faults = new ArrayList<>();

  LintList(String file, Places places) {
    this.file = file;
    this.places = places;
  }

  String file() {
    return file;
  }

  Places places() {
    return places;
  }

  void add(PlanFault fault) {
    faults.add(fault);
  }

  void add(Weight weight, Spot at, String expected, String found, String remedy) {
    add(new PlanFault(weight, file, at.line(), at.column(), at.field(), expected, found, remedy));
  }

  /** Whether something was already found in that field. */
  boolean has(Spot at) {
    return faults.stream()
        .anyMatch(each -> each.line() == at.line() && each.field().equals(at.field()));
  }

  List<PlanFault> inFileOrder() {
    return faults.stream()
        .distinct()
        .sorted(Comparator.comparingInt(PlanFault::line).thenComparingInt(PlanFault::column))
        .toList();
  }
}
