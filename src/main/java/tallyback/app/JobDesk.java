package tallyback.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.dialogue.Dialogue;
import tallyback.dialogue.NotePad;
import tallyback.dialogue.answers.Answers;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.Seal;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.plan.Plan;
import tallyback.reconcile.EarlierFill;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

/**
 * A job laid out for noting: its log is open for writing, its plan frozen, and what was noted so
 * far is known. One thread. {@link #close} gives the data file free.
 */
public final class JobDesk implements AutoCloseable {

  private static final String TOOL = "tallyback";

  /** Nobody has written cautions for this machine, so the usual ones stand at the beginning. */
  private static final String WITHOUT_PLAN =
      "no plan: whatever comes off is expected to go back, and every bolt and nut to be torqued or"
          + " said to be tight by feel; 'phrases' lists the names you can use\n"
          + "mind: engine stopped, key out, machine on stands and not on the jack; cold and"
          + " pressure off before anything is opened; battery earth off first and on last; hands"
          + " and sleeves away from belt and fan. The maker's manual and local rules come first.";

  private final JobLog log;
  private final LoadedPlan plan;
  private final String job;
  private final Setting setting;
  private final boolean isNew;
  private final boolean newBesideOthers;

  /**
   * Who is at the desk.
   *
   * @param device where it is said or typed
   * @param actor who speaks until somebody says otherwise
   * @param zone time zone of the shop
   * @param clock the clock
   */
  public record Setting(String device, String actor, ZoneId zone, InstantSource clock) {}

  private JobDesk(
      JobLog log,
      LoadedPlan plan,
      String job,
      Setting setting,
      boolean isNew,
      boolean newBesideOthers) {
    this.log = log;
    this.plan = plan;
    this.job = job;
    this.setting = setting;
    this.isNew = isNew;
    this.newBesideOthers = newBesideOthers;
  }

  /**
   * Opens a job in a data file, or goes on with it.
   *
   * @param data the data file; made when there is none
   * @param plan the job's plan
   * @param job the job; null for the only open one, else the newest; a new one when all are closed
   * @param openedAt when a job that is new here began
   * @param setting who is at the desk
   */
  public static JobDesk open(
      Path data, LoadedPlan plan, @Nullable String job, Instant openedAt, Setting setting) {
    return open(SqliteLogs.openForWriting(data), plan, job, openedAt, setting);
  }

  /** A desk whose notes are thrown away: to try what would be noted. */
  public static JobDesk withoutData(LoadedPlan plan, Instant openedAt, Setting setting) {
    return open(SqliteLogs.inMemory(), plan, "trial", openedAt, setting);
  }

  private static JobDesk open(
      JobLog log, LoadedPlan plan, @Nullable String job, Instant openedAt, Setting setting) {
    boolean ready = false;
    try {
      List<JobSummary> jobs = log.jobs();
      String chosen = job != null ? job : chosen(log, jobs);
      boolean isNew = jobs.stream().noneMatch(each -> each.id().equals(chosen));
      JobDesk desk = new JobDesk(log, plan, chosen, setting, isNew, isNew && !jobs.isEmpty());
      desk.log.openJob(desk.opening(openedAt));
      ready = true;
      return desk;
    } finally {
      if (!ready) {
        log.close();
      }
    }
  }

  private static String chosen(JobLog log, List<JobSummary> jobs) {
    boolean anyOpen = jobs.stream().anyMatch(each -> !each.closed());
    return anyOpen ? log.choose(null).id() : freshName(jobs);
  }

  private static String freshName(List<JobSummary> jobs) {
    Set<String> taken = jobs.stream().map(JobSummary::id).collect(Collectors.toSet());
    int number = jobs.size() + 1;
    while (taken.contains("job-" + number)) {
      number++;
    }
    return "job-" + number;
  }

  /** An id that no job of a data file has; the file need not be there yet. */
  public static String freshJob(Path data) {
    if (!Files.exists(data)) {
      return freshName(List.of());
    }
    try (LogReader reader = SqliteLogs.openForReading(data)) {
      return freshName(reader.jobs());
    }
  }

