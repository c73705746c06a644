package tallyback.reconcile;

import java.util.List;

/**
 * Judges one side of a job. A new kind of finding is one constant and one method of a rule, its
 * text in {@link FindingText} and its example in the gallery of the tests.
 */
interface Rule {

  /** The kinds it may find. */
  List<Kind> kinds();

  /** Adds what it finds. */
  void judge(JobView job, Drafts found);
}
