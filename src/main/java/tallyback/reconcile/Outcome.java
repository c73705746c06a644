package tallyback.reconcile;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Balance;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Statement;
import tallyback.model.Verdict;
import tallyback.model.Weight;

/**
 * Everything that a reconciliation says about a job.
 *
 * @param verdict the answer in three stages
 * @param findings root findings that stand, stops first, then checks, then notes; followers hang
 *     under them
 * @param unsaid what nobody said: silence is no pass
 * @param balances where everything is now
 * @param fluids the sum of each fluid system
 * @param tightness one line per fastener group of the plan with a torque, in plan order
 * @param steps one line per step of the plan, in plan order
 * @param standing the entries that still hold, corrections applied and withdrawn ones left out, by
 *     when they happened
 * @param answers what was answered to findings, by when it was noted
 */
public record Outcome(
    Verdict verdict,
    List<Finding> findings,
    List<Unsaid> unsaid,
    List<Balance> balances,
    List<FluidSum> fluids,
    List<TightnessLine> tightness,
    List<StepLine> steps,
    List<Entry> standing,
    List<Answered> answers) {

  /** Where nothing was answered. */
  public Outcome(
      Verdict verdict,
      List<Finding> findings,
      List<Unsaid> unsaid,
      List<Balance> balances,
      List<FluidSum> fluids,
      List<TightnessLine> tightness,
      List<StepLine> steps,
      List<Entry> standing) {
    this(verdict, findings, unsaid, balances, fluids, tightness, steps, standing, List.of());
  }

  /** Copies its lists. */
  public Outcome {
    findings = List.copyOf(findings);
    unsaid = List.copyOf(unsaid);
    balances = List.copyOf(balances);
    fluids = List.copyOf(fluids);
    tightness = List.copyOf(tightness);
    steps = List.copyOf(steps);
    standing = List.copyOf(standing);
    answers = List.copyOf(answers);
  }

  /**
   * An answer to a finding.
   *
   * @param entry the entry by which it was given; its statement is the answer
   * @param answer the same
   * @param finding the finding as it reads now; null when the job gives no reason for it any more
   * @param holds whether the finding still reads as it did when it was answered, and nothing that
   *     it rests on was noted since
   * @param settles whether the finding stands no longer because of it
   */
  public record Answered(
      Entry entry,
      Statement.FindingAnswered answer,
      @Nullable Finding finding,
      boolean holds,
      boolean settles) {}

  /** The step that was under way at a time; of several the one begun last; null for none. */
  public @Nullable StepLine stepAt(Instant at) {
    StepLine under = null;
    Instant since = Instant.MIN;
    for (StepLine step : steps) {
      Instant started = step.startedAt();
      Instant done = step.doneAt();
      if (started != null
          && !started.isAfter(at)
          && (done == null || !done.isBefore(at))
          && !started.isBefore(since)) {
        under = step;
        since = started;
      }
    }
    return under;
  }

  /** The answers by which findings stand no longer. */
  public List<Answered> settled() {
    return answers.stream().filter(Answered::settles).toList();
  }

  /** The answer to a finding that stands all the same, or that no longer holds; null for none. */
  public @Nullable Answered answerTo(Finding finding) {
    return answers.stream()
        .filter(each -> !each.settles() && each.answer().finding().equals(finding.id()))
        .reduce((first, later) -> later)
        .orElse(null);
  }

  /**
   * One thing not said.
   *
   * @param words what it is
   * @param stages which stages can't be judged without it; empty when it is only worth knowing
   */
  public record Unsaid(String words, List<Stage> stages) {

    /** Copies the list. */
    public Unsaid {
      stages = List.copyOf(stages);
    }
  }

  /** What nobody said, in words. */
  public List<String> unchecked() {
    return unsaid.stream().map(Unsaid::words).toList();
  }

  /** What nobody said without which one stage can't be judged, in words. */
  public List<String> unsaidFor(Stage stage) {
    return unsaid.stream()
        .filter(each -> each.stages().contains(stage))
        .map(Unsaid::words)
        .toList();
  }

  /** Numbers, from 1, of the findings that stand against a stage, by themselves or a follower. */
  public List<Integer> against(Stage stage) {
    return IntStream.rangeClosed(1, findings.size())
        .filter(number -> standsAgainst(findings.get(number - 1), stage))
        .boxed()
        .toList();
  }

  static boolean standsAgainst(Finding finding, Stage stage) {
    return (finding.weight() != Weight.NOTE && finding.stages().contains(stage))
        || finding.followers().stream().anyMatch(follower -> standsAgainst(follower, stage));
  }

  /**
   * The sum of one fluid system. Amounts are in litres.
   *
   * @param system plan id
   * @param label how people call it
   * @param capacity book capacity, or null when unknown
   * @param out drained, bled out and left in the part taken off
   * @param lost spilled
   * @param in filled and put back
   * @param shortage how much more came out than went in (negative: excess)
   * @param uncertainty expanded uncertainty (k = 2) of {@code shortage}
   * @param lines what it is made up of, as far as it was told: nothing that comes to nought
   * @param says what the sum means
   */
  public record FluidSum(
      String system,
      String label,
      @Nullable Amount capacity,
      Amount out,
      Amount lost,
      Amount in,
      Amount shortage,
      Amount uncertainty,
      List<FluidLine> lines,
      String says) {

    /** Copies the list. */
    public FluidSum {
      lines = List.copyOf(lines);
    }
  }

  /** What a line of a fluid sum tells of. */
  public enum FluidPart {
    /** Drained. */
    DRAINED,
    /** Left in the part that was taken off. */
    LEFT_IN_PART,
    /** Pushed out while bleeding. */
    BLED_OUT,
    /** Spilled. */
    SPILLED,
    /** What new parts that went in dry hold. */
    DRY_PARTS,
    /** Filled. */
    FILLED,
    /** Poured back. */
    PUT_BACK
  }

  /**
   * A line of a fluid sum.
   *
   * @param part what it tells of
   * @param amount in litres
   */
  public record FluidLine(FluidPart part, Amount amount) {

    /** True for what makes the system hold less than before, or need more. */
    public boolean out() {
      return part != FluidPart.FILLED && part != FluidPart.PUT_BACK;
    }
  }

  /** How a fastener group stands. */
  public enum TightnessStatus {
    /** All of them, value in the maker's range. */
    RIGHT,
    /** A value outside the maker's range, or in doubt. */
    WRONG,
    /** Some of them, or not finished. */
    PARTLY,
    /** Never said. */
    UNSAID
  }

  /**
   * One fastener group.
   *
   * @param item plan id
   * @param label how people call it
   * @param count how many there are
   * @param expected the maker's value with tolerance, in words with units
   * @param told what was said, in words with units; empty when nothing was
   * @param wrench label of the wrench, or null when not said
   * @param status how it stands
   * @param entries ids of the entries it rests on
   */
  public record TightnessLine(
      String item,
      String label,
      int count,
      String expected,
      String told,
      @Nullable String wrench,
      TightnessStatus status,
      List<String> entries) {}

  /** How a step stands. */
  public enum StepStatus {
    /** Done. */
    DONE,
    /** Begun, never said to be finished. */
    STARTED,
    /** Left out on purpose. */
    SKIPPED,
    /** Never mentioned. */
    UNSAID
  }

  /**
   * One step.
   *
   * @param step plan id
   * @param label how people call it
   * @param status how it stands
   * @param startedAt when it was begun, or null
   * @param doneAt when it was finished, or null
   * @param took working time without pauses, or null
   * @param expectedMinutes from the plan, or null
   */
  public record StepLine(
      String step,
      String label,
      StepStatus status,
      @Nullable Instant startedAt,
      @Nullable Instant doneAt,
      @Nullable Duration took,
      @Nullable Integer expectedMinutes) {}
}
