package tallyback.report.owner;

import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.SecondCheck;
import tallyback.model.Statement.StateSaid;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.WorkedTime;
import tallyback.report.JobRecord;
import tallyback.report.ShopTime;
import tallyback.report.StatementText;
import tallyback.report.Wording;
import tallyback.report.owner.OwnerPage.Line;

/**
 * What was done and what it took, by what was told and is certain. What nobody said is not shown as
 * done.
 */
final class WorkDone {

  private static final Set<MachineState> PROVED =
      EnumSet.of(
          MachineState.TURNED_BY_HAND,
          MachineState.RUNNING,
          MachineState.BLED,
          MachineState.NO_LEAK,
          MachineState.LAMPS_OUT,
          MachineState.GUARDS_ON,
          MachineState.TOOLS_OUT);

  private final Plan plan;
  private final Outcome outcome;
  private final PlainAmounts amounts;
  private final ShopTime time;
  private final List<Entry> certain;
  private final Map<String, Integer> fitted = new LinkedHashMap<>();
  private final Set<String> movedOver = new LinkedHashSet<>();
  private final Set<String> oldAgain = new LinkedHashSet<>();
  private final Map<String, Integer> thrownAway = new LinkedHashMap<>();

  WorkDone(JobRecord job, PlainAmounts amounts, ShopTime time) {
    this.plan = job.plan();
    this.outcome = job.outcome();
    this.amounts = amounts;
    this.time = time;
    this.certain = outcome.standing().stream().filter(Entry::confirmed).toList();
    certain.forEach(this::parts);
  }

  private void parts(Entry entry) {
    if (entry.statement() instanceof PartFitted part) {
      String label = plan.label(part.item());
      switch (part.condition()) {
        case NEW -> fitted.put(label, plan.item(part.item()).map(Plan.Item::count).orElse(1));
        case OLD -> oldAgain.add(label);
        case CARRIED_OVER -> movedOver.add(label);
      }
      if (part.condition() != PartCondition.OLD) {
        oldAgain.remove(label);
      }
    } else if (entry.statement() instanceof ItemsMoved moved && moved.item() != null) {
      int count = moved.count() == null ? 1 : moved.count();
      if (moved.move() == ItemMove.NEW_ON) {
        fitted.merge(plan.label(moved.item()), count, Integer::sum);
        oldAgain.remove(plan.label(moved.item()));
      } else if (moved.move() == ItemMove.SCRAPPED) {
        thrownAway.merge(plan.label(moved.item()), count, Integer::sum);
      }
    }
  }

  List<Line> done(List<String> causes) {
    List<Line> lines = new ArrayList<>();
    if (!causes.isEmpty()) {
      lines.add(new Line("Why", String.join("; ", causes)));
    }
    List<String> done = steps(StepStatus.DONE);
    lines.add(
        new Line(
            done.isEmpty() ? "" : "In this order",
            done.isEmpty() ? "No part of the work was said to be done." : String.join(", ", done)));
    List<String> skipped = steps(StepStatus.SKIPPED);
    if (!skipped.isEmpty()) {
      lines.add(new Line("Left out on purpose", String.join(", ", skipped)));
    }
    List<String> proved = proved();
    if (!proved.isEmpty()) {
      lines.add(new Line("Tried and looked at", String.join(", ", proved)));
    }
    return lines;
  }

  private List<String> steps(StepStatus status) {
    return outcome.steps().stream()
        .filter(line -> line.status() == status)
        .map(StepLine::label)
        .toList();
  }

  private List<String> proved() {
    Map<String, String> last = new LinkedHashMap<>();
    for (Entry entry : certain) {
      String at = " (" + time.at(entry.happenedAt(), entry.zone()) + ")";
      if (entry.statement() instanceof StateSaid said && PROVED.contains(said.state())) {
        String words = StatementText.state(said.state());
        last.remove(words);
        last.put(words, at);
      } else if (entry.statement() instanceof SecondCheck check && check.subject() != null) {
        String who = check.person() == null ? "a second person" : plan.label(check.person());
        last.put(plan.label(check.subject()) + " looked at by " + who, at);
      }
    }
    return last.entrySet().stream().map(each -> each.getKey() + each.getValue()).toList();
  }

  List<Line> material() {
    List<Line> lines = new ArrayList<>();
    lines.add(new Line("New", fitted.isEmpty() ? "nothing was said to be new" : counted(fitted)));
    if (!movedOver.isEmpty()) {
      lines.add(new Line("Moved over from the old part", String.join(", ", movedOver)));
    }
    if (!oldAgain.isEmpty()) {
      lines.add(new Line("Old one put back", String.join(", ", oldAgain)));
    }
    for (FluidSum sum : outcome.fluids()) {
      if (isTold(sum)) {
        lines.add(new Line(PageMaker.sentence(sum.label()), fluid(sum)));
      }
    }
    return lines;
  }

  private static boolean isTold(FluidSum sum) {
    return sum.out().value().signum() != 0
        || sum.in().value().signum() != 0
        || sum.lost().value().signum() != 0;
  }

