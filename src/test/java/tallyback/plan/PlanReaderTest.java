package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Unit;
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
import tallyback.plan.Plan.Person;
import tallyback.plan.Plan.Place;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.ThreadedInto;
import tallyback.plan.Plan.Torque;

/** What a right plan becomes. */
class PlanReaderTest {

  private static final String HEAD = "tallyback-plan: 1\nname: a job\n";

  private static Plan plan(String text) {
    PlanReading reading = PlanReader.read("p.yaml", text);
    assertEquals(List.of(), reading.faults().stream().map(PlanFault::text).toList());
    return reading.plan().orElseThrow();
  }

  private static Item item(String fields) {
    return plan(HEAD + "items:\n  - {say: thing, " + fields + "}\n").items().get(0);
  }

  private static Torque torque(String fields) {
    return Objects.requireNonNull(
        item("thing: nut, torque: {" + fields + ", tolerance-from: p. 1}").torque());
  }

  @Test
  void aPlanWithNothingButANameIsLegal() {
    Plan plan = plan("tallyback-plan: 1\nname: look at the brakes\n");

    assertEquals("look at the brakes", plan.name());
    assertEquals(
        new Machine(
            "machine without a name",
            null,
            "left and right as seen from the seat, looking forward"),
        plan.machine());
    assertEquals(List.of(), plan.named());
  }

  @Test
  void everyFieldArrivesInThePlan() {
    Plan plan =
        plan(
            """
            tallyback-plan: 1
            name: hub service
            machine: {name: Brindlow Nine, serial: 0047, sides: from the front}
            people:
              - {id: ann, say: [anna, ann]}
            fluids:
              - {id: mix, say: [coolant], grade: blue, form: premix}
            systems:
              - id: cooling
                say: [cooling system]
                fluid: mix
                capacity: 6.40 L
                before: 6 L
                matters: 300 mL
                drains: [{id: tap, say: [tap], share: 2.1 L, plug: plug}]
                fills: [{id: neck, say: [neck]}]
                marks: [{id: low, say: [low mark], cold: true}]
            places:
              - {id: block, say: [engine block]}
            items:
              - id: plug
                say: [block plug, plug]
                thing: plug
                count: 2
                of: block
                thread: M8x1.25
                head: 13 mm
                drive: hex
                length: 35.0 mm
                grade: 10.9
                stretch: true
                renew: true
                torque:
                  value: 24.0 N·m
                  tolerance: {plus: 2 N·m, minus: 1.5 N·m}
                  tolerance-from: manual p. 3
                  passes: 2
                  angle: 90°
                  threads: thread-lock
                alignment: {angle: 90°, tolerance: ±15°}
              - {id: pin, say: [locking pin], temporary: true}
              - {id: pulley, say: [pulley], carry-over: true}
            steps:
              - {id: strip, say: [strip], off: [plug, pulley], on: [pin], minutes: 20}
              - id: fit
                say: [fit]
                off: [pin]
                on: [plug, pulley]
                needs: [strip]
                states: [cold, battery-off]
                cautions: ["Stop it first: let it cool."]
            instruments:
              - {id: jug, say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 2.5 %}
              - {id: wrench, say: [wrench], kind: wrench, from: 5 N·m, to: 25 N·m, tolerance: ±1 N·m, calibrated: 2026-02-12}
            limits:
              - {subject: cooling, measure: temperature, from: 80 °C, to: 98 °C}
            pronunciations:
              grommet: [G R AA M AH T, G R AH M AH T]
            """);

    assertEquals(new Machine("Brindlow Nine", "0047", "from the front"), plan.machine());
    assertEquals(List.of(new Person("ann", List.of("anna", "ann"))), plan.people());
    assertEquals(
        List.of(new Fluid("mix", List.of("coolant"), "blue", FluidForm.PREMIX, null, null, null)),
        plan.fluids());
    assertEquals(
        List.of(
            new FluidSystem(
                "cooling",
                List.of("cooling system"),
                "mix",
                Amount.of("6.40", Unit.LITRE),
                Amount.of("6", Unit.LITRE),
                Amount.of("300", Unit.MILLILITRE),
                null,
                null,
                List.of(new Point("tap", List.of("tap"), Amount.of("2.1", Unit.LITRE), "plug")),
                List.of(new Point("neck", List.of("neck"), null, null)),
                List.of(new LevelMark("low", List.of("low mark"), true)))),
        plan.systems());
    assertEquals(List.of(new Place("block", List.of("engine block"))), plan.places());
    assertEquals(
        new Item(
            "plug",
            List.of("block plug", "plug"),
            Thing.PLUG,
            2,
            "block",
            "M8x1.25",
            Amount.of("13", Unit.MILLIMETRE),
            "hex",
            Amount.of("35.0", Unit.MILLIMETRE),
            "10.9",
            new Torque(
                Amount.of("24.0", Unit.NEWTON_METRE),
                Amount.of("2", Unit.NEWTON_METRE),
                Amount.of("1.5", Unit.NEWTON_METRE),
                "manual p. 3",
                2,
                Amount.of("90", Unit.DEGREE),
                ThreadState.THREAD_LOCK,
                null,
                false,
                false,
                null),
            true,
            true,
            false,
            false,
            new Alignment(Amount.of("90", Unit.DEGREE), Amount.of("15", Unit.DEGREE))),
        plan.items().get(0));
    assertTrue(plan.items().get(1).temporary());
    assertTrue(plan.items().get(2).carryOver());
    assertEquals(
        new Step(
            "fit",
            List.of("fit"),
            List.of("pin"),
            List.of("plug", "pulley"),
            List.of("strip"),
            List.of(MachineState.COLD, MachineState.BATTERY_OFF),
            null,
            List.of("Stop it first: let it cool.")),
        plan.steps().get(1));
    assertEquals(20, plan.steps().get(0).minutes());
    assertEquals(
        List.of(
            new Instrument(
                "jug",
                List.of("big jug"),
                InstrumentKind.VESSEL,
                Unit.LITRE,
                Amount.of("0.5", Unit.LITRE),
                Amount.of("5", Unit.LITRE),
                new BigDecimal("2.5"),
                null,
                null,
                null),
            new Instrument(
                "wrench",
                List.of("wrench"),
                InstrumentKind.WRENCH,
                Unit.NEWTON_METRE,
                Amount.of("5", Unit.NEWTON_METRE),
                Amount.of("25", Unit.NEWTON_METRE),
                null,
                Amount.of("1", Unit.NEWTON_METRE),
                "2026-02-12",
                null)),
        plan.instruments());
    assertEquals(
        List.of(
            new Limit(
                "cooling",
                Measure.TEMPERATURE,
                Amount.of("80", Unit.CELSIUS),
                Amount.of("98", Unit.CELSIUS),
                null,
                null)),
        plan.limits());
    assertEquals(
        Map.of("grommet", List.of("G R AA M AH T", "G R AH M AH T")), plan.pronunciations());
  }

