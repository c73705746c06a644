package tallyback.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tallyback.log.JobRow;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Machine;
import tallyback.plan.PlanReader;
import tallyback.reconcile.EarlierFill;
import tallyback.reconcile.Reconciler;

/**
 * The jobs done before on the same machine, to compare with. Two plans mean the same machine only
 * when both give the same name and the same serial number: a shop has many of one model.
 */
final class EarlierFills {

  /** So many of the newest are compared: enough for a chart, and quickly read. */
  private static final int MOST = 24;

  private EarlierFills() {}

  static List<EarlierFill> of(LogReader log, JobSummary job, Plan plan) {
    List<EarlierFill> past = new ArrayList<>();
    if (plan.machine().serial() == null) {
      return past;
    }
    for (JobRow each : JobHistory.ofMachine(log, log.row(job.id()))) {
      if (past.size() < MOST && each.unread().isEmpty() && isBefore(each, job)) {
        planOf(log, each.id())
            .filter(other -> sameMachine(other.machine(), plan.machine()))
            .map(other -> Reconciler.reconcile(other, log.entries(each.id())))
            .ifPresent(outcome -> past.add(EarlierFill.of(each.openedAt(), outcome)));
      }
    }
    return past;
  }

  private static boolean isBefore(JobRow each, JobSummary job) {
    int order = each.openedAt().compareTo(job.openedAt());
    return order < 0 || (order == 0 && each.id().compareTo(job.id()) < 0);
  }

  /** A plan that can't be read any more is no reason to refuse today's job. */
  private static Optional<Plan> planOf(LogReader log, String job) {
    return log.planText(job)
        .flatMap(text -> PlanReader.read("the plan frozen in job " + job, text).plan());
  }

  private static boolean sameMachine(Machine one, Machine other) {
    return one.name().equals(other.name())
        && one.serial() != null
        && one.serial().equals(other.serial());
  }
}
