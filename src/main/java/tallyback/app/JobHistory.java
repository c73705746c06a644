package tallyback.app;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.history.Comparison;
import tallyback.history.ToldJob;
import tallyback.history.Trends;
import tallyback.log.JobRow;
import tallyback.log.JobSearch;
import tallyback.log.JobSummary;
import tallyback.log.JobsFound;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;
import tallyback.reconcile.TearDown;
import tallyback.reconcile.WorkedTime;

/** What many jobs in a data file tell together. Stateless; every call reads what is there now. */
public final class JobHistory {

  /** So many jobs of a machine are followed, the newest. */
  public static final int MOST_FOLLOWED = 60;

  private JobHistory() {}

  /**
   * What a list tells of a job beside its row.
   *
   * @param worked time worked
   * @param stops findings of weight stop, as the job stands by itself
   * @param checks of weight check
   * @param notes of weight note
   */
  public record Figures(Duration worked, long stops, long checks, long notes) {}

  /**
   * Works out the figures of a job, beside no other: what is told only by earlier jobs on the same
   * machine is not among its findings here.
   *
   * @return empty when the job can't be read; why stands in its row, or {@code verify} says it
   */
  public static Optional<Figures> figures(LogReader log, JobRow job) {
    if (!job.unread().isEmpty()) {
      return Optional.empty();
    }
    try {
      return planOf(log, job.id())
          .map(plan -> Reconciler.reconcile(plan, log.entries(job.id())))
          .map(JobHistory::figures);
    } catch (LogFailed | LogRefused unreadable) {
      return Optional.empty();
    }
  }

  private static Figures figures(Outcome outcome) {
    return new Figures(
        WorkedTime.of(outcome).counted(),
        count(outcome, Weight.STOP),
        count(outcome, Weight.CHECK),
        count(outcome, Weight.NOTE));
  }

  private static long count(Outcome outcome, Weight weight) {
    return outcome.findings().stream().filter(each -> each.weight() == weight).count();
  }

  private static Optional<Plan> planOf(LogReader log, String job) {
    return PlanReader.read("the plan frozen in job " + job, log.planText(job).orElse("")).plan();
  }

  /**
   * Two jobs side by side.
   *
   * @throws WrongUse if both are the same, or the plan of one can't be read
   * @throws LogRefused if there is no such job, or one comes from a newer version
   */
  public static Comparison compare(Path data, String one, String other) {
    if (one.equals(other)) {
      throw new WrongUse("job " + one + ": expected two different jobs; name another beside it");
    }
    return Comparison.of(told(CheckedJob.read(data, one)), told(CheckedJob.read(data, other)));
  }

  private static ToldJob told(CheckedJob job) {
    return ToldJob.of(job.job(), job.plan(), job.entries(), job.outcome());
  }

  /**
   * Jobs of one machine.
   *
   * @param machine what to call it
   * @param lead what to know of how they were chosen
   * @param trends what changes
   */
  public record OfMachine(String machine, List<String> lead, Trends trends) {}

  /**
   * What changes on a machine from job to job.
   *
   * @param data the data file
   * @param job a job done on it; null for the only open one, else the newest
   * @param machine words that name it instead; empty to go by the job
   * @throws WrongUse if it isn't clear which machine is meant
   */
  public static OfMachine trends(Path data, @Nullable String job, String machine) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      JobRow meant = machine.isBlank() ? row(log, job) : only(log, machine);
      if (meant.machine().isEmpty()) {
        throw new WrongUse(
            "job "
                + meant.id()
                + ": its plan names no machine, so that it isn't known which jobs were done on the"
                + " same; write 'machine:' with 'name:' and 'serial:' into the plan");
      }
      List<String> lead = new ArrayList<>();
      if (meant.serial() == null) {
        lead.add(
            "The plan gives no serial number: these are jobs on machines of this name"
                + (meant.owner().isEmpty() ? "" : " of " + meant.owner())
                + ", which may be several machines.");
      }
      List<JobRow> rows = ofMachine(log, meant);
      List<ToldJob> told = new ArrayList<>();
      List<String> unread = new ArrayList<>();
      for (JobRow each : rows.subList(0, Math.min(MOST_FOLLOWED, rows.size()))) {
        Optional<ToldJob> one = told(log, each);
        one.ifPresent(told::add);
        if (one.isEmpty()) {
          unread.add(each.id());
        }
      }
      if (rows.size() > MOST_FOLLOWED) {
        lead.add("Of " + rows.size() + " jobs the newest " + MOST_FOLLOWED + " are followed.");
      }
      if (!unread.isEmpty()) {
        lead.add("Left out, because they can't be read: " + String.join(", ", unread) + ".");
      }
      String name = meant.machine() + (meant.serial() == null ? "" : ", no. " + meant.serial());
      return new OfMachine(name, lead, Trends.of(told));
    }
  }

  private static Optional<ToldJob> told(LogReader log, JobRow row) {
    if (!row.unread().isEmpty()) {
      return Optional.empty();
    }
    try {
      List<Entry> entries = log.entries(row.id());
      return planOf(log, row.id())
          .map(
              plan ->
                  ToldJob.of(
                      row.id(),
                      TearDown.expected(plan, entries),
                      entries,
                      Reconciler.reconcile(plan, entries)));
    } catch (LogFailed | LogRefused unreadable) {
      return Optional.empty();
    }
  }

  /** The row of a job; of the one that is meant without a name. */
  private static JobRow row(LogReader log, @Nullable String job) {
    JobSummary meant = log.choose(job);
    return log.row(meant.id());
  }

  /** The one machine that words name. */
  private static JobRow only(LogReader log, String machine) {
    JobsFound found = log.find(JobSearch.ALL.withMachine(machine).withCount(JobSearch.MOST));
    List<JobRow> machines = new ArrayList<>();
    for (JobsFound.Found each : found.jobs()) {
      JobRow row = each.job();
      if (!row.machine().isEmpty() && machines.stream().noneMatch(row::sameMachine)) {
        machines.add(row);
      }
    }
    if (machines.size() == 1) {
      return machines.get(0);
    }
    if (machines.isEmpty()) {
      throw new WrongUse(
          "--machine \"" + machine + "\": no job on such a machine; 'jobs' shows their names");
    }
    List<String> names =
        machines.stream()
            .limit(8)
            .map(
                row ->
                    row.machine()
                        + (row.serial() == null ? "" : ", no. " + row.serial())
                        + (row.owner().isEmpty() ? "" : " (" + row.owner() + ")"))
            .toList();
    throw new WrongUse(
        "--machine \""
            + machine
            + "\": expected one machine, found "
            + (found.more() ? "many" : machines.size())
            + ": "
            + String.join("; ", names)
            + (machines.size() > names.size() ? "; and more" : "")
            + ". Name the serial number or the owner too");
  }

  /** All jobs on the machine of one, the newest first. */
  static List<JobRow> ofMachine(LogReader log, JobRow one) {
    String words = one.serial() == null ? one.machine() : one.serial();
    JobSearch search =
        JobSearch.ALL
            .withMachine(words.length() > JobSearch.MOST_CHARACTERS ? "" : words)
            .withCount(JobSearch.MOST);
    List<JobRow> jobs = new ArrayList<>();
    // What begins with the words is found, which may be on many other machines.
    JobsFound found = log.find(search);
    while (true) {
      found.jobs().stream().map(JobsFound.Found::job).filter(one::sameMachine).forEach(jobs::add);
      if (!found.more()) {
        return jobs;
      }
      found = log.find(search.withBefore(found.jobs().get(found.jobs().size() - 1).job().id()));
    }
  }
}
