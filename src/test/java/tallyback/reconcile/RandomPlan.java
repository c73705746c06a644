package tallyback.reconcile;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Adapter;
import tallyback.plan.Plan.Alignment;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidBase;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Machine;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;

/**
 * A random plan with a bit of everything: groups, parts, connectors, temporary items, one system,
 * some steps.
 */
final class RandomPlan {

  private static final Thing[] FASTENERS = {Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.CLIP};

  private final Random random;
  private final List<Item> items = new ArrayList<>();
  private final List<String> off = new ArrayList<>();
  private final List<String> on = new ArrayList<>();

  private RandomPlan(Random random) {
    this.random = random;
  }

  static Plan of(Random random) {
    return new RandomPlan(random).plan();
  }

  private Plan plan() {
    int groups = 2 + random.nextInt(5);
    for (int group = 0; group < groups; group++) {
      fasteners("group-" + group);
    }
    add(item("wheel-nuts", Thing.NUT, 5, againWarm(), false, false, false, null), true);
    lengths("short-bolts", "35");
    lengths("long-bolts", "70");
    add(item("cover", Thing.PART, 1, null, false, false, false, null), true);
    add(item("plug-lead", Thing.CONNECTOR, 1, null, false, false, false, null), true);
    add(item("water-hose", Thing.HOSE, 1, null, random.nextBoolean(), false, false, null), true);
    add(item("face-gasket", Thing.PART, 1, null, true, false, false, null), true);
    add(item("bracket", Thing.PART, 1, null, false, true, false, null), false);
    Alignment mark =
        new Alignment(degrees(30 * random.nextInt(12)), degrees(10 + random.nextInt(20)));
    if (random.nextBoolean()) {
      add(item("timing-belt", Thing.PART, 1, null, false, false, false, null), true);
    }
    if (random.nextBoolean()) {
      add(item("belt-guard", Thing.PART, 1, null, false, false, false, null), true);
    }
    if (random.nextBoolean()) {
      off.add(0, "earth-lead");
      items.add(item("earth-lead", Thing.CONNECTOR, 1, null, false, false, false, null));
    }
    add(item("valve", Thing.PART, 1, null, false, false, false, mark), true);
    items.add(item("lock-pin", Thing.PIN, 1, null, false, false, true, null));
    items.add(item("pliers", Thing.CLAMP, 2, null, false, false, true, null));
    return new Plan(
        "random",
        "",
        "",
        new Machine("invented", null, "as seen from the seat"),
        List.of(),
        List.of(
            coolant("coolant", "50"),
            coolant("thin-coolant", "10"),
            coolant("thick-coolant", "95"),
            new Fluid("gear-oil", List.of("gear oil"), "thick", null, null, null, null)),
        List.of(system()),
        List.of(),
        items,
        steps(),
        instruments(),
        List.of(
            new Limit(
                "cooling",
                Measure.PRESSURE,
                null,
                amount("120", Unit.KILOPASCAL),
                amount("2", Unit.KILOPASCAL),
                10),
            new Limit(
                "cooling",
                Measure.STRENGTH,
                amount("40", Unit.PERCENT),
                amount("60", Unit.PERCENT),
                null,
                null),
            new Limit(
                "cover",
                Measure.GAP,
                amount("1", Unit.MILLIMETRE),
                amount("2", Unit.MILLIMETRE),
                null,
                null)),
        Map.of());
  }

  private static Fluid coolant(String id, String percent) {
    return new Fluid(
        id,
        List.of(id.replace('-', ' ')),
        "blue",
        FluidForm.PREMIX,
        FluidBase.ETHYLENE_GLYCOL,
        amount(percent, Unit.PERCENT),
        null);
  }

  private void fasteners(String id) {
    boolean stretch = random.nextInt(5) == 0;
    Torque torque = random.nextInt(4) == 0 ? null : torque();
    Thing thing = FASTENERS[random.nextInt(FASTENERS.length)];
    Item item =
        new Item(
            id,
            List.of(id),
            thing,
            2 + random.nextInt(7),
            null,
            "M14",
            random.nextInt(4) == 0
                ? null
                : amount(String.valueOf(8 + random.nextInt(12)), Unit.MILLIMETRE),
            null,
            null,
            "8.8",
            torque,
            stretch,
            false,
            false,
            false,
            null);
    add(item, true);
  }

  private static Torque againWarm() {
    Amount five = amount("5", Unit.NEWTON_METRE);
    return new Torque(
        amount("90", Unit.NEWTON_METRE),
        five,
        five,
        "invented manual",
        1,
        null,
        null,
        null,
        false,
        true,
        null);
  }

  /** Two groups of one thread that differ in length only. */
  private void lengths(String id, String millimetres) {
    Item item =
        new Item(
            id,
            List.of(id.replace('-', ' ')),
            Thing.BOLT,
            2 + random.nextInt(5),
            null,
            "M8x1.25",
            amount("13", Unit.MILLIMETRE),
            null,
            amount(millimetres, Unit.MILLIMETRE),
            null,
            null,
            false,
            false,
            false,
            false,
            null);
    add(item, true);
  }

  private Torque torque() {
    int value = 10 + random.nextInt(60);
    Amount tolerance = amount(String.valueOf(1 + value / 20), Unit.NEWTON_METRE);
    return new Torque(
        amount(String.valueOf(value), Unit.NEWTON_METRE),
        tolerance,
        tolerance,
        "invented manual",
        1 + random.nextInt(2),
        random.nextInt(3) == 0 ? degrees(90) : null,
        null,
        null,
        false,
        false,
        null);
  }

