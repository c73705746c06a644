package tallyback.reconcile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.Standing;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.reconcile.Outcome.Unsaid;

/**
 * Compares the job as told with the job as planned. Stateless, safe for any thread.
 *
 * <p>The job is judged by its confirmed entries, by all, by all but those unconfirmed ones that
 * could only put something right, and by all but those that could only prove it. What any of these
 * views finds is a finding; what only some of them find hangs under the unconfirmed entry that
 * makes the difference. So an unconfirmed entry may open a finding and never closes one, whatever
 * the rule, not even what another unconfirmed one opened.
 */
public final class Reconciler {

  private static final String HALF_OPEN = "left-half-open";

  private static final List<Rule> RULES =
      List.of(
          new ItemRules(),
          new TightnessRules(),
          new BoltRules(),
          new HalfTightRule(),
          new FluidRules(),
          new MixtureRules(),
          new HistoryRules(),
          new ReadingRules(),
          new StepRules(),
          new StateRules(),
          new TalkRules(),
          new ClockRule(),
          new NightRule());

  private Reconciler() {}

  /** Every kind of finding, in the order in which the rules judge. */
  static List<Kind> kinds() {
    return RULES.stream().flatMap(rule -> rule.kinds().stream()).toList();
  }

  /**
   * Judges a job.
   *
   * @param plan the expected job
   * @param entries every entry of one job, in any order; none is refused, whatever it says
   */
  public static Outcome reconcile(Plan plan, List<Entry> entries) {
    return reconcile(plan, entries, List.of());
  }

  /**
   * Judges a job beside earlier ones. One that was told with names only is held against what came
   * off ({@link TearDown}).
   *
   * @param plan the expected job
   * @param entries every entry of one job, in any order; none is refused, whatever it says
   * @param past what is kept of earlier jobs on the same machine, in any order
   */
  public static Outcome reconcile(Plan plan, List<Entry> entries, List<EarlierFill> past) {
    if (plan.basis() == Plan.Basis.NAMES) {
      TearDown told = TearDown.of(plan, entries);
      return reconcile(told.plan(), entries, past, told.open());
    }
    return reconcile(plan, entries, past, List.of());
  }

  private static Outcome reconcile(
      Plan plan, List<Entry> entries, List<EarlierFill> past, List<TearDown.Open> open) {
    Books books = Books.of(plan, entries, Densities::litres);
    JobView confirmed = JobView.confirmed(plan, books, past);
    FindingAnswers answers = new FindingAnswers(books.standing(), entries);
    List<Finding> findings = findings(plan, books, past, confirmed, answers);
    List<Unsaid> unsaid = new ArrayList<>(Silence.of(confirmed));
    open.forEach(each -> unsaid.add(Silence.of(each)));
    return new Outcome(
        verdict(findings, unsaid),
        findings,
        unsaid,
        books.balances(),
        sums(confirmed),
        TightnessRules.lines(confirmed),
        StepRules.lines(confirmed),
        books.standing().stream().map(Standing::entry).toList(),
        answers.given());
  }

  private static List<Finding> findings(
      Plan plan, Books books, List<EarlierFill> past, JobView confirmed, FindingAnswers answers) {
    boolean anyWork = books.standing().stream().anyMatch(said -> JobView.isWork(said.statement()));
    Drafts sure = judge(confirmed, anyWork);
    Map<Draft, Draft> parents = new HashMap<>();
    List<Draft> drafts = sure.all();
    if (books.anyUnconfirmed()) {
      Drafts all = judge(JobView.all(plan, books, past), anyWork);
      Drafts any = new Drafts();
      all.all().forEach(any::add);
      worst(plan, books, past, Opening::opens, anyWork).all().forEach(any::add);
      worst(plan, books, past, said -> !Opening.proves(said), anyWork).all().forEach(any::add);
      List<Draft> opened = any.all().stream().filter(draft -> !sure.has(draft)).toList();
      List<Draft> closed = sure.all().stream().filter(draft -> !all.has(draft)).toList();
      drafts.addAll(opened);
      drafts = answers.standing(drafts);
      findParents(drafts, parents);
      List<Draft> candidates = new ArrayList<>(sure.all());
      candidates.retainAll(drafts);
      hangUnderUnconfirmed(opened, candidates, parents);
      hangUnderUnconfirmed(closed, candidates, parents);
    } else {
      drafts = answers.standing(drafts);
      findParents(drafts, parents);
    }
    return write(drafts, parents);
  }

  /** What is found when of the unconfirmed entries only some are taken at their word. */
  private static Drafts worst(
      Plan plan, Books books, List<EarlierFill> past, Predicate<Standing> taken, boolean anyWork) {
    List<Standing> some =
        books.standing().stream()
            .filter(said -> said.entry().confirmed() || taken.test(said))
            .toList();
    boolean sameAsAnother =
        some.size() == books.standing().size()
            || some.stream().allMatch(said -> said.entry().confirmed());
    return sameAsAnother ? new Drafts() : judge(JobView.of(plan, books, past, some), anyWork);
  }

