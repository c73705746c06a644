package tallyback.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.model.Balance;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Verdict.Answer;
import tallyback.model.Weight;
import tallyback.reconcile.JobTimes;
import tallyback.reconcile.JobTimes.StepTime;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.Answered;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;

/**
 * The console's view of a job, for a tired reader: the verdict first, then what stops, then the
 * sums. At most 100 columns wide; every mark is a word, and colour, when asked for, only repeats
 * it. Immutable, so any thread may use it.
 */
public final class TextTables {

  private static final int WIDTH = 100;

  /** So many that only follow from a finding are told one by one. */
  private static final int MOST_FOLLOWERS = 6;

  /** Whether the output may carry colour. */
  public enum Paint {
    /** Escape sequences for colour: only for a terminal. */
    COLOUR,
    /** Characters only. */
    PLAIN
  }

  private final JobRecord job;
  private final Paint paint;
  private final ShopTime time;
  private final Trail trail;

  private TextTables(JobRecord job, Paint paint) {
    this.job = job;
    this.paint = paint;
    this.time = ShopTime.of(job);
    this.trail = Trail.of(job.entries());
  }

  /**
   * The tables of a job.
   *
   * @param job the job
   * @param paint colour only when standard output is a terminal
   */
  public static TextTables of(JobRecord job, Paint paint) {
    return new TextTables(job, paint);
  }

