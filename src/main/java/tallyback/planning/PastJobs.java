package tallyback.planning;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.PlanIndex;
import tallyback.books.Posting;
import tallyback.books.Standing;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Rational;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.Trouble;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.PastJob;
import tallyback.reconcile.Reconciler;

/**
 * What past jobs of one plan tell for the next: how long steps took, how much came out of each
 * drain, which fluids were used, with which tools, and what stuck. Never a torque and never a
 * limit: those only a person enters. Immutable.
 *
 * @param plan the plan that is to learn
 * @param jobs ids of the jobs learned from, oldest first
 * @param minutes working minutes by plan id of the step
 * @param drained litres by plan id of the drain point
 * @param filled litres by plan id of the fluid
 * @param tools in how many jobs a vessel, wrench or gauge was named, by its name
 * @param heads in how many jobs a head of that size was named or moved
 * @param stuck in how many jobs a fastener or part stuck or broke, by its name
 */
public record PastJobs(
    Plan plan,
    List<String> jobs,
    Map<String, Sample> minutes,
    Map<String, Sample> drained,
    Map<String, Sample> filled,
    Map<String, Integer> tools,
    Map<String, Integer> heads,
    Map<String, Integer> stuck) {

  private static final double SECONDS_IN_A_MINUTE = 60;

  /** Copies its collections. */
  public PastJobs {
    jobs = List.copyOf(jobs);
    minutes = Map.copyOf(minutes);
    drained = Map.copyOf(drained);
    filled = Map.copyOf(filled);
    tools = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(tools));
    heads = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(heads));
    stuck = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(stuck));
  }

  /**
   * One past job.
   *
   * @param id its id
   * @param openedAt when it began
   * @param plan the plan frozen in it
   * @param entries all its entries
   */
  public record Told(String id, Instant openedAt, Plan plan, List<Entry> entries) {

    /** Copies the list. */
    public Told {
      entries = List.copyOf(entries);
    }
  }

  /**
   * Learns.
   *
   * @param plan the plan that is to learn
   * @param told past jobs of that plan, oldest first
   */
  public static PastJobs of(Plan plan, List<Told> told) {
    Map<String, List<Double>> minutes = new LinkedHashMap<>();
    Map<String, List<Double>> drained = new LinkedHashMap<>();
    Map<String, List<Double>> filled = new LinkedHashMap<>();
    Map<String, Integer> tools = new TreeMap<>();
    Map<Rational, String> headNames = new TreeMap<>();
    Map<String, Integer> headJobs = new HashMap<>();
    Map<String, Integer> stuck = new TreeMap<>();
    for (Told job : told) {
      Outcome outcome = Reconciler.reconcile(job.plan(), job.entries());
      Books books = Books.of(job.plan(), job.entries());
      PastJob.of(job.id(), job.openedAt(), outcome)
          .steps()
          .forEach((step, took) -> add(minutes, step, took.toSeconds() / SECONDS_IN_A_MINUTE));
      litres(books, PastJobs::drainPoint).forEach((id, sum) -> add(drained, id, sum.toDouble()));
      litres(books, PastJobs::fluid).forEach((id, sum) -> add(filled, id, sum.toDouble()));
      Of of = new Of(books.index(), job.plan());
      books.standing().stream().filter(said -> said.entry().confirmed()).forEach(of::take);
      of.tools.forEach(name -> tools.merge(name, 1, Integer::sum));
      of.stuck.forEach(name -> stuck.merge(name, 1, Integer::sum));
      of.heads.forEach(
          head -> {
            String name = headNames.computeIfAbsent(head.base(), key -> head.toString());
            headJobs.merge(name, 1, Integer::sum);
          });
    }
    Map<String, Integer> heads = new LinkedHashMap<>();
    headNames.values().forEach(name -> heads.put(name, headJobs.getOrDefault(name, 0)));
    return new PastJobs(
        plan,
        told.stream().map(Told::id).toList(),
        samples(minutes),
        samples(drained),
        samples(filled),
        tools,
        heads,
        stuck);
  }

  private static void add(Map<String, List<Double>> all, String id, double value) {
    all.computeIfAbsent(id, key -> new ArrayList<>()).add(value);
  }

  private static Map<String, Sample> samples(Map<String, List<Double>> all) {
    Map<String, Sample> samples = new LinkedHashMap<>();
    all.forEach((id, values) -> samples.put(id, new Sample(values)));
    return samples;
  }

  private static Map<String, Rational> litres(Books books, Function<Posting, String> whose) {
    Map<String, Rational> sums = new LinkedHashMap<>();
    for (FluidAccount account : books.confirmed().fluids().values()) {
      for (Posting posting : account.postings()) {
        String id = whose.apply(posting);
        if (!id.isEmpty()) {
          sums.merge(id, posting.quantity(), Rational::plus);
        }
      }
    }
    return sums;
  }

  private static String drainPoint(Posting posting) {
    return posting.from() == Account.SYSTEM
            && posting.to() == Account.PAN
            && posting.said().statement() instanceof FluidMoved moved
            && moved.place() != null
        ? moved.place()
        : "";
  }

  private static String fluid(Posting posting) {
    return posting.from() == Account.CAN
            && posting.said().statement() instanceof FluidMoved moved
            && moved.fluid() != null
        ? moved.fluid()
        : "";
  }

  /** What one job tells of tools and trouble. */
  private static final class Of {
    private final PlanIndex index;
    private final Plan plan;
    private final Set<String> tools = new LinkedHashSet<>();
    private final Set<Amount> heads = new LinkedHashSet<>();
    private final Set<String> stuck = new LinkedHashSet<>();

    Of(PlanIndex index, Plan plan) {
      this.index = index;
      this.plan = plan;
    }

    void take(Standing said) {
      Statement statement = said.statement();
      if (statement instanceof Tightened tightened) {
        tool(tightened.wrench());
      } else if (statement instanceof FluidMoved moved) {
        tool(moved.vessel());
      } else if (statement instanceof Statement.Measured measured) {
        tool(measured.instrument());
      } else if (statement instanceof ItemsMoved moved) {
        moved(moved);
      } else if (statement instanceof Statement.ProblemSeen problem
          && problem.subject() != null
          && (problem.trouble() == Trouble.SEIZED
              || problem.trouble() == Trouble.STRIPPED
              || problem.trouble() == Trouble.CORRODED)) {
        stuck.add(index.label(problem.subject()));
      }
    }

    private void tool(@org.jspecify.annotations.Nullable String id) {
      if (id != null) {
        tools.add(index.label(id));
      }
    }

    private void moved(ItemsMoved moved) {
      java.util.Optional<Item> item =
          index.itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize());
      if (moved.headSize() != null && !moved.headSize().unitUnsaid()) {
        head(moved.headSize());
      } else {
        item.map(Item::head).ifPresent(this::head);
      }
      if (moved.move() == ItemMove.SHEARED) {
        String place = moved.place();
        stuck.add(item.map(Named::label).orElse(place == null ? plan.name() : index.label(place)));
      }
    }

    private void head(Amount head) {
      if (heads.stream().noneMatch(each -> each.base().equals(head.base()))) {
        heads.add(head);
      }
    }
  }

  // ---- the plan with what was learned

  /** The plan with the usual minutes and drained shares, each remarked with its spread. */
  public String text() {
    return PlanWriter.write(learned(), new LearnedText.InPlan(this));
  }

  private Plan learned() {
    List<FluidSystem> systems = new ArrayList<>();
    for (FluidSystem system : plan.systems()) {
      systems.add(
          new FluidSystem(
              system.id(),
              system.say(),
              system.fluid(),
              system.capacity(),
              system.before(),
              system.matters(),
              system.dryParts(),
              system.oldAtMost(),
              system.drains().stream().map(this::learned).toList(),
              system.fills(),
              system.marks()));
    }
    return new Plan(
        plan.name(),
        plan.text(),
        plan.hash(),
        plan.machine(),
        plan.people(),
        plan.fluids(),
        systems,
        plan.places(),
        plan.items(),
        plan.steps().stream().map(this::learned).toList(),
        plan.instruments(),
        plan.limits(),
        plan.pronunciations(),
        plan.open(),
        plan.basis());
  }

  private Point learned(Point point) {
    Sample sample = drained.get(point.id());
    return sample == null
        ? point
        : new Point(point.id(), point.say(), litres(sample.median()), point.plug());
  }

  static Amount litres(double value) {
    return new Amount(BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP), Unit.LITRE);
  }

  private Step learned(Step step) {
    Sample sample = minutes.get(step.id());
    return sample == null
        ? step
        : new Step(
            step.id(),
            step.say(),
            step.off(),
            step.on(),
            step.needs(),
            step.states(),
            Math.max(1, (int) Math.round(sample.median())),
            step.cautions(),
            step.injury());
  }
}
