package tallyback.reconcile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The findings of one view of a job, one per kind and subject, in the order they were found. Used
 * by one thread.
 */
final class Drafts {

  private final Map<String, Draft> byIdentity = new LinkedHashMap<>();

  /** Starts a finding; the one already there when the kind was found for that subject before. */
  Draft add(Kind kind, String key, String subject) {
    return byIdentity.computeIfAbsent(
        kind.id() + " " + key, identity -> new Draft(kind, key, subject));
  }

  void add(Draft draft) {
    byIdentity.putIfAbsent(draft.identity(), draft);
  }

  boolean has(Draft draft) {
    return byIdentity.containsKey(draft.identity());
  }

  List<Draft> all() {
    return new ArrayList<>(byIdentity.values());
  }
}
