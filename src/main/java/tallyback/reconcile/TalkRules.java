package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.books.Remark;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.Trouble;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;

/** What was said and can't be relied on as it is, and what was said to be wrong. */
final class TalkRules implements Rule {

  static final Kind UNCONFIRMED = Kind.check("entry-unconfirmed", Kind.AFTER_TEST);
  private static final Kind NOT_UNDERSTOOD = Kind.check("not-understood", Kind.AFTER_TEST);
  private static final Kind UNIT_UNSAID = Kind.check("unit-unsaid", Kind.AFTER_TEST);
  private static final Kind UNUSABLE = Kind.check("amount-unusable", Kind.AFTER_TEST);
  private static final Kind EDIT = Kind.check("edit-without-effect", Kind.HAND_OVER);
  private static final Kind PROBLEM = Kind.note("problem-open").following("missing");

  @Override
  public List<Kind> kinds() {
    return List.of(UNCONFIRMED, NOT_UNDERSTOOD, UNIT_UNSAID, UNUSABLE, EDIT, PROBLEM);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    job.books().standing().stream()
        .filter(said -> !said.entry().confirmed() && JobView.isWork(said.statement()))
        .forEach(said -> unconfirmed(job, said, found));
    notUnderstood(job, found);
    job.entries().forEach(said -> amounts(job, said, found));
    job.remarks().forEach(remark -> remark(job, remark, found));
    job.problems().forEach(problem -> problem(job, problem, found));
    sheared(job, found);
  }

  private static void unconfirmed(JobView job, Standing said, Drafts found) {
    found
        .add(UNCONFIRMED, said.entry().id(), FindingText.entryAt(said.entry()))
        .about(subjects(job, said.statement()))
        .with("words", said.entry().words())
        .seenIn(said);
  }

  /** All of them in one: nobody knows what each was about, and one remedy holds for all. */
  private static void notUnderstood(JobView job, Drafts found) {
    long settledUpTo =
        job.entries().stream()
            .filter(
                said ->
                    said.statement() instanceof NotUnderstoodSettled settled
                        && settled.target() == null)
            .map(Standing::entry)
            .filter(Entry::confirmed)
            .mapToLong(Entry::seq)
            .max()
            .orElse(0);
    Set<String> saidAgain = saidAgain(job);
    List<Standing> open =
        job.books().standing().stream()
            .filter(said -> said.statement() instanceof NotUnderstood)
            .filter(said -> said.entry().seq() > settledUpTo)
            .filter(said -> !saidAgain.contains(said.entry().id()))
            .toList();
    if (!open.isEmpty()) {
      found
          .add(NOT_UNDERSTOOD, "job", FindingText.JOB)
          .with("things", open.size() == 1 ? "1 thing" : open.size() + " things")
          .with("was", open.size() == 1 ? "was" : "were")
          .with("it", open.size() == 1 ? "it" : "them")
          .with("times", FindingText.times(open))
          .seenIn(open);
    }
  }

  /** What was settled one by one, unless that by which it was has been withdrawn. */
  private static Set<String> saidAgain(JobView job) {
    Set<String> stands =
        job.books().standing().stream().map(said -> said.entry().id()).collect(Collectors.toSet());
    Set<String> settled = new HashSet<>();
    for (Standing said : job.books().standing()) {
      if (said.entry().confirmed() && said.statement() instanceof NotUnderstoodSettled one) {
        String target = one.target();
        if (target != null && (one.by() == null || stands.contains(one.by()))) {
          settled.add(target);
        }
      }
    }
    return settled;
  }

  private static void amounts(JobView job, Standing said, Drafts found) {
    Amount amount = amountOf(said.statement());
    if (amount == null) {
      return;
    }
    if (amount.unitUnsaid()) {
      found
          .add(UNIT_UNSAID, said.entry().id(), subject(job, said))
          .about(subjects(job, said.statement()))
          .with("number", amount.value().toPlainString())
          .with("words", said.entry().words())
          .seenIn(said);
    } else if (said.statement() instanceof Tightened
        && amount.unit().dimension() != Dimension.TORQUE) {
      unusable(job, said, FindingText.NO_TORQUE, found);
    }
  }

  private static @Nullable Amount amountOf(Statement statement) {
    if (statement instanceof FluidMoved moved) {
      return moved.amount();
    }
    if (statement instanceof Tightened tightened) {
      return tightened.torque();
    }
    if (statement instanceof Aligned aligned) {
      return aligned.angle();
    }
    return statement instanceof Measured measured ? measured.amount() : null;
  }

