package tallyback.reconcile;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.TearDown.Taken;

/**
 * Steps from a tear-down: taken off in the order told, fitted in the reverse of it. What holds a
 * part comes off before it and goes on after it.
 */
public final class TearDownSteps {

  private TearDownSteps() {}

  /** What must be on before something else goes on. */
  @FunctionalInterface
  public interface Needs {
    /**
     * Which of the others it needs.
     *
     * @param index which
     * @return indexes of those that must be on before it
     */
    List<Integer> of(int index);
  }

  /** The whole reverse order as a chain: a suggestion. */
  static List<Step> of(List<Taken> taken, UnaryOperator<String> label, List<Step> others) {
    int last = taken.size() - 1;
    return of(taken, label, others, index -> index == last ? List.of() : List.of(index + 1));
  }

  /**
   * The steps.
   *
   * @param taken what was taken off, first things first
   * @param label how people call what has an id
   * @param others steps that are there already
   * @param needs by place in {@code taken}
   */
  public static List<Step> of(
      List<Taken> taken, UnaryOperator<String> label, List<Step> others, Needs needs) {
    Set<String> ids = new HashSet<>();
    others.forEach(step -> ids.add(step.id()));
    List<Step> steps = new ArrayList<>();
    List<String> fitting = new ArrayList<>();
    for (Taken each : taken) {
      List<String> none = List.of();
      String name = label.apply(nameOf(each));
      String first = each.temporary() ? "put in " : "remove ";
      String then = each.temporary() ? "take out " : "fit ";
      steps.add(
          step(
              free(first + name, ids),
              first + name,
              each.temporary() ? none : each.items(),
              each.temporary() ? each.items() : none,
              none));
      fitting.add(free(then + name, ids));
    }
    for (int index = taken.size() - 1; index >= 0; index--) {
      Taken each = taken.get(index);
      String name = label.apply(nameOf(each));
      List<String> none = List.of();
      List<String> back = backwards(each);
      steps.add(
          step(
              fitting.get(index),
              (each.temporary() ? "take out " : "fit ") + name,
              each.temporary() ? back : none,
              each.temporary() ? none : back,
              needs.of(index).stream().map(fitting::get).toList()));
    }
    return steps;
  }

  /** A step about one group is called by it, not by the place it belongs to. */
  private static String nameOf(Taken taken) {
    boolean one = taken.items().size() == 1;
    return one ? taken.items().get(0) : taken.holder();
  }

  /** The part first, then what holds it, the last off first on. */
  private static List<String> backwards(Taken taken) {
    List<String> back = new ArrayList<>();
    for (String id : taken.items()) {
      back.add(0, id);
    }
    if (back.remove(taken.holder())) {
      back.add(0, taken.holder());
    }
    return back;
  }

  private static String free(String name, Set<String> ids) {
    String id = name.replace("'", "").replaceAll("[^a-z0-9]+", "-");
    while (!ids.add(id)) {
      id = id + "-again";
    }
    return id;
  }

  private static Step step(
      String id, String name, List<String> off, List<String> on, List<String> needs) {
    @Nullable Integer minutes = null;
    return new Step(id, List.of(name), off, on, needs, List.of(), minutes, List.of());
  }
}
