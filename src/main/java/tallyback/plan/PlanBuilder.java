package tallyback.plan;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Thing;
import tallyback.plan.Names.Kind;
import tallyback.plan.Naming.Called;
import tallyback.plan.Plan.Alignment;
import tallyback.plan.Plan.Basis;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidBase;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Machine;
import tallyback.plan.Plan.Open;
import tallyback.plan.Plan.Person;
import tallyback.plan.Plan.Place;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Section.Mention;
import tallyback.plan.Section.Sign;

/**
 * Makes a plan out of the nodes of one file, section by section, and gathers every fault on the
 * way. One file each.
 */
final class PlanBuilder {

  /** Counts are spoken as plain cardinals. */
  private static final int LARGEST_COUNT = 99;

  private static final int MOST_MINUTES = 10_000;
  private static final String FROM_MANUAL = "from-manual";
  private static final Set<String> OPEN_IN_SYSTEMS = ordered("capacity", "matters");
  private static final Set<String> OPEN_AT_POINTS = ordered("share");
  private static final Set<String> OPEN_IN_ITEMS =
      ordered("thread", "head", "length", "grade", "torque");
  private static final Set<String> OPEN_IN_LIMITS = ordered("from", "to", "drop", "minutes");
  private static final String DEFAULT_MACHINE = "machine without a name";
  private static final String DEFAULT_SIDES =
      "left and right as seen from the seat, looking forward";

  private final String text;
  private final String hash;
  private final Faults faults;
  private final Names names;
  private final Naming naming;
  private final Tightening tightening;
  private final Measuring measuring;
  private final List<Open> open = new ArrayList<>();

  PlanBuilder(String text, String hash, Places places, Faults faults) {
    this.text = text;
    this.hash = hash;
    this.faults = faults;
    this.names = new Names(faults);
    this.naming = new Naming(names, places, faults);
    this.tightening = new Tightening(faults);
    this.measuring = new Measuring(faults);
  }

  private static Set<String> ordered(String... fields) {
    return Collections.unmodifiableSet(new LinkedHashSet<>(Arrays.asList(fields)));
  }

  /**
   * The plan, or empty when the file is no plan of this format at all. The plan is only right when
   * no fault was gathered.
   */
  Optional<Plan> build(MappingNode root) {
    Section file = new Section(root, "", faults);
    if (!file.has("tallyback-plan") && !file.has("name")) {
      faults.notOurs(file.spot());
      return Optional.empty();
    }
    if (!formatKnown(file)) {
      return Optional.empty();
    }
    String name = file.requiredText("name", "name: coolant pump and belt");
    Basis basis = file.choice("basis", Basis.class);
    Machine machine = machine(file.section("machine", "machine: {name: maker and model}"));
    List<Person> people = file.sections("people").stream().map(this::person).toList();
    List<Fluid> fluids = file.sections("fluids").stream().map(this::fluid).toList();
    List<FluidSystem> systems = file.sections("systems").stream().map(this::system).toList();
    List<Place> places = file.sections("places").stream().map(this::place).toList();
    Map<String, List<Mention>> of = new LinkedHashMap<>();
    List<Item> items = file.sections("items").stream().map(each -> item(each, of)).toList();
    Map<String, List<Mention>> needs = new LinkedHashMap<>();
    List<Section> stepSections = file.sections("steps");
    List<Step> steps = stepSections.stream().map(each -> step(each, needs)).toList();
    List<Instrument> instruments =
        file.sections("instruments").stream()
            .map(each -> measuring.instrument(each, naming.called(each, Kind.INSTRUMENT)))
            .toList();
    List<Limit> limits =
        file.sections("limits").stream()
            .map(this::limit)
            .filter(each -> each.from() != null || each.to() != null)
            .toList();
    Map<String, List<String>> pronunciations =
        naming.pronunciations(
            file.section("pronunciations", "pronunciations: {grommet: G R AA M AH T}"));
    file.finish();
    names.checkReferences();
    Names.checkRings(needs, faults);
    Names.checkRings(of, faults);
    Plan plan =
        new Plan(
            name,
            text,
            hash,
            machine,
            people,
            fluids,
            systems,
            places,
            items,
            steps,
            instruments,
            limits,
            pronunciations,
            open,
            basis == null ? Basis.WRITTEN : basis);
    SecondLook.at(plan, file, faults);
    return Optional.of(plan);
  }

  private boolean formatKnown(Section file) {
    if (!file.has("tallyback-plan")) {
      file.text("tallyback-plan");
      faults.notOurs(file.spot());
      return true;
    }
    String format = Optional.ofNullable(file.text("tallyback-plan")).orElse("");
    if (!format.matches("[1-9][0-9]{0,8}")) {
      faults.badHeader(
          file.spot("tallyback-plan"), format.isEmpty() ? "none" : Faults.quote(format));
      return true;
    }
    if (Integer.parseInt(format) > PlanReader.FORMAT) {
      faults.newerFormat(file.spot("tallyback-plan"), format, PlanReader.FORMAT);
      return false;
    }
    return true;
  }