  /** Everything, in the order to read it. */
  public String all() {
    return List.of(
            verdict(),
            findings(),
            answered(),
            unsaid(),
            balances(),
            fluids(),
            tightness(),
            steps(),
            times(),
            footer())
        .stream()
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("\n"));
  }

  /** The job and the verdict in three stages. */
  public String verdict() {
    Outcome outcome = job.outcome();
    Columns table = new Columns(27, 19, 50);
    for (Stage stage : Stage.values()) {
      Answer answer = Wording.answer(outcome.verdict(), stage);
      table.row(
          List.of(
              Columns.Cell.plain(Wording.question(stage)),
              new Columns.Cell(
                  Wording.answer(answer), answer == Answer.CLEAR ? this::bold : this::alarm),
              Columns.Cell.plain(Wording.reason(outcome, stage))));
    }
    return wrapped(job.plan().name() + " \u00b7 " + job.plan().machine().name())
        + wrapped(Wording.jobLine(job))
        + "\n"
        + table;
  }

  /** The findings, stops first. */
  public String findings() {
    List<Finding> findings = job.outcome().findings();
    if (findings.isEmpty()) {
      return head("FINDINGS", "none in what you told me");
    }
    Columns table = new Columns(5, 3, 46, 40);
    table.row("", "no.", "what was found", "what to do");
    table.rule();
    for (int index = 0; index < findings.size(); index++) {
      Finding finding = findings.get(index);
      if (index > 0) {
        table.gap();
      }
      table.row(
          List.of(
              new Columns.Cell(Wording.weight(finding.weight()), weight(finding.weight())),
              Columns.Cell.plain(Integer.toString(index + 1)),
              Columns.Cell.plain(facts(finding)),
              Columns.Cell.plain(flat(finding.remedy()))));
    }
    return head("FINDINGS", tally(findings)) + table;
  }

  private String facts(Finding finding) {
    List<String> facts = new ArrayList<>();
    facts.add(flat(finding.subject()));
    facts.add("found     " + flat(finding.found()));
    facts.add("expected  " + flat(finding.expected()));
    addFact(facts, "differs   ", finding.difference());
    addFact(facts, "allowed   ", finding.tolerance());
    if (!finding.entries().isEmpty()) {
      facts.add("told      " + evidence(finding.entries()));
    }
    List<Finding> followers = finding.followers();
    if (followers.size() <= MOST_FOLLOWERS) {
      followers.forEach(
          follower ->
              facts.add("so also   " + flat(follower.subject()) + ": " + flat(follower.found())));
    } else {
      long subjects = followers.stream().map(Finding::subject).distinct().count();
      facts.add(
          "so also   "
              + followers.size()
              + " more about "
              + subjects
              + " things, which only follow from it");
    }
    return String.join("\n", facts);
  }

  private static void addFact(List<String> facts, String label, @Nullable String fact) {
    if (fact != null) {
      facts.add(label + flat(fact));
    }
  }

  private String evidence(List<String> entries) {
    return entries.stream()
        .map(id -> trail.entry(id).map(this::numberAndTime).orElse(trail.number(id)))
        .collect(Collectors.joining(", "));
  }

  private String numberAndTime(Entry entry) {
    return "no. "
        + entry.seq()
        + " at "
        + time.at(trail.happenedAt(entry), entry.zone())
        + (entry.confirmed() ? "" : " (unconfirmed)");
  }

  private static String tally(List<Finding> findings) {
    return List.of(Weight.values()).stream()
        .map(
            weight ->
                plural(findings.stream().filter(each -> each.weight() == weight).count(), weight))
        .collect(Collectors.joining(", "));
  }

  private static String plural(long count, Weight weight) {
    return count + " " + weight.name().toLowerCase(Locale.ROOT) + (count == 1 ? "" : "s");
  }

  /** What was answered to findings. */
  public String answered() {
    List<Answered> answers = job.outcome().answers();
    if (answers.isEmpty()) {
      return "";
    }
    Columns table = new Columns(7, 26, 63);
    for (Answered each : answers) {
      table.row(
          "no. " + each.entry().seq(),
          flat(Wording.answeredSubject(each)),
          flat(Wording.answer(each)));
    }
    return head("ANSWERED", "") + table;
  }

  /** What nobody said. */
  public String unsaid() {
    List<String> unchecked = job.outcome().unchecked();
    if (unchecked.isEmpty()) {
      return "";
    }
    Columns list = new Columns(1, 97);
    unchecked.forEach(each -> list.row("-", flat(each)));
    return head("NOT SAID, SO NOT CHECKED", "") + list;
  }

  /** Where things are: what is out of place one by one, the rest counted. */
  public String balances() {
    List<Balance> items =
        job.outcome().balances().stream()
            .filter(balance -> job.plan().system(balance.subject()).isEmpty())
            .toList();
    List<Balance> out =
        items.stream().filter(balance -> Wording.outOfPlace(balance, job.plan())).toList();
    Columns table = new Columns(34, 64);
    out.forEach(
        balance -> table.row(flat(Wording.label(balance, job.plan())), Wording.balance(balance)));
    String rest =
        (items.size() - out.size())
            + " "
            + (out.isEmpty() ? "" : "other ")
            + "groups and parts: nothing of them left over or lost, by what was said";
    return head("WHERE THINGS ARE", "") + table + wrapped(rest);
  }

  /** The sum of each fluid system. */
  public String fluids() {
    List<FluidSum> sums = job.outcome().fluids();
    if (sums.isEmpty()) {
      return "";
    }
    Columns table = new Columns(18, 10, 10, 10, 24, 16);
    table.row("", "came out", "spilled", "went in", "difference", "system holds");
    table.rule();
    StringBuilder meanings = new StringBuilder();
    for (FluidSum sum : sums) {
      table.row(
          flat(sum.label()),
          sum.out().toString(),
          sum.lost().toString(),
          sum.in().toString(),
          Wording.difference(sum),
          sum.capacity() == null ? "not known" : sum.capacity().toString());
      meanings.append(wrapped(sum.label() + ": " + sum.says()));
    }
    return head("FLUIDS", "") + table + meanings;
  }

  /** How tight every fastener group is, the ones that aren't right first. */
  public String tightness() {
    List<TightnessLine> lines = job.outcome().tightness();
    if (lines.isEmpty()) {
      return "";
    }
    Columns table = new Columns(12, 30, 22, 28);
    table.row("", "fasteners", "maker's value", "told");
    table.rule();
    lines.stream()
        .filter(line -> line.status() != TightnessStatus.RIGHT)
        .forEach(line -> tightness(table, line));
    lines.stream()
        .filter(line -> line.status() == TightnessStatus.RIGHT)
        .forEach(line -> tightness(table, line));
    return head("TIGHTNESS", "") + table;
  }

  private void tightness(Columns table, TightnessLine line) {
    boolean right = line.status() == TightnessStatus.RIGHT;
    table.row(
        List.of(
            new Columns.Cell(
                Wording.tightness(line.status()), right ? UnaryOperator.identity() : this::alarm),
            Columns.Cell.plain(line.count() + " " + flat(line.label())),
            Columns.Cell.plain(flat(line.expected())),
            Columns.Cell.plain(told(line))));
  }

  private static String told(TightnessLine line) {
    if (line.told().isBlank()) {
      return "nothing";
    }
    String wrench = line.wrench();
    return flat(line.told()) + ", " + (wrench == null ? "wrench not said" : flat(wrench));
  }

  /** The steps that are not done; those done are only counted. */
  public String steps() {
    List<StepLine> steps = job.outcome().steps();
    if (steps.isEmpty()) {
      return "";
    }
    List<StepLine> open = steps.stream().filter(step -> step.status() != StepStatus.DONE).toList();
    Columns table = new Columns(34, 64);
    open.forEach(step -> table.row(flat(step.label()), Wording.step(step.status())));
    return head("STEPS", (steps.size() - open.size()) + " of " + steps.size() + " said to be done")
        + table;
  }

  /** How long it took, against the plan and earlier jobs; steps not told whole are left out. */
  public String times() {
    JobTimes times = JobTimes.of(job.outcome(), job.past());
    List<StepTime> told = times.steps().stream().filter(step -> step.took() != null).toList();
    if (times.total().isZero()) {
      return "";
    }
    Columns table = new Columns(34, 14, 14, 30);
    if (!told.isEmpty()) {
      table.row("", "took", "plan", "before");
      table.rule();
      told.forEach(
          step ->
              table.row(
                  flat(step.label()),
                  Wording.time(step.took()),
                  Wording.time(step.planned()),
                  Wording.past(step.past())));
    }
    return head("TIME", Wording.worked(times)) + wrapped(Wording.compared(times)) + table;
  }

  private String footer() {
    return wrapped(Wording.DEFERRAL);
  }

  private String head(String title, String remark) {
    return bold(title) + (remark.isEmpty() ? "" : "  " + remark) + "\n";
  }

  private static String wrapped(String text) {
    return String.join("\n", Columns.wrap(flat(text), WIDTH)) + "\n";
  }

  private static String flat(String text) {
    return SafeText.visible(text).replace('\n', SafeText.UNSEEN).replace('\t', SafeText.UNSEEN);
  }

  private UnaryOperator<String> weight(Weight weight) {
    return switch (weight) {
      case STOP -> this::alarm;
      case CHECK -> this::bold;
      case NOTE -> UnaryOperator.identity();
    };
  }

  private String bold(String text) {
    return escape("1", text);
  }

  private String alarm(String text) {
    return escape("1;31", text);
  }

  private String escape(String code, String text) {
    return paint == Paint.PLAIN ? text : "\u001b[" + code + "m" + text + "\u001b[0m";
  }
}
