package tallyback.planning;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.PlanIndex;
import tallyback.books.Standing;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Lexicon;
import tallyback.phrase.ReadBackText;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Basis;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Place;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.TearDown;
import tallyback.reconcile.TearDown.About;
import tallyback.reconcile.TearDownSteps;

/**
 * The plan that a job turns into: what came off, how many, with which heads, from where, in the
 * reverse order; what was observed as remarks; what belongs to the maker's manual left open. No
 * torque comes from the job: what was done is not what the maker wants. Immutable.
 *
 * @param text the plan as YAML
 * @param open what could not be decided, as questions; it stands in the text as remarks too
 */
public record TearDownPlan(String text, List<String> open) {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT);
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
  private static final Pattern SAYABLE = Pattern.compile("[a-z']+( [a-z']+){0,5}");

  /** Copies the list. */
  public TearDownPlan {
    open = List.copyOf(open);
  }

  /**
   * Draws the plan.
   *
   * @param job the job's id
   * @param plan the plan frozen in it, or the names it was told with
   * @param entries every entry of it, in any order
   * @param lexicon how words sound: a name that nobody can pronounce is only remarked
   */
  public static TearDownPlan of(String job, Plan plan, List<Entry> entries, Lexicon lexicon) {
    return new Drawing(job, plan, entries, lexicon).draw();
  }

  /** One drawing. Used by one thread. */
  private static final class Drawing implements PlanWriter.Remarks {

    private static final Set<Thing> THREADED =
        EnumSet.of(Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.STUD, Thing.PLUG);

    private final String job;
    private final Plan told;
    private final List<Standing> standing;
    private final Lexicon lexicon;
    private final TearDown tearDown;
    private final Plan plan;
    private final ReadBackText readBack;
    private final Map<String, List<String>> observed = new HashMap<>();
    private final List<String> memos = new ArrayList<>();
    private final Map<String, List<String>> drained = new HashMap<>();

    Drawing(String job, Plan told, List<Entry> entries, Lexicon lexicon) {
      this.job = job;
      this.told = told;
      this.lexicon = lexicon;
      this.tearDown = TearDown.of(told, entries);
      Books books = Books.of(tearDown.plan(), entries);
      this.standing = books.standing();
      this.plan = told.basis() == Basis.NAMES ? sayable(tearDown.plan()) : tearDown.plan();
      this.readBack = new ReadBackText(plan);
      PlanIndex index = new PlanIndex(plan);
      standing.forEach(said -> observe(index, said));
      drained(books);
    }

    TearDownPlan draw() {
      List<String> open = new ArrayList<>();
      tearDown.open().forEach(each -> open.add(each.words()));
      return new TearDownPlan(PlanWriter.write(plan, this), open);
    }

    // ---- names that can be said

    private Plan sayable(Plan drawn) {
      Map<String, List<String>> names = new LinkedHashMap<>();
      for (Place place : drawn.places()) {
        List<String> say = new ArrayList<>(place.say());
        nameOf(place).filter(this::fit).ifPresent(name -> say.add(0, name));
        names.put(place.id(), say);
      }
      List<Place> places =
          drawn.places().stream().map(each -> new Place(each.id(), say(each, names))).toList();
      List<Item> items = new ArrayList<>();
      for (Item item : drawn.items()) {
        names.put(item.id(), item.say());
        items.add(called(item, drawn, names));
      }
      Map<String, String> labels = new HashMap<>();
      drawn.named().forEach(each -> labels.put(each.id(), each.label()));
      places.forEach(each -> labels.put(each.id(), each.label()));
      items.forEach(each -> labels.put(each.id(), each.label()));
      List<Step> steps =
          TearDownSteps.of(
              tearDown.taken(),
              id -> labels.getOrDefault(id, id),
              List.of(),
              new TearDownOrder(tearDown.taken()));
      return new Plan(
          "Drawn from job " + job,
          drawn.text(),
          drawn.hash(),
          drawn.machine(),
          drawn.people(),
          drawn.fluids(),
          drawn.systems(),
          places,
          items,
          steps,
          drawn.instruments(),
          drawn.limits(),
          drawn.pronunciations(),
          fromManual(drawn.systems(), items),
          Basis.TEAR_DOWN);
    }

    /** What a job can't tell and the maker's manual does. */
    private static List<Plan.Open> fromManual(List<FluidSystem> systems, List<Item> items) {
      List<Plan.Open> open = new ArrayList<>();
      for (FluidSystem system : systems) {
        if (system.capacity() == null) {
          open.add(new Plan.Open(system.id(), "capacity"));
        }
      }
      for (Item item : items) {
        if (isTightened(item)) {
          if (item.head() == null) {
            open.add(new Plan.Open(item.id(), "head"));
          }
          if (item.torque() == null) {
            open.add(new Plan.Open(item.id(), "torque"));
          }
        }
      }
      return open;
    }

    private static boolean isTightened(Item item) {
      return THREADED.contains(item.thing()) && !item.temporary();
    }

    private static List<String> say(Named named, Map<String, List<String>> names) {
      return names.getOrDefault(named.id(), named.say());
    }

    /** Fasteners are called by what they hold, and where there are two sizes by that too. */
    private static Item called(Item item, Plan drawn, Map<String, List<String>> names) {
      String of = item.of();
      if (of == null || !item.id().startsWith(of + "-")) {
        return item;
      }
      List<String> named = names.get(of);
      String holder = named != null ? named.get(0) : drawn.find(of).map(Named::label).orElse(of);
      String noun = item.label().replaceFirst(",.*", "").replaceFirst(".* ", "");
      boolean oneOfSeveral = item.label().contains(",");
      Amount head = item.head();
      String size = oneOfSeveral && head != null ? size(head) + " " : "";
      return new Item(
          item.id(),
          List.of(size + holder + " " + noun),
          item.thing(),
          item.count(),
          of,
          item.thread(),
          head,
          item.drive(),
          item.length(),
          item.grade(),
          item.torque(),
          item.stretch(),
          item.renew(),
          item.carryOver(),
          item.temporary(),
          item.alignment());
    }

    private static String size(Amount head) {
      return switch (head.unit()) {
        case INCH -> EntryGrammar.spokenSize(head);
        default ->
            head.value().stripTrailingZeros().scale() <= 0
                ? EntryGrammar.inWords(head.value().intValue()) + " mil"
                : EntryGrammar.inWords(head.value().intValue()) + " point five mil";
      };
    }

    private Optional<String> nameOf(Place place) {
      return standing.stream()
          .flatMap(said -> TearDown.nameOf(said.statement(), place.id(), place.label()).stream())
          .filter(name -> !name.isEmpty())
          .reduce((first, later) -> later)
          .map(name -> name.toLowerCase(Locale.ROOT).replaceFirst("^(the|a|an) ", ""));
    }

    /** Sounds known, and nobody else is called so. */
    private boolean fit(String name) {
      return SAYABLE.matcher(name).matches()
          && List.of(name.split(" ")).stream().allMatch(lexicon::knows)
          && tearDown.plan().named().stream().noneMatch(each -> each.say().contains(name));
    }

    // ---- what was observed

    private void observe(PlanIndex index, Standing said) {
      Statement statement = said.statement();
      if (statement instanceof Memo memo) {
        memo(said, memo);
      }
      String about = about(index, statement);
      if (about != null) {
        note(about, time(said) + " " + readBack.of(statement).written());
      }
    }

    private static @Nullable String about(PlanIndex index, Statement statement) {
      if (statement instanceof Tightened tight) {
        return index
            .itemMeant(tight.item(), tight.place(), tight.thing(), null)
            .map(Item::id)
            .orElse(tight.place());
      }
      if (statement instanceof ItemsMoved moved
          && moved.move() != ItemMove.OFF
          && moved.move() != ItemMove.ON) {
        return index
            .itemMeant(moved.item(), moved.place(), moved.thing(), moved.headSize())
            .map(Item::id)
            .orElse(moved.place());
      }
      if (statement instanceof Statement.Aligned aligned) {
        return aligned.item();
      }
      if (statement instanceof Statement.PartFitted fitted) {
        return fitted.item();
      }
      if (statement instanceof Statement.ProblemSeen problem) {
        return problem.subject();
      }
      if (statement instanceof Statement.PhotoMarked photo) {
        return photo.subject();
      }
      boolean level =
          statement instanceof Statement.Measured measured
              && measured.measure() == Statement.Measure.LEVEL;
      return statement instanceof Statement.Measured measured && !level ? measured.subject() : null;
    }

    private void memo(Standing said, Memo memo) {
      String line = time(said) + " " + readBack.of(memo).written();
      boolean sound = memo.text() == null;
      String all = sound ? line + ": entry no. " + said.entry().seq() + " in the record" : line;
      String place = memo.subject();
      if (place == null) {
        place =
            told.places().stream()
                .filter(each -> TearDown.nameOf(memo, each.id(), each.label()).isPresent())
                .findFirst()
                .map(Place::id)
                .orElse(null);
      }
      if (place == null) {
        memos.add(all);
      } else {
        note(place, all);
      }
    }

    private void note(String id, String line) {
      observed.computeIfAbsent(id, key -> new ArrayList<>()).add(line);
    }

    private static String time(Standing said) {
      return TIME.format(said.entry().happenedAt().atZone(said.entry().zone()));
    }

    private void drained(Books books) {
      for (FluidSystem system : plan.systems()) {
        books
            .confirmed()
            .fluid(system.id())
            .ifPresent(
                account ->
                    account.postings().stream()
                        .filter(posting -> posting.to() == Account.PAN)
                        .forEach(
                            posting -> {
                              if (posting.said().statement() instanceof FluidMoved moved
                                  && moved.place() != null) {
                                drained
                                    .computeIfAbsent(moved.place(), key -> new ArrayList<>())
                                    .add(String.valueOf(moved.amount()));
                              }
                            }));
      }
    }

    // ---- remarks

    @Override
    public List<String> ofFile() {
      List<String> lines = new ArrayList<>();
      lines.add(PlanRemarks.drawnFrom(job, day(), told.basis() == Basis.NAMES, told.name()));
      lines.addAll(PlanRemarks.FROM_YOUR_MANUAL);
      if (!tearDown.open().isEmpty()) {
        lines.add("");
        lines.add(PlanRemarks.OPEN);
        tearDown.open().forEach(each -> lines.add("  " + each.words()));
      }
      if (!memos.isEmpty()) {
        lines.add("");
        lines.add(PlanRemarks.MEMOS);
        memos.forEach(memo -> lines.add("  " + memo));
      }
      return lines;
    }

    private String day() {
      Entry first = standing.isEmpty() ? null : standing.get(0).entry();
      Instant at = first == null ? Instant.EPOCH : first.happenedAt();
      ZoneId zone = first == null ? ZoneOffset.UTC : first.zone();
      return first == null ? "" : DAY.format(at.atZone(zone));
    }

    @Override
    public List<String> insteadOfCount(Item item) {
      // A plan that somebody wrote keeps its number, with the question beside it.
      boolean keeps = told.basis() != Basis.NAMES && told.item(item.id()).isPresent();
      return keeps
          ? List.of()
          : tearDown
              .openOf(item.id(), About.COUNT)
              .map(open -> List.of(PlanRemarks.openCount(open.words())))
              .orElse(List.of());
    }

    @Override
    public List<String> of(Named named) {
      List<String> lines = new ArrayList<>();
      boolean keeps = told.basis() != Basis.NAMES && told.item(named.id()).isPresent();
      if (keeps) {
        tearDown
            .openOf(named.id(), About.COUNT)
            .ifPresent(open -> lines.add(PlanRemarks.openCount(open.words())));
      }
      tearDown
          .openOf(named.id(), About.NAME)
          .ifPresent(open -> lines.add(PlanRemarks.nameMissing(named.label())));
      tearDown.open().stream()
          .filter(each -> each.about() == About.GROUP && each.subject().equals(named.id()))
          .forEach(each -> lines.add(PlanRemarks.openGroup(each.words())));
      if (named instanceof Item item) {
        ofItem(item, lines);
      } else if (named instanceof FluidSystem system
          && system.capacity() == null
          && !plan.leavesOpen(system.id(), "capacity")) {
        lines.add(PlanRemarks.CAPACITY);
      } else if (named instanceof Point point && drained.containsKey(point.id())) {
        lines.add(
            PlanRemarks.drained(String.join(" + ", drained.getOrDefault(point.id(), List.of()))));
      }
      observed
          .getOrDefault(named.id(), List.of())
          .forEach(line -> lines.add(PlanRemarks.told(line)));
      return lines;
    }

    private void ofItem(Item item, List<String> lines) {
      if (isTightened(item)) {
        if (item.head() == null && !plan.leavesOpen(item.id(), "head")) {
          lines.add(PlanRemarks.HEAD);
        }
        if (item.torque() == null && !plan.leavesOpen(item.id(), "torque")) {
          lines.add(PlanRemarks.TORQUE);
        }
      }
      boolean renewed =
          standing.stream()
              .map(Standing::statement)
              .anyMatch(
                  said ->
                      said instanceof Statement.PartFitted fitted
                          && fitted.item().equals(item.id())
                          && fitted.condition() == Statement.PartCondition.NEW);
      if (renewed && !item.renew()) {
        lines.add(PlanRemarks.RENEW);
      }
    }
  }
}