  private static Machine machine(@Nullable Section section) {
    if (section == null) {
      return new Machine(DEFAULT_MACHINE, null, DEFAULT_SIDES);
    }
    Machine machine =
        new Machine(
            section.requiredText("name", "name: maker and model"),
            section.text("serial"),
            Optional.ofNullable(section.text("sides")).orElse(DEFAULT_SIDES));
    section.finish();
    return machine;
  }

  private Person person(Section section) {
    Called called = naming.called(section, Kind.PERSON);
    section.finish();
    return new Person(called.id(), called.say());
  }

  private Fluid fluid(Section section) {
    Called called = naming.called(section, Kind.FLUID);
    Fluid fluid =
        new Fluid(
            called.id(),
            called.say(),
            section.requiredText("grade", "grade: SAE 30 (the maker's words)"),
            section.choice("form", FluidForm.class),
            section.choice("base", FluidBase.class),
            share(section, "strength"),
            section.amount("litre-weighs", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.MASS)));
    section.finish();
    return fluid;
  }

  private FluidSystem system(Section section) {
    Called called = naming.called(section, Kind.SYSTEM);
    FluidSystem system =
        new FluidSystem(
            called.id(),
            called.say(),
            requiredReference(section, "fluid", "fluid: coolant", EnumSet.of(Kind.FLUID)),
            volume(section, "capacity", Sign.ABOVE_NOUGHT),
            volume(section, "before", Sign.NOUGHT_OR_MORE),
            volume(section, "matters", Sign.ABOVE_NOUGHT),
            volume(section, "dry-parts", Sign.ABOVE_NOUGHT),
            share(section, "old-at-most"),
            section.sections("drains").stream().map(this::point).toList(),
            section.sections("fills").stream().map(this::point).toList(),
            section.sections("marks").stream().map(this::mark).toList());
    open(section, called.id(), OPEN_IN_SYSTEMS);
    section.finish();
    return system;
  }

  /**
   * Which values of a section the plan leaves to the maker's manual. They are kept apart, so that
   * nothing that judges a job can take an open value for one.
   *
   * @return whether there is any
   */
  private boolean open(Section section, String subject, Set<String> allowed) {
    List<Mention> left = section.texts(FROM_MANUAL);
    for (Mention field : left) {
      if (!allowed.contains(field.text())) {
        faults.notOpen(field.spot(), field.text(), allowed);
      } else if (section.has(field.text())) {
        faults.openAndGiven(field.spot(), field.text());
      } else {
        open.add(new Open(subject, field.text()));
      }
    }
    return !left.isEmpty();
  }

  private Limit limit(Section section) {
    String subject = subject(section);
    String measure = Optional.ofNullable(section.text("measure")).orElse("");
    int before = open.size();
    boolean anyOpen = open(section, subject, OPEN_IN_LIMITS);
    open.subList(before, open.size())
        .replaceAll(each -> new Open(subject, measure + " " + each.field()));
    return measuring.limit(section, subject, anyOpen);
  }

  private static @Nullable Amount volume(Section section, String field, Sign sign) {
    return section.amount(field, sign, EnumSet.of(Dimension.VOLUME));
  }

  private @Nullable Amount share(Section section, String field) {
    Amount share = section.amount(field, Sign.NOUGHT_OR_MORE, EnumSet.of(Dimension.SHARE));
    if (share != null && share.value().compareTo(BigDecimal.valueOf(100)) > 0) {
      faults.overHundred(section.spot(field), share.toString());
      return null;
    }
    return share;
  }

  private Point point(Section section) {
    Called called = naming.called(section, Kind.POINT);
    Point point =
        new Point(
            called.id(),
            called.say(),
            volume(section, "share", Sign.ABOVE_NOUGHT),
            reference(section, "plug", EnumSet.of(Kind.ITEM)));
    open(section, called.id(), OPEN_AT_POINTS);
    section.finish();
    return point;
  }

  private LevelMark mark(Section section) {
    Called called = naming.called(section, Kind.MARK);
    LevelMark mark = new LevelMark(called.id(), called.say(), section.flag("cold"));
    section.finish();
    return mark;
  }

  private Place place(Section section) {
    Called called = naming.called(section, Kind.PLACE);
    section.finish();
    return new Place(called.id(), called.say());
  }

  private Item item(Section section, Map<String, List<Mention>> of) {
    Called called = naming.called(section, Kind.ITEM);
    Thing thing = section.choice("thing", Thing.class);
    String on = reference(section, "of", EnumSet.of(Kind.PLACE, Kind.ITEM));
    if (on != null) {
      of.put(called.id(), List.of(new Mention(on, section.spot("of"))));
    }
    Item item =
        new Item(
            called.id(),
            called.say(),
            thing == null ? Thing.PART : thing,
            section.count("count", LARGEST_COUNT),
            on,
            section.text("thread"),
            section.amount("head", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.LENGTH)),
            section.text("drive"),
            section.amount("length", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.LENGTH)),
            section.text("grade"),
            tightening.torque(
                section.section(
                    "torque",
                    "torque: {value: 24 N·m, tolerance: ±2 N·m, tolerance-from: manual p. 12}")),
            section.flag("stretch"),
            section.flag("renew"),
            section.flag("carry-over"),
            section.flag("temporary"),
            alignment(section.section("alignment", "alignment: {angle: 0°, tolerance: ±30°}")));
    open(section, called.id(), OPEN_IN_ITEMS);
    checkItem(section, item);
    section.finish();
    return item;
  }

  private void checkItem(Section section, Item item) {
    boolean fastener =
        section.has("thread")
            || section.has("head")
            || section.has("length")
            || section.has("torque");
    if (fastener && !section.has("thing")) {
      section.missing("thing", "thing: bolt");
    }
    if (item.renew() && item.carryOver()) {
      faults.contradiction(
          section.spot("carry-over"),
          "renew",
          "carry-over",
          "a part that moves over from the old one is not new: take one out");
    }
    if (item.stretch() && item.carryOver()) {
      faults.contradiction(
          section.spot("carry-over"), "stretch", "carry-over", "stretch bolts are new each time");
    }
    if (item.temporary() && (item.renew() || item.carryOver())) {
      faults.contradiction(
          section.spot("temporary"),
          "temporary",
          item.renew() ? "renew" : "carry-over",
          "a temporary item does not stay on the machine: take one out");
    }
  }

  private @Nullable Alignment alignment(@Nullable Section section) {
    if (section == null) {
      return null;
    }
    Set<Dimension> angle = EnumSet.of(Dimension.ANGLE);
    Amount at = section.requiredAmount("angle", "angle: 0°", Sign.NOUGHT_OR_MORE, angle);
    if (at.value().compareTo(BigDecimal.valueOf(360)) >= 0) {
      faults.outsideCircle(section.spot("angle"), at.toString());
    }
    String written = section.requiredText("tolerance", "tolerance: ±30°");
    Amount tolerance =
        written.isEmpty()
            ? null
            : section.checkedAmount(
                Tightening.withoutPlusMinus(written),
                section.spot("tolerance"),
                Sign.ABOVE_NOUGHT,
                angle);
    section.finish();
    return new Alignment(at, tolerance == null ? Section.WRONG : tolerance);
  }

  private Step step(Section section, Map<String, List<Mention>> needs) {
    Called called = naming.called(section, Kind.STEP);
    needs.put(called.id(), section.texts("needs"));
    List<Section.Caution> cautions = section.cautions("cautions");
    Map<String, Boolean> injury = new HashMap<>();
    for (Section.Caution caution : cautions) {
      if (caution.injury() != null) {
        injury.put(caution.text(), caution.injury());
      }
    }
    Step step =
        new Step(
            called.id(),
            called.say(),
            references(section, "off", EnumSet.of(Kind.ITEM)),
            references(section, "on", EnumSet.of(Kind.ITEM)),
            references(section, "needs", EnumSet.of(Kind.STEP)),
            section.choices("states", MachineState.class),
            section.whole("minutes", 1, MOST_MINUTES),
            cautions.stream().map(Section.Caution::text).toList(),
            injury);
    section.finish();
    return step;
  }

  private String subject(Section limit) {
    return requiredReference(
        limit,
        "subject",
        "subject: cooling (the id of a system, place or item)",
        EnumSet.of(Kind.SYSTEM, Kind.PLACE, Kind.ITEM));
  }

  private @Nullable String reference(Section section, String field, Set<Kind> wanted) {
    String id = section.text(field);
    if (id != null) {
      names.refer(new Mention(id, section.spot(field)), wanted);
    }
    return id;
  }

  private String requiredReference(
      Section section, String field, String example, Set<Kind> wanted) {
    if (!section.has(field)) {
      section.missing(field, example);
    }
    return Optional.ofNullable(reference(section, field, wanted)).orElse("");
  }

  private List<String> references(Section section, String field, Set<Kind> wanted) {
    List<String> ids = new ArrayList<>();
    for (Mention mention : section.texts(field)) {
      names.refer(mention, wanted);
      ids.add(mention.text());
    }
    return ids;
  }
}