  private static Drafts judge(JobView view, boolean anyWork) {
    Drafts found = new Drafts();
    for (Rule rule : RULES) {
      if (anyWork || rule instanceof TalkRules) {
        rule.judge(view, found);
      }
    }
    return found;
  }

  /** Finds what each draft only follows from. */
  private static void findParents(List<Draft> drafts, Map<Draft, Draft> parents) {
    Map<String, Draft> byKindAndAnchor = new LinkedHashMap<>();
    for (Draft draft : drafts) {
      for (String anchor : draft.anchors()) {
        byKindAndAnchor.putIfAbsent(draft.kind().id() + " " + anchor, draft);
      }
    }
    for (Draft draft : drafts) {
      Draft parent = parentOf(draft, byKindAndAnchor);
      if (parent != null) {
        parents.put(draft, parent);
      }
    }
  }

  private static @Nullable Draft parentOf(Draft draft, Map<String, Draft> byKindAndAnchor) {
    for (String kind : draft.kind().follows()) {
      for (String id : draft.restsOn()) {
        Draft parent = byKindAndAnchor.get(kind + " " + id);
        if (parent != null && !parent.identity().equals(draft.identity())) {
          return parent;
        }
      }
    }
    if (draft.kind().unfinished()) {
      for (String id : draft.anchors()) {
        Draft parent = byKindAndAnchor.get(HALF_OPEN + " " + id);
        if (parent != null) {
          return parent;
        }
      }
    }
    return null;
  }

  private static void hangUnderUnconfirmed(
      List<Draft> drafts, List<Draft> candidates, Map<Draft, Draft> parents) {
    List<Draft> doubts =
        candidates.stream()
            .filter(draft -> draft.kind().id().equals(TalkRules.UNCONFIRMED.id()))
            .toList();
    Map<String, Integer> firstDoubt = new HashMap<>();
    for (int index = 0; index < doubts.size(); index++) {
      for (String anchor : doubts.get(index).anchors()) {
        firstDoubt.putIfAbsent(anchor, index);
      }
    }
    for (Draft draft : drafts) {
      draft.restsOn().stream()
          .filter(firstDoubt::containsKey)
          .map(firstDoubt::get)
          .min(Comparator.naturalOrder())
          .ifPresent(first -> parents.putIfAbsent(draft, doubts.get(first)));
      if (doubts.size() == 1) {
        // Whatever the two views differ in, this one entry makes the difference.
        parents.putIfAbsent(draft, doubts.get(0));
      }
    }
  }

  /** Writes the roots, each with all that follows from it, near or far, in one list. */
  private static List<Finding> write(List<Draft> drafts, Map<Draft, Draft> parents) {
    Map<Draft, List<Finding>> followers = new HashMap<>();
    List<Draft> roots = new ArrayList<>();
    for (Draft draft : drafts) {
      Draft root = rootOf(draft, parents);
      if (root.identity().equals(draft.identity())) {
        roots.add(draft);
      } else {
        followers.computeIfAbsent(root, key -> new ArrayList<>()).add(draft.finish(List.of()));
      }
    }
    List<Finding> findings = new ArrayList<>();
    for (Draft root : roots) {
      findings.add(root.finish(sorted(followers.getOrDefault(root, List.of()))));
    }
    return sorted(findings);
  }

  private static Draft rootOf(Draft draft, Map<Draft, Draft> parents) {
    Set<String> seen = new HashSet<>();
    Draft root = draft;
    Draft parent = parents.get(root);
    while (parent != null && seen.add(root.identity())) {
      root = parent;
      parent = parents.get(root);
    }
    return root;
  }

  private static List<Finding> sorted(List<Finding> findings) {
    List<Finding> sorted = new ArrayList<>(findings);
    sorted.sort(Comparator.comparing(Finding::weight));
    return sorted;
  }

  private static Verdict verdict(List<Finding> findings, List<Unsaid> unsaid) {
    return new Verdict(
        answer(Stage.START_FOR_TEST, findings, unsaid),
        answer(Stage.WORK, findings, unsaid),
        answer(Stage.HAND_OVER, findings, unsaid));
  }

  private static Answer answer(Stage stage, List<Finding> findings, List<Unsaid> unsaid) {
    if (findings.stream().anyMatch(finding -> Outcome.standsAgainst(finding, stage))) {
      return Answer.STOP;
    }
    return unsaid.stream().anyMatch(each -> each.stages().contains(stage))
        ? Answer.OPEN
        : Answer.CLEAR;
  }

  private static List<FluidSum> sums(JobView job) {
    List<FluidSum> sums = new ArrayList<>();
    for (FluidSystem system : job.plan().systems()) {
      FluidAccount account = job.account(system);
      if (account.mentioned()) {
        sums.add(job.sums(system).line());
      }
    }
    return sums;
  }
}
