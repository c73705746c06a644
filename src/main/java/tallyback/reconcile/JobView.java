package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.ItemAccount;
import tallyback.books.Ledger;
import tallyback.books.PlanIndex;
import tallyback.books.Remark;
import tallyback.books.Standing;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.CautionAnswered;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.SecondCheck;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TimerSet;
import tallyback.model.Statement.TimersCancelled;
import tallyback.model.Statement.VisitBegun;
import tallyback.model.Statement.Warmth;
import tallyback.model.Statement.Written;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.Outcome.StepStatus;

/**
 * One view of a job, from its confirmed entries, from all or from some, sorted by what the entries
 * are about so that each rule reads only what concerns it. Made in one pass; sums and tightness are
 * worked out when first asked for. Used by one thread.
 */
final class JobView {

  private final Plan plan;
  private final List<EarlierFill> past;
  private final Books books;
  private final Ledger ledger;
  private final List<Standing> entries;
  private final Map<String, List<At<Statement>>> eventsByItem = new HashMap<>();
  private final Map<String, StepTold> steps = new HashMap<>();
  private final Map<String, List<At<Measured>>> levelsBySystem = new HashMap<>();
  private final Map<String, List<At<FluidMoved>>> fluidsBySystem = new HashMap<>();
  private final Map<Measure, List<At<Measured>>> readings = new EnumMap<>(Measure.class);
  private @Nullable Temperatures temperatures;
  private final List<At<Tightened>> tightenedNowhere = new ArrayList<>();
  private final Map<String, List<Standing>> cautionsPassed = new HashMap<>();
  private final List<At<ProblemSeen>> problems = new ArrayList<>();
  private final StateHistory states = new StateHistory();
  private final Map<String, FluidSums> sums = new HashMap<>();
  private final Map<String, Boolean> mixtureProved = new HashMap<>();
  private final Map<String, Tightness> tightness = new HashMap<>();
  private final Set<String> fluidWhileWarm = new HashSet<>();
  private boolean warm;
  private final Map<String, Integer> lastRenewals = new HashMap<>();
  private final Set<String> guardsOff = new HashSet<>();
  private @Nullable Set<String> batteryEarthItems;
  private @Nullable Map<String, Standing> entriesById;
  private @Nullable Pauses pauses;
  private boolean anyWork;

  /** By the confirmed entries only. */
  static JobView confirmed(Plan plan, Books books, List<EarlierFill> past) {
    List<Standing> sure =
        books.anyUnconfirmed()
            ? books.standing().stream().filter(said -> said.entry().confirmed()).toList()
            : books.standing();
    return new JobView(plan, books, past, sure, books.confirmed());
  }

  /** By all entries, confirmed or not. */
  static JobView all(Plan plan, Books books, List<EarlierFill> past) {
    return new JobView(plan, books, past, books.standing(), books.all());
  }

  /** By the entries given. */
  static JobView of(Plan plan, Books books, List<EarlierFill> past, List<Standing> entries) {
    return new JobView(plan, books, past, entries, books.of(entries));
  }

  private JobView(
      Plan plan, Books books, List<EarlierFill> past, List<Standing> entries, Ledger ledger) {
    this.plan = plan;
    this.past = List.copyOf(past);
    this.books = books;
    this.ledger = ledger;
    this.entries = entries;
    for (int position = 0; position < entries.size(); position++) {
      sort(position, entries.get(position));
    }
  }

