package tallyback.reconcile;

import java.util.List;
import tallyback.model.Finding.Stage;
import tallyback.model.Weight;

/**
 * One kind of finding: its name, how much it matters and which stages of the verdict it stands
 * against, unless the finding itself says otherwise.
 *
 * @param id short name, stable once published
 * @param weight stop, check or note
 * @param stages what it stands against
 * @param follows kinds it only follows from, when they are about the same thing
 * @param unfinished true when it is natural in a job that is still going on
 */
record Kind(
    String id, Weight weight, List<Stage> stages, List<String> follows, boolean unfinished) {

  static final List<Stage> ALL = List.of(Stage.values());
  static final List<Stage> AFTER_TEST = List.of(Stage.WORK, Stage.HAND_OVER);
  static final List<Stage> HAND_OVER = List.of(Stage.HAND_OVER);

  Kind {
    stages = List.copyOf(stages);
    follows = List.copyOf(follows);
  }

  static Kind stop(String id, List<Stage> stages) {
    return new Kind(id, Weight.STOP, stages, List.of(), false);
  }

  static Kind check(String id, List<Stage> stages) {
    return new Kind(id, Weight.CHECK, stages, List.of(), false);
  }

  static Kind note(String id) {
    return new Kind(id, Weight.NOTE, List.of(), List.of(), false);
  }

  Kind following(String... kinds) {
    return new Kind(id, weight, stages, List.of(kinds), unfinished);
  }

  Kind whileUnfinished() {
    return new Kind(id, weight, stages, follows, true);
  }
}