  private String fluid(FluidSum sum) {
    List<String> words = new ArrayList<>();
    words.add(sum.out() + " came out");
    if (sum.lost().value().signum() != 0) {
      words.add("some " + sum.lost() + " were spilled");
    }
    words.add(sum.in() + " went in");
    int sign = sum.shortage().value().signum();
    Amount size = new Amount(sum.shortage().value().abs(), sum.shortage().unit());
    words.add(
        (sign == 0
                ? "as much in as out"
                : size + (sign > 0 ? " less in than out" : " more in than out"))
            + ", give or take "
            + sum.uncertainty());
    String belongs =
        plan.system(sum.system())
            .flatMap(system -> plan.find(system.fluid()))
            .filter(Plan.Fluid.class::isInstance)
            .map(fluid -> ". What belongs in: " + ((Plan.Fluid) fluid).grade())
            .orElse("");
    return Wording.together(amounts.inText(String.join("; ", words)) + belongs + ".");
  }

  List<String> thrownAway() {
    return thrownAway.isEmpty() ? List.of() : List.of(counted(thrownAway));
  }

  /** What was seen wrong and is right by now, as far as was told. */
  List<Line> putRight() {
    Set<String> open = stillSo();
    List<Line> lines = new ArrayList<>();
    Set<String> fellLabels = new LinkedHashSet<>();
    for (Entry entry : certain) {
      if (open.contains(entry.id())) {
        continue;
      }
      if (entry.statement() instanceof ProblemSeen problem) {
        String subject = problem.subject();
        lines.add(
            new Line(
                "",
                PageMaker.sentence(subject == null ? "something" : plan.label(subject))
                    + ": "
                    + StatementText.trouble(problem.trouble())
                    + (subject != null && fitted.containsKey(plan.label(subject))
                        ? "; renewed."
                        : "; put right since.")));
      } else if (entry.statement() instanceof StateSaid said && said.state() == MachineState.LEAK) {
        lines.add(
            new Line(
                "",
                "A leak was seen at "
                    + time.at(entry.happenedAt(), entry.zone())
                    + "; looked at again later: none."));
      }
    }
    for (Entry entry : certain) {
      if (entry.statement() instanceof ItemsMoved moved
          && moved.move() == ItemMove.FOUND
          && fellLabels.add(String.valueOf(moved.item()))) {
        String label = moved.item() == null ? "something" : plan.label(moved.item());
        lines.add(new Line("", PageMaker.sentence(label) + ": dropped, and found again."));
      }
    }
    for (Outcome.Answered answered : outcome.settled()) {
      Finding finding = answered.finding();
      Statement.FindingAnswered answer = answered.answer();
      if (finding != null && answer.end() == Statement.FindingEnd.FIXED) {
        lines.add(
            new Line(
                "",
                PageMaker.subject(finding)
                    + ": "
                    + PlainFindings.of(finding)
                    + " Put right by "
                    + answer.by()
                    + ": "
                    + PageMaker.ended(answer.why())));
      }
    }
    if (lines.isEmpty()) {
      lines.add(new Line("", "Nothing was said to have been found wrong and put right."));
    }
    return lines;
  }

  /** Entries that tell of something wrong that is still so, agreed to or not. */
  private Set<String> stillSo() {
    Set<String> open = new HashSet<>();
    outcome.findings().forEach(finding -> evidence(finding, open));
    for (Outcome.Answered answered : outcome.settled()) {
      Finding finding = answered.finding();
      if (finding != null && answered.answer().end() != Statement.FindingEnd.FIXED) {
        evidence(finding, open);
      }
    }
    return open;
  }

  private static void evidence(Finding finding, Set<String> ids) {
    if (finding.kind().equals("problem-open") || finding.kind().equals("leak-seen")) {
      ids.addAll(finding.entries());
    }
    finding.followers().forEach(follower -> evidence(follower, ids));
  }

  /** What was seen wrong and was not said to be put right. */
  List<String> stillOpen() {
    Set<String> open = stillSo();
    List<String> words = new ArrayList<>();
    for (Entry entry : outcome.standing()) {
      if (open.contains(entry.id()) && entry.statement() instanceof ProblemSeen problem) {
        String subject = problem.subject();
        words.add(
            PageMaker.sentence(subject == null ? "something" : plan.label(subject))
                + ": "
                + StatementText.trouble(problem.trouble())
                + "; seen, and not said to be put right.");
      }
    }
    return words;
  }

  List<Line> time() {
    WorkedTime worked = WorkedTime.of(outcome);
    List<Line> lines = new ArrayList<>();
    lines.add(
        new Line(
            "Time worked",
            worked.counted().compareTo(Duration.ofMinutes(1)) < 0
                ? "not told"
                : Wording.together(ShopTime.took(worked.counted()))
                    + ". Reckoned from the first thing told of the work to the last; pauses, nights"
                    + " and what had to be done over again are not in it."));
    List<String> material = new ArrayList<>();
    if (!fitted.isEmpty()) {
      material.add(counted(fitted));
    }
    for (FluidSum sum : outcome.fluids()) {
      if (sum.in().value().signum() != 0) {
        material.add(sum.label() + " " + amounts.of(sum.in()));
      }
    }
    lines.add(
        new Line(
            "Material",
            material.isEmpty()
                ? "none was told"
                : Wording.together(String.join(", ", material)) + "."));
    return lines;
  }

  private static String counted(Map<String, Integer> things) {
    return things.entrySet().stream()
        .map(each -> each.getValue() == 1 ? each.getKey() : each.getValue() + " " + each.getKey())
        .collect(Collectors.joining(", "));
  }
}
