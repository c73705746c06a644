package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tallyback.app.LoadedPlan;
import tallyback.app.TypedJob;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

class TearDownPlanTest {

  private static final Plan NAMES = TypedJob.WITHOUT_PLAN.plan();

  private static TearDownPlan drawn(List<Entry> entries) {
    return TearDownPlan.of("job-1", NAMES, entries, TypedJob.WITHOUT_PLAN.lexicon());
  }

  private static Plan read(String text) {
    PlanReading reading = PlanReader.read("drawn.yaml", text);
    assertEquals(List.of(), reading.faults(), text);
    return reading.plan().orElseThrow();
  }

  private static Item item(Plan plan, String id) {
    return plan.item(id).orElseThrow(() -> new AssertionError(id + " not in " + plan.text()));
  }

  private static List<String> kinds(Outcome outcome) {
    return outcome.findings().stream().map(Finding::kind).sorted().toList();
  }

  private static final String PUMP =
      """
      battery earth lead off
      five bolts ten millimetre out of the belly pan
      took off the belly pan
      drained two point one litres from the block drain
      six bolts thirteen millimetre out of the coolant pump
      coolant pump off
      locking tool in
      new coolant pump in
      six bolts back on the coolant pump
      coolant pump bolts torqued to nineteen newton metres
      locking tool out
      poured in two point one litres of coolant
      belly pan back on
      five bolts back on the belly pan
      belly pan bolts tight by feel
      battery earth lead back on
      """;

  private static final String WHEEL =
      """
      five nuts nineteen millimetre off the wheels
      one wheels off
      two bolts seventeen millimetre out of the brake caliper
      brake caliper off
      two brake pads out
      two new brake pads in
      brake caliper back on
      two bolts back on the brake caliper
      torqued the brake caliper bolts to thirty five newton metres
      one wheels back on
      five nuts back on the wheels
      wheels nuts torqued to one hundred newton metres
      """;

  private static final String TWO_SIZES =
      """
      four bolts thirteen millimetre out of the engine block
      two bolts ten millimetre out of the engine block
      alternator connector off
      alternator connector back on
      two bolts ten millimetre back on the engine block
      four bolts thirteen millimetre back on the engine block
      """;

  private static final String NUMBERED =
      """
      three bolts twelve millimetre out of place one
      four nuts out of place twenty six
      name place one: filter bracket
      name place twenty six: guard rail
      four nuts back on place twenty six
      three bolts back on place one
      torqued the nuts at place twenty six to nine newton metres
      place one bolts tight by feel
      """;

  /** What the job itself is found to have is truly open; the plan drawn from it adds nothing. */
  @TestFactory
  Stream<DynamicTest> thePlanReconcilesTheJobItCameFromWithNothingMore() {
    return Stream.of(PUMP, WHEEL, TWO_SIZES, NUMBERED)
        .map(
            lines ->
                DynamicTest.dynamicTest(
                    lines.lines().findFirst().orElseThrow(),
                    () -> {
                      List<Entry> entries = TypedJob.withoutPlan(lines);
                      TearDownPlan drawn = drawn(entries);
                      Outcome again = Reconciler.reconcile(read(drawn.text()), entries);
                      boolean sizes = lines.equals(TWO_SIZES);
                      assertEquals(
                          sizes ? List.of("tightness-unsaid", "tightness-unsaid") : List.of(),
                          kinds(again),
                          drawn.text());
                      assertEquals(List.of(), drawn.open());
                      assertFalse(drawn.text().contains("OPEN"), drawn.text());
                    }));
  }

  /** Somebody must be able to speak with it: its names are told apart and can be pronounced. */
  @TestFactory
  Stream<DynamicTest> thePlanCanBeSpokenWith() {
    return Stream.of(PUMP, WHEEL, TWO_SIZES, NUMBERED)
        .map(
            lines ->
                DynamicTest.dynamicTest(
                    lines.lines().findFirst().orElseThrow(),
                    () -> {
                      String text = drawn(TypedJob.withoutPlan(lines)).text();
                      assertEquals(List.of(), LoadedPlan.of("drawn.yaml", text).warnings(), text);
                    }));
  }