  private static void remark(JobView job, Remark remark, Drafts found) {
    if (remark.why().aboutAnEdit()) {
      found
          .add(EDIT, remark.entry().id(), FindingText.entryAt(remark.entry()))
          .with("words", remark.entry().words())
          .with("why", remark.why().text())
          .seenIn(new Standing(remark.entry(), List.of(remark.entry().id())));
    } else if (remark.why().aboutAnAmount()) {
      job.entry(remark.entry().id())
          .ifPresent(said -> unusable(job, said, remark.why().text(), found));
    }
  }

  private static void unusable(JobView job, Standing said, String why, Drafts found) {
    found
        .add(UNUSABLE, said.entry().id(), subject(job, said))
        .about(subjects(job, said.statement()))
        .with("words", said.entry().words())
        .with("why", why)
        .seenIn(said);
  }

  private static void problem(JobView job, At<ProblemSeen> problem, Drafts found) {
    String subject = problem.statement().subject();
    String label = subject == null ? FindingText.MACHINE : job.index().label(subject);
    String key = subject == null ? problem.said().entry().id() : subject;
    if (problem.statement().trouble() == Trouble.LEAKING) {
      boolean gone =
          job.states().firstAfter(problem.position(), EnumSet.of(MachineState.NO_LEAK)).isPresent();
      if (!gone && !renewedAfter(job, subject, problem.position())) {
        found
            .add(StateRules.LEAK, key, label)
            .with("when", FindingText.when(problem.said()))
            .seenIn(problem.said());
      }
    } else if (!renewedAfter(job, subject, problem.position())) {
      found
          .add(PROBLEM, key, label)
          .with("trouble", FindingText.trouble(problem.statement().trouble()))
          .with("when", FindingText.when(problem.said()))
          .seenIn(problem.said());
    }
  }

  /** A sheared fastener leaves its stump, until a new one went in. */
  private static void sheared(JobView job, Drafts found) {
    for (Item item : job.plan().items()) {
      for (At<Statement> event : job.eventsOf(item.id())) {
        if (event.statement() instanceof ItemsMoved moved
            && moved.move() == ItemMove.SHEARED
            && !renewedAfter(job, item.id(), event.position())) {
          found
              .add(PROBLEM, item.id(), item.label())
              .with("trouble", FindingText.SHEARED)
              .with("when", FindingText.when(event.said()))
              .seenIn(event.said());
        }
      }
    }
  }

  private static boolean renewedAfter(JobView job, @Nullable String item, int position) {
    return item != null && job.lastRenewal(item) > position;
  }

  private static String subject(JobView job, Standing said) {
    return subjects(job, said.statement()).stream()
        .findFirst()
        .map(job.index()::label)
        .orElseGet(() -> FindingText.entryAt(said.entry()));
  }

  /** Ids of what a statement is about, the thing itself first. */
  private static List<String> subjects(JobView job, Statement statement) {
    if (statement instanceof ItemsMoved moved) {
      Optional<Item> item =
          job.index().itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize());
      return said(item.map(Item::id).orElse(null), moved.place());
    }
    if (statement instanceof Tightened tightened) {
      Optional<Item> item =
          job.index().itemMeant(tightened.item(), tightened.place(), tightened.thing(), null);
      return said(item.map(Item::id).orElse(null), tightened.place());
    }
    if (statement instanceof FluidMoved moved) {
      Optional<FluidSystem> system =
          job.index().systemMeant(moved.system(), moved.place(), moved.fluid());
      return said(system.map(FluidSystem::id).orElse(null), moved.place());
    }
    if (statement instanceof Measured measured) {
      Optional<FluidSystem> system =
          job.index().systemMeant(measured.subject(), measured.mark(), null);
      return said(measured.subject(), system.map(FluidSystem::id).orElse(null));
    }
    if (statement instanceof StateSaid state) {
      return List.of(StateRules.key(state.state()));
    }
    return ofOne(statement);
  }

  private static List<String> ofOne(Statement statement) {
    if (statement instanceof StepMarked marked) {
      return List.of(marked.step());
    }
    if (statement instanceof TemporaryMoved moved) {
      return List.of(moved.item());
    }
    if (statement instanceof PartFitted fitted) {
      return List.of(fitted.item());
    }
    if (statement instanceof Aligned aligned) {
      return List.of(aligned.item());
    }
    return statement instanceof ProblemSeen problem ? said(problem.subject()) : List.of();
  }

  private static List<String> said(@Nullable String... ids) {
    List<String> all = new ArrayList<>();
    Stream.of(ids).forEach(id -> addIfSaid(all, id));
    return all;
  }

  private static void addIfSaid(List<String> all, @Nullable String id) {
    if (id != null && !all.contains(id)) {
      all.add(id);
    }
  }
}
