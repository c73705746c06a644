package tallyback.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.log.JobSummary;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.plan.Plan;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.planning.PastJobs;
import tallyback.planning.TearDownPlan;
import tallyback.speech.CmuLexicon;

/** Plans out of a data file: of one job, and of all past jobs of a plan. */
public final class MadePlans {

  private MadePlans() {}

  /**
   * A plan out of a job.
   *
   * @param text the plan
   * @param open what could not be decided, as questions
   * @param unfit why the plan can't be used as it is, one line each; empty when it can
   */
  public record FromJob(String text, List<String> open, List<String> unfit) {

    /** Copies the lists. */
    public FromJob {
      open = List.copyOf(open);
      unfit = List.copyOf(unfit);
    }
  }

  /**
   * Draws a plan from a job.
   *
   * @param data the data file
   * @param job the job; null for the only open one, else the newest
   */
  public static FromJob fromJob(Path data, @Nullable String job) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      String id = log.choose(job).id();
      Plan plan = frozen(log, id);
      TearDownPlan drawn =
          TearDownPlan.of(id, plan, log.entries(id), CmuLexicon.load().with(plan.pronunciations()));
      return new FromJob(drawn.text(), drawn.open(), unfit(id, drawn.text()));
    }
  }

  private static List<String> unfit(String job, String text) {
    try {
      LoadedPlan.of("the plan drawn from job " + job, text);
      return List.of();
    } catch (WrongUse faults) {
      return faults.lines();
    }
  }

  private static Plan frozen(LogReader log, String job) {
    PlanReading reading =
        PlanReader.read("the plan frozen in job " + job, log.planText(job).orElse(""));
    return reading
        .plan()
        .orElseThrow(() -> new WrongUse(reading.faults().stream().map(PlanFault::text).toList()));
  }

  /**
   * Learns from the closed jobs of a plan.
   *
   * @param data the data file
   * @param file the plan that is to learn; null for the one of a job
   * @param job the job whose plan it is; null for the only open one, else the newest
   * @throws WrongUse if there is no past job to learn from
   */
  public static PastJobs learn(Path data, @Nullable Path file, @Nullable String job) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      Plan plan = file == null ? frozen(log, log.choose(job).id()) : LoadedPlan.of(file).plan();
      if (plan.basis() == Plan.Basis.NAMES) {
        throw new WrongUse(
            "this job has no plan, and such jobs have nothing in common; draw one with"
                + " 'plan-from-job' and use it next time");
      }
      List<PastJobs.Told> told = new ArrayList<>();
      for (JobSummary each : log.jobs()) {
        if (each.closed() && each.planName().equals(plan.name())) {
          told(log, each).ifPresent(told::add);
        }
      }
      if (told.isEmpty()) {
        throw new WrongUse(
            data
                + ": expected a closed job of the plan \""
                + plan.name()
                + "\", found none; 'jobs' lists those that are there, 'close' closes one");
      }
      return PastJobs.of(plan, told);
    }
  }

  /** Damage in an earlier job is told by {@code verify}; nothing is learned from it. */
  private static Optional<PastJobs.Told> told(LogReader log, JobSummary job) {
    try {
      return PlanReader.read("the plan of job " + job.id(), log.planText(job.id()).orElse(""))
          .plan()
          .map(plan -> new PastJobs.Told(job.id(), job.openedAt(), plan, log.entries(job.id())));
    } catch (LogFailed damaged) {
      return Optional.empty();
    }
  }
}