  private Draft opening(Instant openedAt) {
    Plan frozen = plan.plan();
    return draft(
        job + "-opening",
        openedAt,
        "job opened",
        new Statement.JobOpened(frozen.name(), frozen.hash(), frozen.text()));
  }

  private Draft draft(String id, Instant happenedAt, String words, Statement statement) {
    return new Draft(
        id,
        job,
        happenedAt,
        setting.clock().instant(),
        setting.zone(),
        TOOL,
        setting.device(),
        Source.TOOL,
        Certainty.CONFIRMED,
        words,
        statement);
  }

  /** The job at this desk. */
  public String job() {
    return job;
  }

  /** What the user should know before the first entry: that a job was opened beside others. */
  public Optional<String> notice() {
    List<String> lines = new ArrayList<>();
    if (newBesideOthers) {
      lines.add("job " + job + " is new in this data file; 'jobs' lists the others");
    }
    if (isNew && plan.namesOnly()) {
      lines.add(WITHOUT_PLAN);
    }
    return lines.isEmpty() ? Optional.empty() : Optional.of(String.join("\n", lines));
  }

  /** Its plan. */
  public LoadedPlan plan() {
    return plan;
  }

  /** A dialogue that goes on where the job stands. */
  public Dialogue dialogue() {
    NotePad pad = (draft, clip) -> log.append(draft, clip);
    return new Dialogue(
        plan.plan(),
        plan.interpreter(),
        new Answers(plan.plan(), plan.grammar()::readBack, plan.grammar()::card, judging()),
        pad,
        new Dialogue.Setting(
            job, setting.device(), setting.actor(), setting.zone(), setting.clock()),
        log.entries(job));
  }

  /** Judged beside earlier jobs, which are read when something is first asked. */
  private Function<List<Entry>, Outcome> judging() {
    AtomicReference<@Nullable List<EarlierFill>> earlier = new AtomicReference<>();
    return entries -> {
      List<EarlierFill> known = earlier.get();
      if (known == null) {
        known = EarlierFills.of(log, log.choose(job), plan.plan());
        earlier.set(known);
      }
      return Reconciler.reconcile(plan.plan(), entries, known);
    };
  }

  /** The log at this desk. */
  JobLog log() {
    return log;
  }

  /** What was noted so far. */
  public List<Entry> entries() {
    return new ArrayList<>(log.entries(job));
  }

  /** An id for something typed here and now. */
  public String freshId() {
    return setting.device() + "-" + UUID.randomUUID();
  }

  /** Where and who. */
  public Setting setting() {
    return setting;
  }

  /**
   * Closes a job: nothing more is noted in it, but on a visit.
   *
   * @param data the data file
   * @param job the job; null for the only open one, else the newest
   * @param setting who does it
   * @return its seal
   * @throws LogRefused if there is no such job, or it is closed already
   */
  public static Seal closeJob(Path data, @Nullable String job, Setting setting) {
    String chosen;
    try (LogReader reader = SqliteLogs.openForReading(data)) {
      chosen = reader.choose(job).id();
    }
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      return JobFrame.close(log, chosen, tool(setting));
    }
  }

  /**
   * Begins a visit to a job that was closed: entries follow in it until it is closed once more, and
   * its seal stays good.
   *
   * @param data the data file
   * @param job the job; null for the newest that is closed
   * @param why what for, or null
   * @param setting who does it
   * @return the job
   * @throws LogRefused if there is no such job, or it is open
   */
  public static String beginVisit(
      Path data, @Nullable String job, @Nullable String why, Setting setting) {
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      String chosen =
          job != null
              ? job
              : log.jobs().stream()
                  .filter(JobSummary::closed)
                  .reduce((first, later) -> later)
                  .map(JobSummary::id)
                  .orElseThrow(
                      () ->
                          new LogRefused("no job is closed here; note as usual, without a visit"));
      JobFrame.visit(log, chosen, chosen + "-visit-" + UUID.randomUUID(), why, tool(setting));
      return chosen;
    }
  }

  private static JobFrame.By tool(Setting setting) {
    return new JobFrame.By(TOOL, setting.device(), setting.zone(), setting.clock().instant());
  }

  @Override
  public void close() {
    log.close();
  }
}