  private void sort(int position, Standing said) {
    Statement statement = said.statement();
    anyWork |= isWork(statement);
    if (statement instanceof ItemsMoved moved) {
      index()
          .itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize())
          .ifPresent(item -> sortMoved(item, position, said, moved));
    } else if (statement instanceof Tightened tightened) {
      sortTightened(new At<>(position, said, tightened));
    } else if (statement instanceof StepMarked marked) {
      stepTold(marked.step()).add(new At<>(position, said, marked));
    } else if (statement instanceof StateSaid state) {
      states.add(new At<>(position, said, state));
      warm = warmAfter(state.state());
    } else if (statement instanceof Measured measured) {
      sortMeasured(new At<>(position, said, measured));
    } else if (statement instanceof FluidMoved moved) {
      if (warm) {
        fluidWhileWarm.add(said.entry().id());
      }
      index()
          .systemMeant(moved.system(), moved.place(), moved.fluid())
          .ifPresent(system -> addFluid(system, new At<>(position, said, moved)));
    } else if (statement instanceof CautionAnswered caution && !caution.understood()) {
      cautionsPassed.computeIfAbsent(caution.step(), key -> new ArrayList<>()).add(said);
    } else if (statement instanceof ProblemSeen problem) {
      problems.add(new At<>(position, said, problem));
    } else if (statement instanceof PartFitted fitted) {
      addEvent(fitted.item(), position, said);
      index().item(fitted.item()).ifPresent(item -> stateByFitting(item, true, position, said));
    } else if (statement instanceof Aligned aligned) {
      addEvent(aligned.item(), position, said);
    } else if (statement instanceof SecondCheck check && check.subject() != null) {
      addEvent(check.subject(), position, said);
    }
  }

  private boolean warmAfter(MachineState state) {
    return switch (state) {
      case HOT, RUNNING -> true;
      case COLD -> false;
      default -> warm;
    };
  }

  private void sortMoved(Item item, int position, Standing said, ItemsMoved moved) {
    addEvent(item.id(), position, said);
    boolean on = moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON;
    if (on || moved.move() == ItemMove.OFF) {
      stateByFitting(item, on, position, said);
    }
  }

  /** Taking off the battery's earth lead or a guard says in what state the machine is. */
  private void stateByFitting(Item item, boolean on, int position, Standing said) {
    if (TradeNames.batteryEarth(item)) {
      addState(on ? MachineState.BATTERY_ON : MachineState.BATTERY_OFF, position, said);
    } else if (TradeNames.guard(item)) {
      boolean wereOff = !guardsOff.isEmpty();
      if (on) {
        guardsOff.remove(item.id());
      } else {
        guardsOff.add(item.id());
      }
      if (wereOff || !guardsOff.isEmpty()) {
        addState(
            guardsOff.isEmpty() ? MachineState.GUARDS_ON : MachineState.GUARDS_OFF, position, said);
      }
    }
  }

  private void addState(MachineState state, int position, Standing said) {
    states.add(new At<>(position, said, new StateSaid(state, null)));
  }

  private void sortTightened(At<Tightened> tightened) {
    Tightened what = tightened.statement();
    Optional<Item> item = index().itemMeant(what.item(), what.place(), what.thing(), null);
    if (item.isPresent()) {
      addEvent(item.get().id(), tightened.position(), tightened.said());
    } else {
      tightenedNowhere.add(tightened);
    }
  }

  private void sortMeasured(At<Measured> measured) {
    Measured what = measured.statement();
    readings.computeIfAbsent(what.measure(), key -> new ArrayList<>()).add(measured);
    if (what.measure() == Measure.LEVEL && what.level() != null) {
      index()
          .systemMeant(what.subject(), what.mark(), null)
          .ifPresent(
              system ->
                  levelsBySystem
                      .computeIfAbsent(system.id(), key -> new ArrayList<>())
                      .add(measured));
    }
  }

  private void addEvent(String item, int position, Standing said) {
    eventsByItem
        .computeIfAbsent(item, key -> new ArrayList<>())
        .add(new At<>(position, said, said.statement()));
  }

  private void addFluid(FluidSystem system, At<FluidMoved> moved) {
    fluidsBySystem.computeIfAbsent(system.id(), key -> new ArrayList<>()).add(moved);
  }

  private StepTold stepTold(String id) {
    return steps.computeIfAbsent(id, key -> new StepTold());
  }

  /** True for what tells something of the machine, as against of the day or of the log. */
  static boolean isWork(Statement statement) {
    return !(statement instanceof JobOpened
        || statement instanceof JobClosed
        || statement instanceof VisitBegun
        || statement instanceof Memo
        || statement instanceof Written
        || statement instanceof Statement.FindingAnswered
        || statement instanceof PhotoMarked
        || statement instanceof Statement.PictureTaken
        || statement instanceof NotUnderstood
        || statement instanceof NotUnderstoodSettled
        || statement instanceof CautionAnswered
        || statement instanceof TimerSet
        || statement instanceof TimersCancelled
        || statement instanceof Statement.LookAgain
        || statement instanceof Statement.FilmMark
        || statement instanceof Paused
        || statement instanceof Resumed
        || statement instanceof LeftForNight
        || statement instanceof SpeakerIs);
  }

  Plan plan() {
    return plan;
  }

  /** Earlier jobs on the same machine, in any order. */
  List<EarlierFill> past() {
    return past;
  }

  PlanIndex index() {
    return books.index();
  }

  Books books() {
    return books;
  }

  Ledger ledger() {
    return ledger;
  }

  List<Standing> entries() {
    return entries;
  }

  /** True when a move of fluid was told while the machine was last said to be hot or running. */
  boolean saidWhileWarm(Standing said) {
    return fluidWhileWarm.contains(said.entry().id());
  }

  /** False until something was said of the machine itself. */
  boolean anyWork() {
    return anyWork;
  }

  List<Remark> remarks() {
    return books.remarks();
  }

  StateHistory states() {
    return states;
  }

  /** The readings of one measure, in order. */
  List<At<Measured>> readings(Measure measure) {
    return readings.getOrDefault(measure, List.of());
  }

  /** The temperatures told. */
  Temperatures temperatures() {
    if (temperatures == null) {
      temperatures = new Temperatures(readings(Measure.TEMPERATURE));
    }
    return temperatures;
  }

  List<At<Tightened>> tightenedNowhere() {
    return tightenedNowhere;
  }

  /** Where work went on without the cautions of a step being understood, in order. */
  List<Standing> cautionsPassed(String step) {
    return cautionsPassed.getOrDefault(step, List.of());
  }

  List<At<ProblemSeen>> problems() {
    return problems;
  }

  /** What was said of an item, in order: moves, tightness, condition, alignment, second checks. */
  List<At<Statement>> eventsOf(String item) {
    return eventsByItem.getOrDefault(item, List.of());
  }

  /** The readings of a system's level against a mark, in order. */
  List<At<Measured>> levelsOf(String system) {
    return levelsBySystem.getOrDefault(system, List.of());
  }

  /** The moves of a system's fluid, in order, counted or not. */
  List<At<FluidMoved>> fluidOf(String system) {
    return fluidsBySystem.getOrDefault(system, List.of());
  }

  StepTold told(Step step) {
    StepTold told = steps.get(step.id());
    if (told == null) {
      told = byItems(step) ? StepTold.byItems(statusByItems(step)) : new StepTold();
      steps.put(step.id(), told);
    }
    return told;
  }

  /** A step drawn from a tear-down is done when its items were told. */
  boolean byItems(Step step) {
    return plan.basis() == Plan.Basis.TEAR_DOWN && !(step.off().isEmpty() && step.on().isEmpty());
  }

  private StepStatus statusByItems(Step step) {
    int done = 0;
    int begun = 0;
    for (String id : step.off()) {
      boolean gone = index().item(id).map(item -> cameOff(item)).orElse(false);
      done += gone ? 1 : 0;
    }
    for (String id : step.on()) {
      Optional<Item> item = index().item(id);
      boolean on = item.map(this::wentOn).orElse(false);
      boolean all = on && item.map(each -> account(each).lacking() == 0).orElse(false);
      done += all ? 1 : 0;
      begun += on && !all ? 1 : 0;
    }
    int wanted = step.off().size() + step.on().size();
    if (done == wanted) {
      return StepStatus.DONE;
    }
    return done + begun > 0 ? StepStatus.STARTED : StepStatus.UNSAID;
  }

  private boolean cameOff(Item item) {
    return eventsOf(item.id()).stream()
            .anyMatch(
                event ->
                    event.statement() instanceof ItemsMoved moved
                        && (moved.move() == ItemMove.OFF || moved.move() == ItemMove.SHEARED))
        || (item.temporary() && account(item).mentioned());
  }

  private boolean wentOn(Item item) {
    return lastFitted(item.id()) >= 0 || (item.temporary() && account(item).mentioned());
  }

  /** Where an item last went on; -1 when it never did. */
  int lastFitted(String item) {
    int last = -1;
    for (At<Statement> event : eventsOf(item)) {
      boolean fitted =
          event.statement() instanceof PartFitted
              || (event.statement() instanceof ItemsMoved moved
                  && (moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON));
      last = fitted ? event.position() : last;
    }
    return last;
  }

  ItemAccount account(Item item) {
    return ledger
        .item(item.id())
        .orElseThrow(() -> new IllegalStateException("no account for " + item.id()));
  }

  FluidAccount account(FluidSystem system) {
    return ledger
        .fluid(system.id())
        .orElseThrow(() -> new IllegalStateException("no account for " + system.id()));
  }

  /** The sum of a system, made once. */
  FluidSums sums(FluidSystem system) {
    return sums.computeIfAbsent(system.id(), key -> new FluidSums(this, system));
  }

  /** True when the amounts poured prove that a mixture is right; worked out once. */
  boolean mixtureProved(FluidSystem system) {
    return mixtureProved.computeIfAbsent(system.id(), key -> MixtureRules.proved(this, system));
  }

  /** How tight a group is, worked out once. */
  Tightness tightness(Item item) {
    return tightness.computeIfAbsent(item.id(), key -> new Tightness(this, item));
  }

  /** Ids of the battery's earth lead and of what fastens it. */
  Set<String> batteryEarthItems() {
    if (batteryEarthItems == null) {
      Set<String> leads = new HashSet<>();
      plan.items().stream().filter(TradeNames::batteryEarth).forEach(each -> leads.add(each.id()));
      Set<String> all = new HashSet<>(leads);
      plan.items().stream()
          .filter(each -> each.of() != null && leads.contains(each.of()))
          .forEach(each -> all.add(each.id()));
      batteryEarthItems = all;
    }
    return batteryEarthItems;
  }

  /** Ids of the steps in which an item goes on. */
  List<String> stepsFitting(Item item) {
    return index().stepsWith(item.id()).stream()
        .filter(step -> step.on().contains(item.id()))
        .map(Step::id)
        .toList();
  }

  /** Ids of the steps an item has to do with. */
  List<String> stepsOf(Item item) {
    return index().stepsWith(item.id()).stream().map(Step::id).toList();
  }

  /**
   * True when something should have been said of an item: it was mentioned, or belongs to a step
   * that was not skipped. An item that nobody touched and no step needs is only listed as not
   * mentioned.
   */
  boolean expected(Item item) {
    return account(item).mentioned()
        || eventsOf(item.id()).stream()
            .anyMatch(event -> !(event.statement() instanceof SecondCheck))
        || index().stepsWith(item.id()).stream()
            .anyMatch(step -> told(step).status() != StepStatus.SKIPPED);
  }

  /** Where an item was last said to be renewed; -1 when it never was. */
  int lastRenewal(String item) {
    return lastRenewals.computeIfAbsent(
        item,
        key -> {
          int last = -1;
          for (At<Statement> event : eventsOf(key)) {
            last = renews(event.statement()) ? event.position() : last;
          }
          return last;
        });
  }

  private static boolean renews(Statement statement) {
    if (statement instanceof ItemsMoved moved) {
      return moved.move() == ItemMove.NEW_ON;
    }
    return statement instanceof PartFitted fitted && fitted.condition() == PartCondition.NEW;
  }

  /** The entry with this id, as it stands. */
  Optional<Standing> entry(String id) {
    if (entriesById == null) {
      Map<String, Standing> byId = new HashMap<>();
      entries.forEach(said -> byId.putIfAbsent(said.entry().id(), said));
      entriesById = byId;
    }
    return Optional.ofNullable(entriesById.get(id));
  }

  /** When work stood still. */
  Pauses pauses() {
    if (pauses == null) {
      pauses = Pauses.of(entries.stream().map(Standing::entry).toList());
    }
    return pauses;
  }

  /** Entries about an item. */
  List<Standing> evidenceOf(Item item) {
    return eventsOf(item.id()).stream().map(At::said).toList();
  }

  /**
   * True when the level stood at the cold mark in the last two readings with nothing added or taken
   * since before the first of them: that outranks the sum of the jugs.
   */
  boolean levelSettled(FluidSystem system) {
    List<At<Measured>> levels = levelsOf(system.id());
    if (levels.size() < 2) {
      return false;
    }
    At<Measured> last = levels.get(levels.size() - 1);
    At<Measured> before = levels.get(levels.size() - 2);
    return atColdMark(last)
        && atColdMark(before)
        && fluidOf(system.id()).stream()
            .filter(moved -> moved.statement().move() != FluidMove.TO_WASTE)
            .noneMatch(moved -> moved.position() > before.position());
  }

  /** True when a level was read hot against a mark that holds for a cold machine. */
  boolean readHotAtColdMark(At<Measured> reading) {
    return index().mark(reading.statement().mark()).map(LevelMark::cold).orElse(false)
        && !readCold(reading);
  }

  private boolean atColdMark(At<Measured> reading) {
    return reading.statement().level() == Level.AT && readCold(reading);
  }

  /** Cold as said with the reading, or a cold mark while the machine was last said to be cold. */
  private boolean readCold(At<Measured> reading) {
    Warmth warmth = reading.statement().warmth();
    if (warmth != null) {
      return warmth == Warmth.COLD;
    }
    Set<MachineState> warmths = EnumSet.of(MachineState.HOT, MachineState.RUNNING);
    boolean wasHot =
        states.lastBefore(reading.position(), warmths).isPresent()
            && !states.holdsBefore(reading.position(), MachineState.COLD);
    return !wasHot && index().mark(reading.statement().mark()).map(LevelMark::cold).orElse(false);
  }
}