  private void add(Item item, boolean comesOff) {
    items.add(item);
    on.add(item.id());
    if (comesOff) {
      off.add(item.id());
    }
  }

  private static Item item(
      String id,
      Thing thing,
      int count,
      @Nullable Torque torque,
      boolean renew,
      boolean carryOver,
      boolean temporary,
      @Nullable Alignment alignment) {
    return new Item(
        id,
        List.of(id.replace('-', ' ')),
        thing,
        count,
        null,
        null,
        null,
        null,
        null,
        null,
        torque,
        false,
        renew,
        carryOver,
        temporary,
        alignment);
  }

  private FluidSystem system() {
    return new FluidSystem(
        "cooling",
        List.of("cooling"),
        "coolant",
        amount("8.0", Unit.LITRE),
        null,
        null,
        null,
        amount("50", Unit.PERCENT),
        List.of(
            new Point("drain-a", List.of("drain a"), amount("3.0", Unit.LITRE), null),
            new Point("drain-b", List.of("drain b"), amount("2.0", Unit.LITRE), null)),
        List.of(),
        List.of(new LevelMark("cold-mark", List.of("cold mark"), true)));
  }

  private static List<Instrument> instruments() {
    return List.of(
        instrument("jug-a", InstrumentKind.VESSEL, Unit.LITRE, "0.1", "5", "5"),
        instrument("jug-b", InstrumentKind.VESSEL, Unit.LITRE, "0.1", "5", "5"),
        instrument("good-wrench", InstrumentKind.WRENCH, Unit.NEWTON_METRE, "1", "400", "4"),
        instrument("tiny-wrench", InstrumentKind.WRENCH, Unit.NEWTON_METRE, "1", "2", "4"),
        crowfoot(),
        instrument("tester", InstrumentKind.GAUGE, Unit.KILOPASCAL, "0", "250", "2"));
  }

  private static Instrument crowfoot() {
    Instrument wrench =
        instrument("crowfoot", InstrumentKind.WRENCH, Unit.NEWTON_METRE, "1", "400", "4");
    return new Instrument(
        wrench.id(),
        wrench.say(),
        wrench.kind(),
        wrench.unit(),
        wrench.from(),
        wrench.to(),
        wrench.tolerancePercent(),
        null,
        null,
        new Adapter(
            amount("300", Unit.MILLIMETRE), amount("50", Unit.MILLIMETRE), degrees(0), null));
  }

  private static Instrument instrument(
      String id, InstrumentKind kind, Unit unit, String from, String to, String percent) {
    return new Instrument(
        id,
        List.of(id.replace('-', ' ')),
        kind,
        unit,
        amount(from, unit),
        amount(to, unit),
        new BigDecimal(percent),
        null,
        null,
        null);
  }

  /**
   * Two or three steps that take apart, one that drains, two or three that put together, a test run
   * and a last look.
   */
  private List<Step> steps() {
    List<Step> steps = new ArrayList<>();
    int apart = 2 + random.nextInt(2);
    for (int part = 0; part < apart; part++) {
      EnumSet<MachineState> states =
          part == 0 ? EnumSet.of(MachineState.COLD) : EnumSet.of(MachineState.BATTERY_OFF);
      if (part > 1) {
        states = EnumSet.noneOf(MachineState.class);
      }
      List<String> goesIn = part == 0 ? List.of("lock-pin", "pliers") : List.of();
      steps.add(step("apart-" + part, share(off, part, apart), goesIn, needs(steps), states));
    }
    EnumSet<MachineState> none = EnumSet.noneOf(MachineState.class);
    steps.add(step("drain", List.of(), List.of(), needs(steps), none));
    int together = 2 + random.nextInt(2);
    for (int part = 0; part < together; part++) {
      List<String> comesOut = part == 0 ? List.of("lock-pin", "pliers") : List.of();
      steps.add(step("fit-" + part, comesOut, share(on, part, together), needs(steps), none));
    }
    if (items.stream().anyMatch(each -> each.id().equals("earth-lead"))) {
      steps.add(step("connect", List.of(), List.of("earth-lead"), needs(steps), none));
    }
    steps.add(step("run", List.of(), List.of(), needs(steps), EnumSet.of(MachineState.GUARDS_ON)));
    steps.add(step("look", List.of(), List.of(), needs(steps), EnumSet.of(MachineState.NO_LEAK)));
    return steps;
  }

  private static List<String> needs(List<Step> before) {
    return before.isEmpty() ? List.of() : List.of(before.get(before.size() - 1).id());
  }

  private static List<String> share(List<String> all, int part, int parts) {
    List<String> share = new ArrayList<>();
    for (int index = part; index < all.size(); index += parts) {
      share.add(all.get(index));
    }
    return share;
  }

  private static Step step(
      String id,
      List<String> off,
      List<String> on,
      List<String> needs,
      EnumSet<MachineState> states) {
    return new Step(id, List.of(id), off, on, needs, new ArrayList<>(states), null, List.of());
  }

  private static Amount amount(String value, Unit unit) {
    return Amount.of(value, unit);
  }

  private static Amount degrees(int degrees) {
    return Amount.of(String.valueOf(degrees), Unit.DEGREE);
  }
}
