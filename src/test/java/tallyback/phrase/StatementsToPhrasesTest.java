package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;

/**
 * Draws statements at random, says each in one of the ways people would, and reads it back: what is
 * read must be the statement that was drawn. The saying is written apart from the grammar, so the
 * two check each other.
 */
class StatementsToPhrasesTest {

  private static final int PHRASES = 6_000;

  private record Case(String phrase, Statement statement) {}

  private record SaidUnit(Unit unit, String words) {}

  private static final List<SaidUnit> TORQUES =
      List.of(
          new SaidUnit(Unit.NEWTON_METRE, "newton metres"),
          new SaidUnit(Unit.POUND_FOOT, "foot pounds"),
          new SaidUnit(Unit.POUND_FOOT, "pound feet"),
          new SaidUnit(Unit.POUND_INCH, "inch pounds"),
          new SaidUnit(Unit.KILOGRAM_METRE, "kilogram metres"),
          new SaidUnit(Unit.UNSAID, ""),
          new SaidUnit(Unit.UNSAID, "newtons"),
          new SaidUnit(Unit.UNSAID, "pounds"));

  private static final List<SaidUnit> SMALL_VOLUMES =
      List.of(
          new SaidUnit(Unit.LITRE, "litres"),
          new SaidUnit(Unit.US_QUART, "u s quarts"),
          new SaidUnit(Unit.IMPERIAL_PINT, "imperial pints"),
          new SaidUnit(Unit.US_GALLON, "american gallons"),
          new SaidUnit(Unit.KILOGRAM, "kilos"),
          new SaidUnit(Unit.UNSAID, "quarts"),
          new SaidUnit(Unit.UNSAID, "pints"),
          new SaidUnit(Unit.UNSAID, ""));

  private final long seed = 20260302L;
  private final SplittableRandom random = new SplittableRandom(seed);
  private final SpokenNumbers numbers = new SpokenNumbers(random);
  private final Plan plan = DemoGrammar.PLAN;
  private final EntryGrammar grammar = DemoGrammar.GRAMMAR;

  @Test
  void everyStatementDrawnComesBackFromItsPhrase() {
    Map<String, Integer> kinds = new TreeMap<>();
    List<String> wrong = new ArrayList<>();
    for (int number = 0; number < PHRASES; number++) {
      Case drawn = draw();
      kinds.merge(drawn.statement().getClass().getSimpleName(), 1, Integer::sum);
      String phrase = drawn.phrase().strip().replaceAll("\\s+", " ");
      Statement read = grammar.read(phrase).map(Meaning::statement).orElse(null);
      if (!drawn.statement().equals(read)) {
        wrong.add(phrase + " -> " + read + " instead of " + drawn.statement());
      }
    }
    System.out.println("seed " + seed + ": " + PHRASES + " phrases, " + kinds);
    assertEquals(
        List.of(),
        wrong.stream().distinct().limit(20).toList(),
        () -> wrong.size() + " of " + PHRASES + ", seed " + seed);
    assertTrue(kinds.size() >= 11, kinds.toString());
  }

  private Case draw() {
    return switch (random.nextInt(13)) {
      case 0, 1 -> drained();
      case 2 -> filled();
      case 3, 4 -> thingsOff();
      case 5 -> groupMoved();
      case 6, 7 -> torqued();
      case 8 -> otherTightness();
      case 9 -> step();
      case 10 -> part();
      case 11 -> reading();
      default -> small();
    };
  }

  // ---- one writer for each sort of statement

  private record SaidAmount(Amount amount, String words, boolean bare) {}

  private SaidAmount volume() {
    if (random.nextInt(3) == 0) {
      int value = 1 + random.nextInt(9_999);
      boolean bare = random.nextInt(6) == 0;
      Unit unit = bare ? Unit.UNSAID : Unit.MILLILITRE;
      String words =
          numbers.whole(value) + (bare ? "" : pick(List.of(" mils", " millilitres", " c c")));
      return new SaidAmount(new Amount(BigDecimal.valueOf(value), unit), words, bare);
    }
    SaidUnit unit = pick(SMALL_VOLUMES);
    BigDecimal value = decimal(1 + random.nextInt(99), random.nextInt(3));
    return new SaidAmount(
        new Amount(value, unit.unit()),
        numbers.small(value) + " " + unit.words(),
        unit.words().isEmpty());
  }

  private BigDecimal decimal(int whole, int decimals) {
    return switch (decimals) {
      case 0 -> BigDecimal.valueOf(whole);
      case 1 -> BigDecimal.valueOf(whole * 10L + random.nextInt(10), 1);
      default -> BigDecimal.valueOf(whole * 100L + random.nextInt(100), 2);
    };
  }

  private Case drained() {
    SaidAmount volume = volume();
    Plan.FluidSystem system = pick(plan.systems());
    Plan.Point point = pick(system.drains());
    boolean about = random.nextInt(4) == 0;
    String place = pick(List.of(" from the ", " out of the ", " from ")) + name(point);
    String amount = (about ? "about " : "") + volume.words();
    String phrase =
        random.nextBoolean() || volume.bare()
            ? pick(List.of("drained ", "drained off ", "let out ")) + amount + place
            : amount + place;
    return new Case(
        phrase,
        new FluidMoved(
            FluidMove.OUT,
            volume.amount(),
            about,
            null,
            null,
            system.id(),
            point.id(),
            null,
            null,
            null));
  }