  @Test
  void whatIsOnlySometimesGivenIsReadToo() {
    Plan plan =
        plan(
            HEAD
                + """
                fluids:
                  - {id: mix, say: [coolant], grade: blue, base: propylene-glycol, strength: 45 %}
                systems:
                  - {id: cooling, say: [cooling], fluid: mix, dry-parts: 0.4 L, old-at-most: 10 %}
                items:
                  - id: nut
                    say: [hub nut]
                    thing: nut
                    torque:
                      value: 90 N·m
                      tolerance: 5 %
                      tolerance-from: manual p. 9
                      into: steel
                      sequence: true
                      again-after-heat: true
                      again-after: 50 km
                instruments:
                  - id: crowfoot
                    say: [crowfoot]
                    kind: wrench
                    from: 5 N·m
                    to: 100 N·m
                    tolerance: 4 %
                    adapter: {wrench: 300 mm, reach: 50 mm, angle: 45°, said: at-wrench}
                limits:
                  - {subject: cooling, measure: pressure, to: 90 kPa, drop: 3 kPa, minutes: 10}
                """);

    assertEquals(FluidBase.PROPYLENE_GLYCOL, plan.fluids().get(0).base());
    assertEquals(Amount.of("45", Unit.PERCENT), plan.fluids().get(0).strength());
    assertEquals(Amount.of("0.4", Unit.LITRE), plan.systems().get(0).dryParts());
    assertEquals(Amount.of("10", Unit.PERCENT), plan.systems().get(0).oldAtMost());
    Torque torque = plan.items().get(0).torque();
    assertEquals(ThreadedInto.STEEL, torque == null ? null : torque.into());
    assertTrue(torque != null && torque.sequence() && torque.againAfterHeat());
    assertEquals(Amount.of("50", Unit.KILOMETRE), torque == null ? null : torque.againAfter());
    assertEquals(
        new Adapter(
            Amount.of("300", Unit.MILLIMETRE),
            Amount.of("50", Unit.MILLIMETRE),
            Amount.of("45", Unit.DEGREE),
            TorqueAt.AT_WRENCH),
        plan.instruments().get(0).adapter());
    assertEquals(Amount.of("3", Unit.KILOPASCAL), plan.limits().get(0).drop());
    assertEquals(10, plan.limits().get(0).minutes());
  }

