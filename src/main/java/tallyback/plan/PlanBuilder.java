package tallyback.plan;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.plan.Names.Kind;
import tallyback.plan.Plan.Alignment;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Machine;
import tallyback.plan.Plan.Person;
import tallyback.plan.Plan.Place;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.Torque;
import tallyback.plan.Section.Mention;
import tallyback.plan.Section.Sign;

/**
 * Makes a plan out of the nodes of one file, section by section, and gathers every fault on the
 * way. One file each.
 */
final class PlanBuilder {

  static final Pattern ID = Pattern.compile("[a-z][a-z0-9]*(-[a-z0-9]+)*");

  /** Counts are spoken as plain cardinals. */
  private static final int LARGEST_COUNT = 99;

  private static final int MOST_PASSES = 9;
  private static final int MOST_MINUTES = 10_000;
  private static final int LONGEST_NAME_WORDS = 5;
  private static final Pattern SPOKEN_WORD = Pattern.compile("[a-z]+('[a-z]+)*'?");
  private static final Pattern HAS_DIGIT = Pattern.compile(".*\\d.*");
  private static final String DEFAULT_MACHINE = "machine without a name";
  private static final String DEFAULT_SIDES =
      "left and right as seen from the seat, looking forward";
  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);
  private static final Amount WRONG = Amount.of("0", Unit.UNSAID);

  /**
   * The sounds of the CMU pronouncing dictionary, as used by the stock acoustic model: without
   * stress marks.
   */
  private static final Set<String> PHONES =
      Set.of(
          "AA", "AE", "AH", "AO", "AW", "AY", "B", "CH", "D", "DH", "EH", "ER", "EY", "F", "G",
          "HH", "IH", "IY", "JH", "K", "L", "M", "N", "NG", "OW", "OY", "P", "R", "S", "SH", "T",
          "TH", "UH", "UW", "V", "W", "Y", "Z", "ZH");

  private final String text;
  private final String hash;
  private final Faults faults;
  private final Names names;

  PlanBuilder(String text, String hash, Faults faults) {
    this.text = text;
    this.hash = hash;
    this.faults = faults;
    this.names = new Names(faults);
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
    Machine machine = machine(file.section("machine"));
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
        file.sections("instruments").stream().map(this::instrument).toList();
    List<Limit> limits = file.sections("limits").stream().map(this::limit).toList();
    Map<String, List<String>> pronunciations = pronunciations(file.section("pronunciations"));
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
            pronunciations);
    if (faults.none()) {
      SecondLook.at(plan, file, faults);
    }
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

  private record Called(String id, List<String> say) {}

  /** Reads id and spoken names; an id that is not given is made of the first spoken name. */
  private Called called(Section section, Kind kind) {
    List<Mention> say = section.texts("say");
    String given = section.text("id");
    if (!section.has("say") || section.isEmptyList("say")) {
      faults.nothingToSay(section.spot("say"));
    }
    say.forEach(this::checkSayable);
    String id = given == null ? idFrom(say) : given;
    if (given != null && !ID.matcher(given).matches()) {
      faults.badId(section.spot("id"), given);
    } else if (!id.isEmpty()) {
      names.declare(kind, id, section.spot(given == null ? "say" : "id"));
    }
    names.say(kind, id, say);
    return new Called(id, say.stream().map(Mention::text).toList());
  }

  private static String idFrom(List<Mention> say) {
    return say.isEmpty() ? "" : say.get(0).text().replace("'", "").replaceAll("[^a-z0-9]+", "-");
  }

  private void checkSayable(Mention name) {
    String said = name.text();
    String[] words = said.split(" +", -1);
    if (HAS_DIGIT.matcher(said).matches()) {
      faults.notSayable(name.spot(), said, "spell numbers as words");
    } else if (!said.equals(String.join(" ", words))
        || words.length > LONGEST_NAME_WORDS
        || !List.of(words).stream().allMatch(word -> SPOKEN_WORD.matcher(word).matches())) {
      faults.notSayable(
          name.spot(), said, "use only lower-case letters and apostrophes, spelled as spoken");
    }
  }

  private Person person(Section section) {
    Called called = called(section, Kind.PERSON);
    section.finish();
    return new Person(called.id(), called.say());
  }

  private Fluid fluid(Section section) {
    Called called = called(section, Kind.FLUID);
    Fluid fluid =
        new Fluid(
            called.id(),
            called.say(),
            section.requiredText("grade", "grade: the maker's grade in words"),
            section.choice("form", FluidForm.class));
    section.finish();
    return fluid;
  }

  private FluidSystem system(Section section) {
    Called called = called(section, Kind.SYSTEM);
    FluidSystem system =
        new FluidSystem(
            called.id(),
            called.say(),
            requiredReference(section, "fluid", "fluid: coolant", EnumSet.of(Kind.FLUID)),
            volume(section, "capacity", Sign.ABOVE_NOUGHT),
            volume(section, "before", Sign.NOUGHT_OR_MORE),
            volume(section, "matters", Sign.ABOVE_NOUGHT),
            section.sections("drains").stream().map(this::point).toList(),
            section.sections("fills").stream().map(this::point).toList(),
            section.sections("marks").stream().map(this::mark).toList());
    section.finish();
    return system;
  }

  private static @Nullable Amount volume(Section section, String field, Sign sign) {
    return section.amount(field, sign, EnumSet.of(Dimension.VOLUME));
  }

  private Point point(Section section) {
    Called called = called(section, Kind.POINT);
    Point point =
        new Point(
            called.id(),
            called.say(),
            volume(section, "share", Sign.ABOVE_NOUGHT),
            reference(section, "plug", EnumSet.of(Kind.ITEM)));
    section.finish();
    return point;
  }

  private LevelMark mark(Section section) {
    Called called = called(section, Kind.MARK);
    LevelMark mark = new LevelMark(called.id(), called.say(), section.flag("cold"));
    section.finish();
    return mark;
  }

  private Place place(Section section) {
    Called called = called(section, Kind.PLACE);
    section.finish();
    return new Place(called.id(), called.say());
  }

  private Item item(Section section, Map<String, List<Mention>> of) {
    Called called = called(section, Kind.ITEM);
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
            torque(section.section("torque")),
            section.flag("stretch"),
            section.flag("renew"),
            section.flag("carry-over"),
            section.flag("temporary"),
            alignment(section.section("alignment")));
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

  private @Nullable Torque torque(@Nullable Section section) {
    if (section == null) {
      return null;
    }
    if (!section.has("value")) {
      section.missing("value", "value: the maker's figure, such as 24 N·m");
    }
    Amount value = section.amount("value", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.TORQUE));
    Amount[] tolerance = torqueTolerance(section, value);
    String from =
        section.requiredText(
            "tolerance-from", "tolerance-from: where it stands, such as workshop manual p. 12");
    Integer passes = section.whole("passes", 1, MOST_PASSES);
    Torque torque =
        new Torque(
            value == null ? WRONG : value,
            tolerance[0],
            tolerance[1],
            from,
            passes == null ? 1 : passes,
            section.amount("angle", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.ANGLE)),
            section.choice("threads", ThreadState.class));
    section.finish();
    return torque;
  }

  /** Plus and minus, in the unit of the value. */
  private Amount[] torqueTolerance(Section torque, @Nullable Amount value) {
    if (!torque.has("tolerance")) {
      torque.missing("tolerance", "tolerance: ±2 N·m, or 10 %, as the manual says");
    }
    if (torque.isSection("tolerance")) {
      Section both = torque.section("tolerance");
      Amount plus = both == null ? null : side(both, "plus", value);
      Amount minus = both == null ? null : side(both, "minus", value);
      if (both != null) {
        both.finish();
      }
      return within(torque, value, plus, minus);
    }
    String written = torque.text("tolerance");
    if (written == null) {
      return new Amount[] {WRONG, WRONG};
    }
    Amount either =
        torque.checkedAmount(
            withoutPlusMinus(written),
            torque.spot("tolerance"),
            Sign.NOUGHT_OR_MORE,
            EnumSet.of(Dimension.TORQUE, Dimension.SHARE));
    if (either != null && value != null && either.unit().dimension() == Dimension.SHARE) {
      either = share(value, either.value());
    } else if (either != null && value != null && either.unit() != value.unit()) {
      faults.differentUnit(torque.spot("tolerance"), value.unit().symbol(), either.toString());
    }
    return within(torque, value, either, either);
  }

  private @Nullable Amount side(Section both, String field, @Nullable Amount value) {
    if (!both.has(field)) {
      both.missing(field, field + ": 2 N·m");
    }
    Amount side = both.amount(field, Sign.NOUGHT_OR_MORE, EnumSet.of(Dimension.TORQUE));
    if (side != null && value != null && side.unit() != value.unit()) {
      faults.differentUnit(both.spot(field), value.unit().symbol(), side.toString());
    }
    return side;
  }

  private Amount[] within(
      Section torque, @Nullable Amount value, @Nullable Amount plus, @Nullable Amount minus) {
    if (value != null
        && minus != null
        && minus.unit() == value.unit()
        && minus.value().compareTo(value.value()) >= 0) {
      faults.toleranceTooLarge(torque.spot("tolerance"), minus + " below " + value);
    }
    return new Amount[] {plus == null ? WRONG : plus, minus == null ? WRONG : minus};
  }

  /** The exact share of a value, trailing noughts of the product taken off. */
  private static Amount share(Amount value, BigDecimal percent) {
    BigDecimal share = value.value().multiply(percent).divide(HUNDRED).stripTrailingZeros();
    return new Amount(share.scale() < 0 ? share.setScale(0) : share, value.unit());
  }

  private static String withoutPlusMinus(String written) {
    return written.replaceFirst("^(±|\\+/-|\\+-)\\s*", "");
  }

  private @Nullable Alignment alignment(@Nullable Section section) {
    if (section == null) {
      return null;
    }
    Set<Dimension> angle = EnumSet.of(Dimension.ANGLE);
    Amount at = requiredAmount(section, "angle", "angle: 0°", Sign.NOUGHT_OR_MORE, angle);
    if (at.value().compareTo(BigDecimal.valueOf(360)) >= 0) {
      faults.outsideCircle(section.spot("angle"), at.toString());
    }
    String written = section.requiredText("tolerance", "tolerance: ±30°");
    Amount tolerance =
        written.isEmpty()
            ? null
            : section.checkedAmount(
                withoutPlusMinus(written), section.spot("tolerance"), Sign.ABOVE_NOUGHT, angle);
    section.finish();
    return new Alignment(at, tolerance == null ? WRONG : tolerance);
  }

  private static Amount requiredAmount(
      Section section, String field, String example, Sign sign, Set<Dimension> wanted) {
    if (!section.has(field)) {
      section.missing(field, example);
    }
    Amount amount = section.amount(field, sign, wanted);
    return amount == null ? WRONG : amount;
  }

  private Step step(Section section, Map<String, List<Mention>> needs) {
    Called called = called(section, Kind.STEP);
    needs.put(called.id(), section.texts("needs"));
    Step step =
        new Step(
            called.id(),
            called.say(),
            references(section, "off", EnumSet.of(Kind.ITEM)),
            references(section, "on", EnumSet.of(Kind.ITEM)),
            references(section, "needs", EnumSet.of(Kind.STEP)),
            section.choices("states", MachineState.class),
            section.whole("minutes", 1, MOST_MINUTES),
            section.texts("cautions").stream().map(Mention::text).toList());
    section.finish();
    return step;
  }

  private Instrument instrument(Section section) {
    Called called = called(section, Kind.INSTRUMENT);
    InstrumentKind kind = section.choice("kind", InstrumentKind.class);
    if (!section.has("kind")) {
      section.missing("kind", "kind: vessel");
    }
    Set<Dimension> scale = scaleOf(kind);
    Amount from = requiredAmount(section, "from", "from: the lowest mark", Sign.ANY, scale);
    Amount to = requiredAmount(section, "to", "to: the highest mark", Sign.ANY, scale);
    checkRange(section, from, to);
    Amount tolerance = instrumentTolerance(section, to);
    boolean percent = tolerance.unit() == Unit.PERCENT;
    Instrument instrument =
        new Instrument(
            called.id(),
            called.say(),
            kind == null ? InstrumentKind.GAUGE : kind,
            to.unit(),
            from,
            to,
            percent ? tolerance.value() : null,
            percent ? null : tolerance,
            calibrated(section));
    section.finish();
    return instrument;
  }

  private static Set<Dimension> scaleOf(@Nullable InstrumentKind kind) {
    if (kind == InstrumentKind.VESSEL) {
      return EnumSet.of(Dimension.VOLUME);
    }
    return kind == InstrumentKind.WRENCH ? EnumSet.of(Dimension.TORQUE) : AmountText.anyDimension();
  }

  private void checkRange(Section section, Amount from, Amount to) {
    if (from.unitUnsaid() || to.unitUnsaid()) {
      return;
    }
    if (from.unit() != to.unit()) {
      faults.differentUnit(section.spot("from"), to.unit().symbol(), from.toString());
    } else if (from.value().compareTo(to.value()) >= 0) {
      faults.upsideDown(section.spot("from"), from.toString(), to.toString());
    }
  }

  private Amount instrumentTolerance(Section section, Amount to) {
    String written = section.requiredText("tolerance", "tolerance: 5 %, or ±0.05 L");
    if (written.isEmpty()) {
      return WRONG;
    }
    Set<Dimension> wanted =
        to.unitUnsaid()
            ? AmountText.anyDimension()
            : EnumSet.of(to.unit().dimension(), Dimension.SHARE);
    Spot spot = section.spot("tolerance");
    Amount tolerance =
        section.checkedAmount(withoutPlusMinus(written), spot, Sign.NOUGHT_OR_MORE, wanted);
    if (tolerance == null) {
      return WRONG;
    }
    if (!to.unitUnsaid() && tolerance.unit() == Unit.PERCENT) {
      if (to.unit().dimension() == Dimension.TEMPERATURE) {
        faults.percentOfTemperature(spot, to.unit().symbol());
      }
    } else if (!to.unitUnsaid() && tolerance.unit() != to.unit()) {
      faults.differentUnit(spot, to.unit().symbol(), tolerance.toString());
    }
    return tolerance;
  }

  private @Nullable String calibrated(Section section) {
    String date = section.text("calibrated");
    if (date == null) {
      return null;
    }
    try {
      return LocalDate.parse(date).toString();
    } catch (DateTimeParseException e) {
      faults.notDate(section.spot("calibrated"), date);
      return null;
    }
  }

  private Limit limit(Section section) {
    String subject =
        requiredReference(
            section,
            "subject",
            "subject: the id of a system, place or item",
            EnumSet.of(Kind.SYSTEM, Kind.PLACE, Kind.ITEM));
    if (!section.has("measure")) {
      section.missing("measure", "measure: temperature");
    }
    Measure measure = section.choice("measure", Measure.class);
    if (measure == Measure.LEVEL) {
      faults.levelHasMarks(section.spot("measure"));
    }
    Set<Dimension> wanted = measure == null ? AmountText.anyDimension() : dimensionsOf(measure);
    Amount from = section.amount("from", Sign.ANY, wanted);
    Amount to = section.amount("to", Sign.ANY, wanted);
    checkLimit(section, from, to);
    section.finish();
    return new Limit(subject, measure == null ? Measure.LEVEL : measure, from, to);
  }

  private void checkLimit(Section section, @Nullable Amount from, @Nullable Amount to) {
    if (!section.has("from") && !section.has("to")) {
      faults.noLimit(section.spot());
    }
    if (from == null || to == null) {
      return;
    }
    if (from.unit().dimension() != to.unit().dimension()) {
      faults.differentUnit(section.spot("to"), from.unit().symbol(), to.toString());
    } else if (from.base().compareTo(to.base()) > 0) {
      faults.upsideDown(section.spot("from"), from.toString(), to.toString());
    }
  }

  /** What a measure is given in. */
  static Set<Dimension> dimensionsOf(Measure measure) {
    return switch (measure) {
      case TEMPERATURE -> EnumSet.of(Dimension.TEMPERATURE);
      case LEVEL -> AmountText.anyDimension();
      case PRESSURE -> EnumSet.of(Dimension.PRESSURE);
      case GAP, THICKNESS -> EnumSet.of(Dimension.LENGTH);
      case VOLTAGE -> EnumSet.of(Dimension.VOLTAGE);
      case CURRENT -> EnumSet.of(Dimension.CURRENT);
      case RESISTANCE -> EnumSet.of(Dimension.RESISTANCE);
      case SPEED -> EnumSet.of(Dimension.SPEED);
      case HOURS -> EnumSet.of(Dimension.TIME);
      case DISTANCE -> EnumSet.of(Dimension.DISTANCE);
      case STRENGTH -> EnumSet.of(Dimension.TEMPERATURE, Dimension.SHARE);
    };
  }

  private Map<String, List<String>> pronunciations(@Nullable Section section) {
    Map<String, List<String>> all = new LinkedHashMap<>();
    if (section == null) {
      return all;
    }
    for (String word : section.fields()) {
      List<Mention> ways = section.texts(word);
      if (!SPOKEN_WORD.matcher(word).matches()) {
        faults.notSayable(section.spot(word), word, "give one word in lower-case letters");
      }
      ways.forEach(this::checkPhones);
      all.put(word, ways.stream().map(Mention::text).toList());
    }
    return all;
  }

  private void checkPhones(Mention way) {
    for (String phone : way.text().split(" +", -1)) {
      if (!PHONES.contains(phone)) {
        faults.notPhone(way.spot(), phone);
      }
    }
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