  private Case filled() {
    SaidAmount volume = volume();
    Plan.Fluid fluid = pick(plan.fluids());
    Plan.FluidSystem system = pick(plan.systems());
    Plan.Point point = pick(system.fills());
    String phrase =
        pick(List.of("poured in ", "added ", "topped up with ", "filled "))
            + volume.words()
            + " of "
            + name(fluid)
            + pick(List.of(" into the ", " to the "))
            + name(point);
    return new Case(
        phrase,
        new FluidMoved(
            FluidMove.IN,
            volume.amount(),
            false,
            fluid.id(),
            null,
            system.id(),
            point.id(),
            null,
            null,
            null));
  }

  private static final Map<Thing, String> NOUNS =
      Map.of(
          Thing.BOLT,
          "bolts",
          Thing.NUT,
          "nuts",
          Thing.SCREW,
          "screws",
          Thing.CLIP,
          "clips",
          Thing.CLAMP,
          "clamps");

  private static final Map<Integer, String> HEADS =
      Map.of(
          8,
          "eights",
          10,
          "tens",
          12,
          "twelves",
          13,
          "thirteens",
          14,
          "fourteens",
          17,
          "seventeens",
          19,
          "nineteens",
          22,
          "twenty twos");

  private Case thingsOff() {
    Thing thing = pick(NOUNS.keySet().stream().sorted().toList());
    int head = pick(HEADS.keySet().stream().sorted().toList());
    int count = 2 + random.nextInt(18);
    Named place = pick(plan.places());
    boolean off = random.nextBoolean();
    String move =
        (off ? pick(List.of(" off the ", " out of the ", " from the ")) : " back on the ")
            + name(place);
    String said = numbers.toNinetyNine(count);
    String noun = NOUNS.getOrDefault(thing, "");
    String millimetre = numbers.toNinetyNine(head) + " millimetre";
    boolean nameless = random.nextInt(3) == 0;
    String what =
        nameless
            ? said + " " + HEADS.get(head)
            : pick(
                List.of(
                    said + " " + noun + " " + HEADS.get(head),
                    said + " " + noun + " all " + HEADS.get(head),
                    said + " " + noun + " " + millimetre,
                    said + " " + millimetre + " " + noun));
    return new Case(
        what + move,
        new ItemsMoved(
            off ? ItemMove.OFF : ItemMove.ON,
            null,
            nameless ? null : thing,
            count,
            false,
            Amount.of(Integer.toString(head), Unit.MILLIMETRE),
            place.id(),
            null));
  }

  private List<Item> groups() {
    return plan.items().stream().filter(item -> item.count() > 1 && !item.temporary()).toList();
  }

  private Case groupMoved() {
    Item item = pick(groups());
    int count = 2 + random.nextInt(98);
    String said = numbers.toNinetyNine(count);
    String name = name(item);
    return switch (random.nextInt(6)) {
      case 0 -> new Case(said + " " + name + " off", moved(ItemMove.OFF, item, count, false));
      case 1 -> new Case("took off the " + name, moved(ItemMove.OFF, item, null, false));
      case 2 -> new Case("all " + name + " back on", moved(ItemMove.ON, item, null, true));
      case 3 ->
          new Case("all " + said + " " + name + " back in", moved(ItemMove.ON, item, count, true));
      case 4 ->
          new Case(said + " " + name + " missing", moved(ItemMove.MISSING, item, count, false));
      default -> new Case("put the " + name + " back in", moved(ItemMove.ON, item, null, false));
    };
  }

  private static ItemsMoved moved(ItemMove move, Item item, @Nullable Integer count, boolean lump) {
    return new ItemsMoved(move, item.id(), null, count, lump, null, null, null);
  }

  private Case torqued() {
    Item item = pick(plan.items().stream().filter(each -> each.torque() != null).toList());
    SaidUnit unit = pick(TORQUES);
    int value = 1 + random.nextInt(999);
    String words = numbers.whole(value) + " " + unit.words();
    Integer pass = random.nextInt(4) == 0 ? 1 + random.nextInt(3) : null;
    String passWords =
        pass == null ? "" : List.of(" first pass", " second pass", " third pass").get(pass - 1);
    String name = name(item);
    String phrase =
        pick(
            List.of(
                "torqued the " + name + passWords + " to " + words,
                name + passWords + " to " + words,
                "the " + name + " to " + words + passWords,
                name + " torqued to " + words + passWords));
    return new Case(
        phrase,
        new Tightened(
            TightnessState.TORQUED,
            item.id(),
            null,
            null,
            null,
            false,
            new Amount(BigDecimal.valueOf(value), unit.unit()),
            pass,
            null,
            null,
            null,
            null));
  }

