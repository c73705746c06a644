package tallyback.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Statement;
import tallyback.model.Verdict.Answer;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;

/**
 * A job in a few words for a screen on the wall of the shop: what comes next and what to mind, what
 * is off, not tight, short, and whether anything stands against starting. Immutable.
 *
 * @param job what the job is called, and on which machine
 * @param start whether it may be started for test, in words
 * @param startAnswer the same for the look of it
 * @param stops findings that stop it, each with what to do
 * @param checks how many findings want a look
 * @param step what is being done, or comes next; null when the plan has no more
 * @param off what is off the machine, or in it and must come out again
 * @param loose what was handled and isn't tight as the plan asks, or not said to be
 * @param fluids what is short or over
 * @param paused whether the job rests
 */
public record WallView(
    String job,
    String start,
    Answer startAnswer,
    List<Line> stops,
    int checks,
    @Nullable NextStep step,
    List<Line> off,
    List<Line> loose,
    List<Line> fluids,
    boolean paused) {

  /** Copies its lists. */
  public WallView {
    stops = List.copyOf(stops);
    off = List.copyOf(off);
    loose = List.copyOf(loose);
    fluids = List.copyOf(fluids);
  }

  /**
   * A line.
   *
   * @param name what it is about
   * @param says how it stands
   */
  public record Line(String name, String says) {}

  /**
   * A step.
   *
   * @param name what it is called
   * @param begun whether it was begun
   * @param cautions what to mind before it
   */
  public record NextStep(String name, boolean begun, List<String> cautions) {

    /** Copies the list. */
    public NextStep {
      cautions = List.copyOf(cautions);
    }
  }

  /** How a job stands. */
  public static WallView of(Plan plan, Outcome outcome) {
    Answer start = outcome.verdict().startForTest();
    return new WallView(
        SafeText.visible(plan.name() + " \u00b7 " + plan.machine().name()),
        Wording.answer(start),
        start,
        stops(outcome),
        (int) outcome.findings().stream().filter(each -> each.weight() == Weight.CHECK).count(),
        next(plan, outcome).orElse(null),
        off(plan, outcome),
        loose(plan, outcome),
        fluids(outcome),
        paused(outcome));
  }

  private static List<Line> stops(Outcome outcome) {
    return outcome.findings().stream()
        .filter(each -> each.weight() == Weight.STOP)
        .map(each -> line(each.subject(), found(each)))
        .toList();
  }

  private static String found(Finding finding) {
    return finding.inShort() + ". " + finding.remedy();
  }

  private static Line line(String name, String says) {
    return new Line(
        Wording.together(SafeText.visible(name)), Wording.together(SafeText.visible(says)));
  }

  /** What was begun last comes first, else the first whose needs are done. */
  private static Optional<NextStep> next(Plan plan, Outcome outcome) {
    Optional<StepLine> begun =
        outcome.steps().stream()
            .filter(each -> each.status() == StepStatus.STARTED && each.startedAt() != null)
            .max(java.util.Comparator.comparing(StepLine::startedAt));
    return begun
        .or(
            () ->
                outcome.steps().stream()
                    .filter(each -> each.status() == StepStatus.UNSAID)
                    .filter(each -> needsMet(plan, outcome, each.step()))
                    .findFirst())
        .map(each -> step(plan, each));
  }

  private static boolean needsMet(Plan plan, Outcome outcome, String step) {
    List<String> needs = step(plan, step).map(Plan.Step::needs).orElse(List.of());
    return outcome.steps().stream()
        .filter(each -> needs.contains(each.step()))
        .allMatch(each -> each.status() == StepStatus.DONE || each.status() == StepStatus.SKIPPED);
  }

  private static NextStep step(Plan plan, StepLine line) {
    List<String> cautions =
        step(plan, line.step()).map(Plan.Step::cautions).orElse(List.of()).stream()
            .map(SafeText::visible)
            .toList();
    return new NextStep(
        SafeText.visible(line.label()), line.status() == StepStatus.STARTED, cautions);
  }

  private static Optional<Plan.Step> step(Plan plan, String id) {
    return plan.steps().stream().filter(each -> each.id().equals(id)).findFirst();
  }

  private static List<Line> off(Plan plan, Outcome outcome) {
    return outcome.balances().stream()
        .filter(each -> Wording.outOfPlace(each, plan))
        .map(each -> line(Wording.label(each, plan), Wording.balance(each)))
        .toList();
  }

  /** What nobody has touched yet is as it was. */
  private static List<Line> loose(Plan plan, Outcome outcome) {
    List<Line> loose = new ArrayList<>();
    for (TightnessLine each : outcome.tightness()) {
      boolean handled =
          !each.told().isEmpty()
              || outcome.standing().stream().anyMatch(entry -> moves(entry, each.item()));
      if (handled && each.status() != TightnessStatus.RIGHT) {
        String told = each.told().isEmpty() ? "" : ": " + each.told();
        String wanted =
            plan.item(each.item())
                .map(Plan.Item::torque)
                .map(torque -> ", wanted " + torque.value())
                .orElse("");
        loose.add(line(each.label(), Wording.tightness(each.status()) + told + wanted));
      }
    }
    return loose;
  }

  private static boolean moves(Entry entry, String item) {
    return entry.statement() instanceof Statement.ItemsMoved moved && item.equals(moved.item());
  }

  private static List<Line> fluids(Outcome outcome) {
    return outcome.fluids().stream()
        .filter(each -> !each.lines().isEmpty())
        .map(each -> line(each.label(), Wording.difference(each)))
        .toList();
  }

  private static boolean paused(Outcome outcome) {
    boolean paused = false;
    for (var entry : outcome.standing()) {
      paused =
          entry.statement() instanceof Statement.Paused
              || (paused && !(entry.statement() instanceof Statement.Resumed));
    }
    return paused;
  }

  /** The question that {@link #start} answers. */
  public static String startQuestion() {
    return Wording.question(Stage.START_FOR_TEST);
  }
}