  @Test
  void countsHeadsPlacesAndOrderAreThoseOfTheTearDown() {
    Plan plan = read(drawn(TypedJob.withoutPlan(PUMP)).text());
    Item bolts = item(plan, "coolant-pump-bolts");
    assertEquals(6, bolts.count());
    assertEquals("13 mm", String.valueOf(bolts.head()));
    assertEquals("coolant-pump", bolts.of());
    assertEquals(Statement.Thing.BOLT, bolts.thing());
    assertTrue(item(plan, "locking-tool").temporary());
    assertEquals(
        List.of(
            "remove battery earth lead",
            "remove belly pan",
            "remove coolant pump",
            "put in locking tool",
            "take out locking tool",
            "fit coolant pump",
            "fit belly pan",
            "fit battery earth lead"),
        plan.steps().stream().map(Plan.Step::label).toList());
    assertEquals(
        List.of("coolant-pump", "coolant-pump-bolts"),
        plan.step("fit-coolant-pump").orElseThrow().on());
    // The tool was still in when the pump went on, so the pump does not need it out.
    assertEquals(List.of(), plan.step("fit-coolant-pump").orElseThrow().needs());
    assertEquals(
        List.of("fit-coolant-pump", "take-out-locking-tool"),
        plan.step("fit-belly-pan").orElseThrow().needs().stream().sorted().toList());
  }

  @Test
  void aTorqueThatWasSaidIsRemarkedAndNeverWanted() {
    String text = drawn(TypedJob.withoutPlan(PUMP)).text();
    assertTrue(read(text).items().stream().allMatch(item -> item.torque() == null), text);
    assertTrue(text.contains("# told: 09:10 torqued coolant pump bolts · 19 N·m\n"), text);
    Plan plan = read(text);
    assertTrue(plan.leavesOpen("coolant-pump-bolts", "torque"), text);
    assertTrue(
        plan.systems().stream()
            .allMatch(
                system -> system.capacity() == null && plan.leavesOpen(system.id(), "capacity")),
        text);
    assertTrue(text.contains("# share: 2.1 L came out in this job\n"), text);
    assertTrue(text.contains("# renew: true, if your manual asks for a new one"), text);
  }

  @Test
  void aPlaceIsCalledByTheNameItWasGivenAfterwards() {
    Plan plan = read(drawn(TypedJob.withoutPlan(NUMBERED)).text());
    assertEquals("filter bracket bolts", item(plan, "place-1-bolts").label());
    assertEquals("guard rail", plan.label("place-26"));
  }

  @Test
  void anUnnamedPlaceIsAsked() {
    TearDownPlan drawn = drawn(TypedJob.withoutPlan("two bolts out of place four"));
    assertEquals(
        List.of("place four: what is it called? Say \"name place four\" and then its name"),
        drawn.open());
  }

  @Test
  void whatIsStillOffIsFoundAndTheReverseOrderIsAChain() {
    List<Entry> entries =
        TypedJob.withoutPlan(
            """
            belly pan off
            belt guard off
            drive belt off
            """);
    TearDownPlan drawn = drawn(entries);
    Plan plan = read(drawn.text());
    assertEquals(List.of(), drawn.open());
    assertEquals(List.of("fit-drive-belt"), plan.step("fit-belt-guard").orElseThrow().needs());
    assertEquals(List.of("fit-belt-guard"), plan.step("fit-belly-pan").orElseThrow().needs());
    assertEquals(
        kinds(Reconciler.reconcile(NAMES, entries)), kinds(Reconciler.reconcile(plan, entries)));
  }

  @Test
  void aNumberThatWasNotSaidIsAskedAndNotGuessed() {
    TearDownPlan drawn = drawn(TypedJob.withoutPlan("the belly pan bolts off\nbelly pan off"));
    assertEquals(
        List.of("belly pan bolts: how many? Said to be off without a number"), drawn.open());
    String open = "# count: OPEN. belly pan bolts: how many? Said to be off without a number\n";
    assertTrue(drawn.text().contains(open), drawn.text());
    assertFalse(drawn.text().contains("\n    count:"), drawn.text());
  }