  private Case otherTightness() {
    Item item = pick(plan.items().stream().filter(each -> each.torque() != null).toList());
    String name = name(item);
    return switch (random.nextInt(4)) {
      case 0 -> new Case(name + " hand tight", tight(TightnessState.HAND_TIGHT, item));
      case 1 -> new Case(name + " started by hand", tight(TightnessState.STARTED, item));
      case 2 -> new Case(name + " tight by feel", tight(TightnessState.BY_FEEL, item));
      default -> new Case("checked the " + name, tight(TightnessState.CHECKED, item));
    };
  }

  private static Tightened tight(TightnessState state, Item item) {
    return new Tightened(
        state, item.id(), null, null, null, false, null, null, null, null, null, null);
  }

  private Case step() {
    int number = random.nextInt(plan.steps().size());
    Plan.Step step = plan.steps().get(number);
    String name = random.nextInt(3) == 0 ? "step " + numbers.toNinetyNine(number + 1) : name(step);
    return switch (random.nextInt(4)) {
      case 0 -> new Case(name + " done", new Statement.StepMarked(step.id(), StepMark.DONE));
      case 1 -> new Case("starting " + name, new Statement.StepMarked(step.id(), StepMark.STARTED));
      case 2 ->
          new Case("skipped the " + name, new Statement.StepMarked(step.id(), StepMark.SKIPPED));
      default ->
          new Case(name + " done again", new Statement.StepMarked(step.id(), StepMark.REDONE));
    };
  }

  private Case part() {
    Item item =
        pick(
            plan.items().stream()
                .filter(
                    each -> each.thing() == Thing.PART && each.count() == 1 && !each.temporary())
                .toList());
    String name = name(item);
    return switch (random.nextInt(5)) {
      case 0 ->
          new Case("new " + name + " in", new Statement.PartFitted(item.id(), PartCondition.NEW));
      case 1 ->
          new Case(
              "old " + name + " back on", new Statement.PartFitted(item.id(), PartCondition.OLD));
      case 2 ->
          new Case(
              "carried over the " + name,
              new Statement.PartFitted(item.id(), PartCondition.CARRIED_OVER));
      case 3 -> new Case("photo of the " + name, new Statement.PhotoMarked(item.id()));
      default -> new Case("that's the " + name + " off", moved(ItemMove.OFF, item, null, false));
    };
  }

  private Case reading() {
    return switch (random.nextInt(4)) {
      case 0 -> {
        int degrees = 1 + random.nextInt(99);
        yield new Case(
            "temperature minus " + numbers.toNinetyNine(degrees) + " degrees celsius",
            measured(Measure.TEMPERATURE, -degrees, Unit.CELSIUS));
      }
      case 1 -> {
        int speed = 400 + random.nextInt(4_000);
        yield new Case(
            "engine speed " + numbers.whole(speed) + " revs",
            measured(Measure.SPEED, speed, Unit.RPM));
      }
      case 2 -> {
        int pounds = 1 + random.nextInt(300);
        yield new Case(
            "pressure " + numbers.whole(pounds) + " p s i",
            measured(Measure.PRESSURE, pounds, Unit.PSI));
      }
      default -> {
        BigDecimal gap = decimal(random.nextInt(3), 2);
        yield new Case(
            "drive belt gap " + numbers.small(gap) + " millimetres",
            new Measured(
                Measure.GAP,
                new Amount(gap, Unit.MILLIMETRE),
                null,
                null,
                "drive-belt",
                null,
                null));
      }
    };
  }

  private static Measured measured(Measure measure, int value, Unit unit) {
    return new Measured(
        measure, new Amount(BigDecimal.valueOf(value), unit), null, null, null, null, null);
  }

  private Case small() {
    Item temporary = pick(plan.items().stream().filter(Item::temporary).toList());
    Plan.Person person = pick(plan.people());
    Item marked = pick(plan.items().stream().filter(item -> item.alignment() != null).toList());
    int hour = 1 + random.nextInt(12);
    int minutes = 2 + random.nextInt(58);
    return switch (random.nextInt(5)) {
      case 0 ->
          new Case(
              "put the " + name(temporary) + " in",
              new Statement.TemporaryMoved(true, temporary.id(), null));
      case 1 ->
          new Case(
              name(temporary) + " out", new Statement.TemporaryMoved(false, temporary.id(), null));
      case 2 -> new Case(name(person) + " speaking", new Statement.SpeakerIs(person.id()));
      case 3 ->
          new Case(
              name(marked) + " at " + numbers.toNinetyNine(hour) + " o'clock",
              new Statement.Aligned(
                  marked.id(), Amount.of(Integer.toString(hour % 12 * 30), Unit.DEGREE)));
      default ->
          new Case(
              "that was " + numbers.toNinetyNine(minutes) + " minutes ago",
              new Statement.WasEarlier(Amount.of(Integer.toString(minutes), Unit.MINUTE)));
    };
  }

  private String name(Named thing) {
    return pick(thing.say());
  }

  private <T> T pick(List<T> some) {
    return some.get(random.nextInt(some.size()));
  }
}
