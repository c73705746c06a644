package tallyback.reconcile;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tallyback.books.Standing;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Weight;

/** A finding while it is being written. Used by one thread. */
final class Draft {

  private static final Comparator<Standing> OLDEST_FIRST =
      Comparator.comparing((Standing said) -> said.entry().happenedAt())
          .thenComparingLong(said -> said.entry().seq());

  private final Kind kind;
  private final String key;
  private final String subject;
  private final Set<String> anchors = new LinkedHashSet<>();
  private final Set<String> restsOn = new LinkedHashSet<>();
  private final Map<String, String> values = new LinkedHashMap<>();
  private final List<Standing> evidence = new ArrayList<>();
  private Weight weight;
  private List<Stage> stages;

  /**
   * Starts one.
   *
   * @param key what it is about, unique within its kind: a plan id or an entry id
   * @param subject the same for people
   */
  Draft(Kind kind, String key, String subject) {
    this.kind = kind;
    this.key = key;
    this.subject = subject;
    this.weight = kind.weight();
    this.stages = kind.stages();
    anchors.add(key);
  }

  Draft with(String name, Object value) {
    values.put(name, value.toString());
    return this;
  }

  Draft weighs(Weight other, List<Stage> against) {
    this.weight = other;
    this.stages = against;
    return this;
  }

  /** Also about these ids. */
  Draft about(Collection<String> ids) {
    anchors.addAll(ids);
    return this;
  }

  /** Could follow from a finding about these ids. */
  Draft restingOn(Collection<String> ids) {
    restsOn.addAll(ids);
    return this;
  }

  Draft seenIn(Standing said) {
    evidence.add(said);
    return this;
  }

  Draft seenIn(Collection<Standing> said) {
    evidence.addAll(said);
    return this;
  }

  Kind kind() {
    return kind;
  }

  /** Kind and what it is about: the same finding in two views of a job has the same. */
  String identity() {
    return kind.id() + " " + key;
  }

  Set<String> anchors() {
    return anchors;
  }

  Set<String> restsOn() {
    Set<String> all = new LinkedHashSet<>(anchors);
    all.addAll(restsOn);
    return all;
  }

  /** Writes it out. It is as heavy as the heaviest that follows from it. */
  Finding finish(List<Finding> followers) {
    Weight heaviest = weight;
    for (Finding follower : followers) {
      if (follower.weight().compareTo(heaviest) < 0) {
        heaviest = follower.weight();
      }
    }
    FindingText text = FindingText.of(kind.id());
    return new Finding(
        identity(),
        kind.id(),
        heaviest,
        stages,
        subject,
        text.expected(values),
        text.found(values),
        text.difference(values),
        text.tolerance(values),
        evidenceIds(),
        text.remedy(values),
        followers);
  }

  private List<String> evidenceIds() {
    evidence.sort(OLDEST_FIRST);
    Set<String> ids = new LinkedHashSet<>();
    evidence.forEach(said -> ids.addAll(said.evidence()));
    return List.copyOf(ids);
  }
}