  @Test
  void numbersThatContradictEachOtherAreAsked() {
    List<Entry> entries = new ArrayList<>(TypedJob.withoutPlan("six bolts out of the belly pan"));
    Entry off = entries.get(1);
    entries.add(
        new Entry(
            "later",
            off.job(),
            off.seq() + 1,
            off.happenedAt().plusSeconds(60),
            off.recordedAt().plusSeconds(60),
            off.zone(),
            off.actor(),
            off.device(),
            off.source(),
            off.certainty(),
            "seven bolts back on the belly pan",
            null,
            new Statement.ItemsMoved(
                Statement.ItemMove.ON,
                null,
                Statement.Thing.BOLT,
                7,
                false,
                null,
                "belly-pan",
                null)));
    TearDownPlan drawn = drawn(entries);
    assertEquals(List.of("belly pan bolts: how many? 6 came off and 7 went back"), drawn.open());
    assertFalse(drawn.text().contains("\n    count:"), drawn.text());
  }

  @Test
  void withTwoSizesThereIsNoGuessingWhichWereMeant() {
    TearDownPlan drawn =
        drawn(
            TypedJob.withoutPlan(
                """
                four bolts thirteen millimetre out of the engine block
                two bolts ten millimetre out of the engine block
                six bolts back on the engine block
                """));
    assertEquals(
        List.of("which are meant? \"six bolts back on the engine block\", 09:03"), drawn.open());
  }

  /** The plan of the demo has all its figures from somebody who read the manual: they stay. */
  @Test
  void theDemoJobsPlanKeepsItsFiguresAndFindsTheSameFaults() throws IOException {
    LoadedPlan loaded = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    List<Entry> entries =
        TypedJob.of(
            loaded,
            """
            six splash guard bolts off
            five belly pan bolts off
            four splash guard bolts back on
            outlet nuts to nineteen newton metres
            three bolts twelve millimetre out of the front frame
            three bolts back on the front frame
            """);
    TearDownPlan drawn = TearDownPlan.of("job-1", loaded.plan(), entries, loaded.lexicon());
    Plan plan = read(drawn.text());
    assertEquals(loaded.plan().items(), plan.items().subList(0, loaded.plan().items().size()));
    assertEquals(loaded.plan().limits(), plan.limits());
    assertEquals(3, item(plan, "front-frame-bolts").count());
    assertNull(item(plan, "front-frame-bolts").torque());
    List<String> before = kinds(Reconciler.reconcile(loaded.plan(), entries));
    List<String> after = new ArrayList<>(kinds(Reconciler.reconcile(plan, entries)));
    for (String kind : before) {
      after.remove(kind);
    }
    assertEquals(List.of(), after, drawn.text());
  }

  /**
   * Whatever is taken off stands in the plan, however the job goes. Seeded, the seed is printed.
   */
  @Test
  void everythingThatCameOffStandsInThePlan() {
    for (long seed = 1; seed <= 40; seed++) {
      List<Entry> entries = RandomTearDown.of(NAMES, new SplittableRandom(seed), 30);
      Plan plan = read(drawn(entries).text());
      for (Entry entry : entries) {
        if (entry.statement() instanceof Statement.ItemsMoved moved) {
          String message = "seed " + seed + ": " + moved;
          boolean there =
              moved.item() != null
                  ? plan.item(moved.item()).isPresent()
                  : plan.items().stream()
                      .anyMatch(
                          item ->
                              String.valueOf(moved.place()).equals(item.of())
                                  && item.thing() == moved.thing()
                                  && (moved.headSize() == null
                                      || moved.headSize().equals(item.head())));
          assertTrue(there, message);
        }
      }
      for (String id : plan.items().stream().map(Item::id).toList()) {
        assertTrue(plan.steps().stream().anyMatch(step -> step.on().contains(id)), seed + " " + id);
        assertTrue(
            plan.steps().stream().anyMatch(step -> step.off().contains(id)), seed + " " + id);
      }
    }
  }
}
