package tallyback.reconcile;

import java.util.List;
import tallyback.model.Finding;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** What tests of the rules say over and over: a plan, a job, what is found. */
final class Judging {

  private Judging() {}

  /** A plan of these sections. */
  static Plan plan(String sections) {
    return PlanReader.read("test.yaml", "tallyback-plan: 1\nname: test\n" + sections)
        .plan()
        .orElseThrow();
  }

  /** A job in the form of {@link JobText}. */
  static Outcome outcome(Plan plan, String job) {
    return Reconciler.reconcile(plan, JobText.read(job));
  }

  /** The kinds of the root findings. */
  static List<String> kinds(Outcome outcome) {
    return outcome.findings().stream().map(Finding::kind).toList();
  }

  /** The first root finding of a kind. */
  static Finding finding(Outcome outcome, String kind) {
    return outcome.findings().stream()
        .filter(each -> each.kind().equals(kind))
        .findFirst()
        .orElseThrow(() -> new AssertionError(kind + " not in\n" + FindingLines.of(outcome)));
  }
}
