package tallyback.plan;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import tallyback.plan.Section.Mention;

/**
 * The ids and spoken names of one plan, and who refers to whom. References are checked at the end,
 * when every id is known.
 */
final class Names {

  /**
   * What an id stands for, and which names can be mistaken for each other because they stand in the
   * same slot of an entry.
   */
  enum Kind {
    PERSON("a person", "person"),
    FLUID("a fluid", "fluid"),
    SYSTEM("a system", "system"),
    POINT("a drain or fill point", "point"),
    MARK("a level mark", "mark"),
    PLACE("a place", "place or item"),
    ITEM("an item", "place or item"),
    STEP("a step", "step"),
    INSTRUMENT("an instrument", "instrument");

    private final String words;
    private final String slot;

    Kind(String words, String slot) {
      this.words = words;
      this.slot = slot;
    }
  }

  private record Declared(Kind kind, int line) {}

  private record Said(String slot, String name) {}

  private record SaidBy(String id, int line) {}

  private record Reference(Mention mention, Set<Kind> wanted) {}

  private final Faults faults;
  private final Map<String, Declared> ids = new LinkedHashMap<>();
  private final Map<Said, SaidBy> spoken = new HashMap<>();
  private final List<Reference> references = new ArrayList<>();

  Names(Faults faults) {
    this.faults = faults;
  }

  void declare(Kind kind, String id, Spot spot) {
    Declared first = ids.putIfAbsent(id, new Declared(kind, spot.line()));
    if (first != null) {
      faults.duplicateId(spot, id, first.kind().words, first.line());
    }
  }

  void say(Kind kind, String id, List<Mention> names) {
    for (Mention name : names) {
      SaidBy first =
          spoken.putIfAbsent(new Said(kind.slot, name.text()), new SaidBy(id, name.spot().line()));
      if (first != null) {
        faults.sameName(name.spot(), name.text(), first.id(), first.line());
      }
    }
  }

  void refer(Mention mention, Set<Kind> wanted) {
    references.add(new Reference(mention, wanted));
  }

  void checkReferences() {
    Map<Set<Kind>, Set<String>> known = new HashMap<>();
    for (Reference reference : references) {
      String id = reference.mention().text();
      Spot spot = reference.mention().spot();
      Declared target = ids.get(id);
      String wanted =
          reference.wanted().stream().map(kind -> kind.words).collect(Collectors.joining(" or "));
      if (target == null) {
        faults.unknownReference(
            spot, id, wanted, known.computeIfAbsent(reference.wanted(), this::idsOf));
      } else if (!reference.wanted().contains(target.kind())) {
        faults.wrongReference(spot, id, wanted, target.kind().words);
      }
    }
  }

  private Set<String> idsOf(Set<Kind> kinds) {
    return ids.entrySet().stream()
        .filter(id -> kinds.contains(id.getValue().kind()))
        .map(Map.Entry::getKey)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * Reports each ring among the arrows from an id to the ids it needs. Iterative, so that a plan
   * with a very long chain can't exhaust the stack.
   */
  static void checkRings(Map<String, List<Mention>> needs, Faults faults) {
    Set<String> finished = new HashSet<>();
    for (String start : needs.keySet()) {
      follow(start, needs, finished, faults);
    }
  }

  private record Walk(String id, Deque<Mention> ahead) {}

  private static void follow(
      String start, Map<String, List<Mention>> needs, Set<String> finished, Faults faults) {
    if (finished.contains(start)) {
      return;
    }
    List<String> path = new ArrayList<>(List.of(start));
    Set<String> onPath = new HashSet<>(path);
    Deque<Walk> walks = new ArrayDeque<>();
    walks.push(walk(start, needs));
    while (!walks.isEmpty()) {
      Mention next = walks.element().ahead().poll();
      if (next == null) {
        String left = walks.pop().id();
        path.remove(path.size() - 1);
        onPath.remove(left);
        finished.add(left);
      } else if (onPath.contains(next.text())) {
        List<String> ring = new ArrayList<>(path.subList(path.indexOf(next.text()), path.size()));
        ring.add(next.text());
        faults.cycle(next.spot(), ring);
      } else if (!finished.contains(next.text())) {
        path.add(next.text());
        onPath.add(next.text());
        walks.push(walk(next.text(), needs));
      }
    }
  }

  private static Walk walk(String id, Map<String, List<Mention>> needs) {
    return new Walk(id, new ArrayDeque<>(needs.getOrDefault(id, List.of())));
  }
}
