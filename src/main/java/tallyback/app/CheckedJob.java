package tallyback.app;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.log.JobSummary;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.Seal;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.PastJob;
import tallyback.reconcile.Reconciler;
import tallyback.reconcile.TearDown;
import tallyback.report.JobRecord;

/**
 * A job as it stands: its frozen plan, its entries, and what the reconciler makes of them.
 * Immutable.
 *
 * @param job its id
 * @param plan the plan frozen in it; of a job without a plan what came off
 * @param entries all its entries
 * @param outcome the reconciliation
 * @param past the times of earlier jobs of the same plan
 * @param seal the seal of its last closing, or null while it was never closed
 */
public record CheckedJob(
    String job,
    Plan plan,
    List<Entry> entries,
    Outcome outcome,
    List<PastJob> past,
    @Nullable Seal seal) {

  /** So many earlier jobs are enough to tell what is usual. */
  private static final int MOST_PAST_JOBS = 20;

  /** Copies the lists. */
  public CheckedJob {
    entries = List.copyOf(entries);
    past = List.copyOf(past);
  }

  /**
   * Reads a job from a data file and reconciles it.
   *
   * @param data the data file
   * @param job the job; null for the only open one, else the newest
   */
  public static CheckedJob read(Path data, @Nullable String job) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      JobSummary summary = log.choose(job);
      String text = log.planText(summary.id()).orElse("");
      Plan plan = frozenPlan(summary.id(), text);
      List<Entry> entries = log.entries(summary.id());
      Outcome outcome = Reconciler.reconcile(plan, entries, EarlierFills.of(log, summary, plan));
      // Jobs without a plan have no more in common than the names they were told with.
      boolean comparable = plan.basis() != Plan.Basis.NAMES;
      return new CheckedJob(
          summary.id(),
          TearDown.expected(plan, entries),
          entries,
          outcome,
          comparable ? past(log, summary) : List.of(),
          log.seals(summary.id()).stream().reduce((first, later) -> later).orElse(null));
    }
  }

  /**
   * The times of closed jobs of a plan, the latest last.
   *
   * @param data the data file
   * @param planName the plan's name
   */
  public static List<PastJob> pastOf(Path data, String planName) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return past(
          log,
          log.jobs().stream()
              .filter(each -> each.closed() && each.planName().equals(planName))
              .toList());
    }
  }

  /** Reconciles entries that are at hand. */
  public static CheckedJob of(String job, Plan plan, List<Entry> entries) {
    return new CheckedJob(
        job,
        TearDown.expected(plan, entries),
        entries,
        Reconciler.reconcile(plan, entries),
        List.of(),
        null);
  }

  private static List<PastJob> past(LogReader log, JobSummary now) {
    List<JobSummary> earlier =
        log.jobs().stream()
            .filter(each -> each.closed() && each.planName().equals(now.planName()))
            .filter(each -> !each.id().equals(now.id()) && !each.openedAt().isAfter(now.openedAt()))
            .toList();
    return past(log, earlier);
  }

  private static List<PastJob> past(LogReader log, List<JobSummary> earlier) {
    List<PastJob> past = new ArrayList<>();
    for (JobSummary each :
        earlier.subList(Math.max(0, earlier.size() - MOST_PAST_JOBS), earlier.size())) {
      pastJob(log, each).ifPresent(past::add);
    }
    return past;
  }

  /**
   * Damage in an earlier job, or that it comes from a newer version, is told by {@code verify}; it
   * does not keep this one from a check.
   */
  private static Optional<PastJob> pastJob(LogReader log, JobSummary job) {
    try {
      return PlanReader.read(
              "the plan frozen in job " + job.id(), log.planText(job.id()).orElse(""))
          .plan()
          .map(plan -> Reconciler.reconcile(plan, log.entries(job.id())))
          .map(outcome -> PastJob.of(job.id(), job.openedAt(), outcome));
    } catch (LogFailed | LogRefused damaged) {
      return Optional.empty();
    }
  }

  /**
   * The plan frozen in a job.
   *
   * @throws WrongUse listing everything for which it can't be read any more
   */
  static Plan frozenPlan(String job, String text) {
    PlanReading reading = PlanReader.read("the plan frozen in job " + job, text);
    return reading
        .plan()
        .orElseThrow(() -> new WrongUse(reading.faults().stream().map(PlanFault::text).toList()));
  }

  /** True when a finding of weight stop or check stands, also below another. */
  public boolean needsAction() {
    return outcome.findings().stream().anyMatch(CheckedJob::needsAction);
  }

  private static boolean needsAction(Finding finding) {
    return finding.weight() != Weight.NOTE
        || finding.followers().stream().anyMatch(CheckedJob::needsAction);
  }

  /**
   * What a report is made of.
   *
   * @param madeAt when the report is made
   * @param heard what was listened to, or null
   */
  public JobRecord record(Instant madeAt, JobRecord.@Nullable Heard heard) {
    Entry opening = entries.get(0);
    Instant closedAt =
        entries.stream()
            .filter(entry -> entry.statement() instanceof Statement.JobClosed)
            .map(Entry::happenedAt)
            .findFirst()
            .orElse(null);
    JobRecord.Heading heading =
        new JobRecord.Heading(
            job,
            opening.happenedAt(),
            closedAt,
            madeAt,
            opening.zone(),
            seal == null ? null : seal.toString());
    return new JobRecord(plan, heading, outcome, entries, heard, past, Map.of());
  }
}
