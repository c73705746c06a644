package tallyback.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tallyback.log.JobRow;
import tallyback.log.JobSummary;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
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
        fill(log, each, plan).ifPresent(past::add);
      }
    }
    return past;
  }

  private static boolean isBefore(JobRow each, JobSummary job) {
    int order = each.openedAt().compareTo(job.openedAt());
    return order < 0 || (order == 0 && each.id().compareTo(job.id()) < 0);
  }

  /** An earlier job that can't be read any more is no reason to refuse today's. */
  private static Optional<EarlierFill> fill(LogReader log, JobRow job, Plan plan) {
    try {
      return planOf(log, job.id())
          .filter(other -> sameMachine(other.machine(), plan.machine()))
          .map(other -> Reconciler.reconcile(other, log.entries(job.id())))
          .map(outcome -> EarlierFill.of(job.openedAt(), outcome));
    } catch (LogFailed | LogRefused damaged) {
      // 'verify' tells it.
      return Optional.empty();
    }
  }

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