  @Test
  void jsonIsReadTheSameWay() {
    Plan yaml = plan(HEAD + "items:\n  - {say: [hub nut], thing: nut, head: 19 mm}\n");
    Plan json =
        plan(
            """
            {
            \t"tallyback-plan": 1,
            \t"name": "a job",
            \t"items": [
            \t\t{"say": ["hub nut"], "thing": "nut", "head": "19 mm"}
            \t]
            }
            """);

    assertEquals(yaml.items(), json.items());
  }

  @Test
  void anIdIsMadeOfTheFirstSpokenName() {
    assertEquals(
        "drivers-side-pump-bolts",
        plan(HEAD + "items:\n  - say: [driver's side pump bolts, near ones]\n")
            .items()
            .get(0)
            .id());
  }

  @Test
  void aSingleTextCountsAsAListOfOne() {
    assertEquals(List.of("thing"), item("count: 1").say());
  }

  @Test
  void whatIsLeftOutIsUnknownAndCountsOnce() {
    Item bare = item("count: 1");

    assertEquals(
        new Item(
            "thing",
            List.of("thing"),
            Thing.PART,
            1,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            false,
            false,
            false,
            false,
            null),
        bare);
  }

  @Test
  void aToleranceInPercentBecomesAnExactAmountInTheUnitOfTheValue() {
    Torque torque = torque("value: 48.5 lbf·ft, tolerance: 7.5 %");

    assertEquals(Amount.of("3.6375", Unit.POUND_FOOT), torque.plus());
    assertEquals(torque.plus(), torque.minus());
  }

  @Test
  void plusOrMinusMayBeWrittenInThreeWays() {
    for (String written : List.of("±2 N·m", "+/- 2 N·m", "2 N·m")) {
      Torque torque = torque("value: 24 Nm, tolerance: " + written);
      assertEquals(Amount.of("2", Unit.NEWTON_METRE), torque.plus(), written);
    }
  }

  @Test
  void aPercentageOfARoundValueStaysAPlainNumber() {
    assertEquals("10 N·m", torque("value: 100 N·m, tolerance: 10 %").plus().toString());
  }

  @Test
  void theTextIsKeptWithoutByteOrderMarkAndItsHashIsOverThatText() {
    Plan plain = plan(HEAD);
    Plan marked = plan("\uFEFF" + HEAD);

    assertEquals(HEAD, marked.text());
    assertEquals(plain.hash(), marked.hash());
    // printf 'tallyback-plan: 1\nname: a job\n' | sha256sum
    assertEquals(HASH_OF_HEAD, plain.hash());
  }

  private static final String HASH_OF_HEAD =
      "1e5cecd35c32b6ee07888eb8858a1ed709f3611a26b17dde60323a6df5702ad1";

  @Test
  void windowsLineEndsAreFine() {
    assertEquals("a job", plan("tallyback-plan: 1\r\nname: a job\r\n").name());
  }

  @Test
  void aPlanIsReadAgainFromItsFrozenText() {
    Plan plan = plan(HEAD + "items:\n  - say: [hub nut]\n");

    assertEquals(plan, plan(plan.text()));
  }

  @Test
  void sharedValuesMayBeWrittenOnceWithAnAnchor() {
    List<Item> items =
        plan(HEAD
                + """
                    items:
                      - say: [hub nut]
                        thing: nut
                        torque: &t {value: 24 N·m, tolerance: 5 %, tolerance-from: p. 2}
                      - say: [cap nut]
                        thing: nut
                        torque: *t
                    """)
            .items();

    assertEquals(items.get(0).torque(), items.get(1).torque());
  }

  @Test
  void aFoldedCautionIsOneLine() {
    assertEquals(
        List.of("Stop the engine. Let it cool."),
        plan(HEAD
                + "steps:\n  - say: [strip]\n    cautions:\n      - >\n        Stop the engine.\n        Let it cool.\n")
            .steps()
            .get(0)
            .cautions());
  }

  @Test
  void lookingUpIsByIdOverTheWholePlan() {
    Plan plan =
        plan(
            HEAD
                + """
                fluids: [{say: oil, grade: any}]
                systems: [{say: oil system, fluid: oil, drains: [{id: sump, say: sump}]}]
                steps: [{say: strip}]
                """);

    assertEquals("oil-system", plan.system("sump").orElseThrow().id());
    assertEquals("strip", plan.step("strip").orElseThrow().label());
    assertFalse(plan.find("nothing").isPresent());
  }
}
