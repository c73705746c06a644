package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a wrong plan is told, to the letter. Each test is named after the damage. */
class PlanFaultTest {

  private static final String HEAD = "tallyback-plan: 1\nname: a job\n";

  private static PlanReading reading(String text) {
    return PlanReader.read("p.yaml", text);
  }

  /** The faults of {@code HEAD} and what follows it, one a line. */
  private static String faults(String rest) {
    return told(reading(HEAD + rest));
  }

  private static String told(PlanReading reading) {
    assertTrue(reading.plan().isEmpty());
    return reading.faults().stream().map(PlanFault::text).collect(Collectors.joining("\n"));
  }

  private static String warnings(String rest) {
    PlanReading reading = reading(HEAD + rest);
    assertEquals(List.of(), reading.faults());
    return reading.warnings().stream().map(PlanFault::text).collect(Collectors.joining("\n"));
  }

  @TempDir Path folder;

  private String file(byte[] bytes) throws IOException {
    Path file = Files.write(folder.resolve("p.yaml"), bytes);
    return told(PlanReader.read(file)).replace(folder + "/", "");
  }

  // The file as a whole

  @Test
  void anEmptyFile() {
    assertEquals(
        "p.yaml: expected a plan, found an empty file; begin with the line \"tallyback-plan: 1\"",
        told(reading("")));
  }

  @Test
  void onlyComments() {
    assertEquals(
        "p.yaml: expected a plan, found an empty file; begin with the line \"tallyback-plan: 1\"",
        told(reading("# nothing\n")));
  }

  @Test
  void aPlainText() {
    assertEquals(
        "p.yaml:1:1: expected a Tallyback plan, found no field \"tallyback-plan\"; begin the file with the line \"tallyback-plan: 1\"",
        told(reading("just words\n")));
  }

  @Test
  void aListInPlaceOfAPlan() {
    assertEquals(
        "p.yaml:1:1: expected a Tallyback plan, found no field \"tallyback-plan\"; begin the file with the line \"tallyback-plan: 1\"",
        told(
            reading(
                """
            - one
            - two
            """)));
  }

  @Test
  void someOtherYaml() {
    assertEquals(
        "p.yaml:1:1: expected a Tallyback plan, found no field \"tallyback-plan\"; begin the file with the line \"tallyback-plan: 1\"",
        told(
            reading(
                """
            services:
              web: {image: x}
            """)));
  }

  @Test
  void headerForgotten() {
    assertEquals(
        """
        p.yaml:1:1: expected a Tallyback plan, found no field "tallyback-plan"; begin the file with the line "tallyback-plan: 1"
        p.yaml:2:1: itmes: expected one of the known fields, found the unknown field "itmes"; did you mean "items"?""",
        told(
            reading(
                """
            name: a job
            itmes: []
            """)));
  }

  @Test
  void headerNoNumber() {
    assertEquals(
        "p.yaml:1:17: tallyback-plan: expected the format number 1, found \"one\"; write \"tallyback-plan: 1\"",
        told(
            reading(
                """
            tallyback-plan: one
            name: a job
            """)));
  }

  @Test
  void newerFormat() {
    assertEquals(
        "p.yaml:1:17: tallyback-plan: expected plan format 1 or older, found format 2, from a newer Tallyback; read it with a Tallyback that is at least as new as the plan",
        told(
            reading(
                """
            tallyback-plan: 2
            name: a job
            sounds: []
            """)));
  }

  @Test
  void noName() {
    assertEquals(
        "p.yaml:1:1: name: expected this field, found nothing; add it, for example name: coolant pump and belt",
        told(reading("tallyback-plan: 1\n")));
  }

  @Test
  void aTabInTheIndentation() {
    assertEquals(
        "p.yaml:4:1: expected spaces, found a tab; YAML does not take tabs here: put spaces in its place",
        faults(
            """
            items:
            \t- say: [pin]
            """));
  }

  @Test
  void aBracketLeftOpen() {
    assertEquals(
        "p.yaml:4:1: expected YAML or JSON, found something else (expected the node content, but found '<stream end>'); look at this line and the one before it: indentation, quotes, brackets, colons",
        faults("items: [\n"));
  }

  @Test
  void aQuoteLeftOpen() {
    assertEquals(
        "p.yaml:4:1: expected YAML or JSON, found something else (found unexpected end of stream); look at this line and the one before it: indentation, quotes, brackets, colons",
        faults("people: \"\n"));
  }

  @Test
  void twoPlansInAFile() {
    assertEquals(
        "p.yaml:3:1: expected one plan in a file, found a second one; put it in a file of its own",
        told(
            reading(
                """
            tallyback-plan: 1
            name: one
            ---
            tallyback-plan: 1
            name: two
            """)));
  }

  @Test
  void anAliasWithoutAnchor() {
    assertEquals(
        "p.yaml:3:8: expected YAML or JSON, found something else (found undefined alias x); look at this line and the one before it: indentation, quotes, brackets, colons",
        faults("items: *x\n"));
  }

  @Test
  void unknownField() {
    assertEquals(
        "p.yaml:5:5: items.1.cuont: expected one of the known fields, found the unknown field \"cuont\"; did you mean \"count\"?",
        faults(
            """
            items:
              - say: [pump bolts]
                cuont: 6
            """));
  }

  @Test
  void unknownFieldFarFromAll() {
    assertEquals(
        "p.yaml:3:20: machine.colour: expected one of the known fields, found the unknown field \"colour\"; known here: name, serial, sides",
        faults("machine: {name: x, colour: red}\n"));
  }

  @Test
  void duplicateField() {
    assertEquals(
        "p.yaml:3:1: name: expected each field once, found the field again (first on line 2); keep one of the two",
        faults("name: another\n"));
  }

  @Test
  void fieldThatIsNoName() {
    assertEquals(
        "p.yaml: expected YAML or JSON, found something else (Non scalar key is detected but it is not configured to be allowed.); look at this line and the one before it: indentation, quotes, brackets, colons",
        faults(
            """
            ? [a, b]
            : 1
            """));
  }

  @Test
  void fieldWithoutValue() {
    assertEquals(
        "p.yaml:3:9: machine: expected a value, found nothing; fill it in, or take the line out",
        faults("machine:\n"));
  }

  @Test
  void wrongTypes() {
    assertEquals(
        """
        p.yaml:3:8: items: expected a list, found "5"; write it like lines that begin with "- "
        p.yaml:5:5: steps: expected fields in each entry of the list, found "strip"; write it like - say: [a name]
        p.yaml:6:10: machine: expected fields of its own, found a list; write it like machine: {name: maker and model}
        p.yaml:7:9: people: expected a list, found fields of its own; write it like lines that begin with "- "
        p.yaml:9:11: places.1.say: expected text in the list, found fields of its own; write it like say: [one, another]
        p.yaml:10:10: places.2.say: expected a list of texts, found fields of its own; write it like say: [one, another]""",
        faults(
            """
            items: 5
            steps:
              - strip
            machine: [a]
            people: {say: x}
            places:
              - say: [{a: b}]
              - say: {a: b}
            """));
  }

  @Test
  void flagInWords() {
    assertEquals(
        "p.yaml:4:25: items.1.renew: expected true or false, found \"yes\"; write it like renew: true",
        faults(
            """
            items:
              - {say: [pin], renew: yes}
            """));
  }

  @Test
  void negativeAndNoughtCounts() {
    assertEquals(
        """
        p.yaml:4:25: items.1.count: expected a whole number from 1 to 99, found "-2"; write it in digits, without quotes and without a unit
        p.yaml:5:25: items.2.count: expected a whole number from 1 to 99, found "0"; write it in digits, without quotes and without a unit
        p.yaml:6:26: items.3.count: expected a whole number from 1 to 99, found "2.5"; write it in digits, without quotes and without a unit
        p.yaml:7:26: items.4.count: expected a whole number from 1 to 99, found "4"; write it in digits, without quotes and without a unit
        p.yaml:8:27: items.5.count: expected a count from 1 to 99, found "100"; counts are spoken up to 99: split the group
        p.yaml:9:26: items.6.count: expected a whole number from 1 to 99, found "99999999999999999999"; write it in digits, without quotes and without a unit""",
        faults(
            """
            items:
              - {say: [pin], count: -2}
              - {say: [nut], count: 0}
              - {say: [clip], count: 2.5}
              - {say: [bolt], count: "4"}
              - {say: [screw], count: 100}
              - {say: [stud], count: 99999999999999999999}
            """));
  }

  @Test
  void unknownWord() {
    assertEquals(
        """
        p.yaml:4:25: items.1.thing: expected one of bolt, nut, screw, stud, washer, clip, clamp, plug, pin, connector, hose, part, found "blot"; did you mean "bolt"?
        p.yaml:6:35: steps.1.states: expected one of cold, hot, battery-off, battery-on, on-stands, on-wheels, chocked, key-out, implement-down, pressure-off, cap-open, cap-closed, guards-on, guards-off, turned-by-hand, running, stopped, heater-on, leak, no-leak, lamps-out, tools-out, bled, eyes-covered, ventilated, found "frozen"; pick one of them""",
        faults(
            """
            items:
              - {say: [pin], thing: blot}
            steps:
              - {say: [strip], states: [cold, frozen]}
            """));
  }

  @Test
  void severalLinesInAText() {
    assertEquals(
        "p.yaml:2:7: name: expected one line of text, found several lines; join the lines (use > in place of |)",
        told(
            reading(
                """
            tallyback-plan: 1
            name: |
              one
              two
            """)));
  }

  @Test
  void badIds() {
    assertEquals(
        "p.yaml:4:10: items.1.id: expected an id: lower-case letters and digits, joined by hyphens, found \"Pump Bolts\"; write it like pump-bolts",
        faults(
            """
            items:
              - {id: Pump Bolts, say: [pin]}
            """));
  }

  @Test
  void duplicateIds() {
    assertEquals(
        "p.yaml:6:10: items.hub.id: expected an id of its own, found \"hub\", which is already a place on line 4; give one of them another id (the field \"id\")",
        faults(
            """
            places:
              - say: [hub]
            items:
              - {id: hub, say: [hub nut]}
            """));
  }

  @Test
  void nothingToSay() {
    assertEquals(
        """
        p.yaml:4:5: items.pin.say: expected at least one spoken name, found none; add it, for example say: [pump bolts]
        p.yaml:5:20: items.nut.say: expected at least one spoken name, found none; add it, for example say: [pump bolts]""",
        faults(
            """
            items:
              - {id: pin}
              - {id: nut, say: []}
            """));
  }

  @Test
  void namesNobodyCanSay() {
    assertEquals(
        """
        p.yaml:4:11: items.1.say: expected a spoken name of one to five lower-case words, found "Pump"; use only lower-case letters and apostrophes, spelled as spoken
        p.yaml:5:11: items.2.say: expected a spoken name of one to five lower-case words, found "bolt 3"; spell numbers as words
        p.yaml:6:11: items.3.say: expected a spoken name of one to five lower-case words, found "one two three four five six"; use only lower-case letters and apostrophes, spelled as spoken
        p.yaml:7:11: items.4.say: expected a spoken name of one to five lower-case words, found "pump-bolts"; use only lower-case letters and apostrophes, spelled as spoken
        p.yaml:8:11: items.5.say: expected a spoken name of one to five lower-case words, found "mutter größe"; use only lower-case letters and apostrophes, spelled as spoken""",
        faults(
            """
            items:
              - say: [Pump]
              - say: [bolt 3]
              - say: [one two three four five six]
              - say: [pump-bolts]
              - say: [mutter größe]
              - say: [two  gaps]
            """));
  }

  @Test
  void oneNameForTwoThings() {
    assertEquals(
        "p.yaml:6:34: items.cover.say: expected a spoken name of its own, found \"hub\", which is also said for \"hub\" on line 4; make the two names sound different, for example by left and right",
        faults(
            """
            places:
              - say: [hub]
            items:
              - {id: cover, say: [hub cover, hub]}
            """));
  }

  @Test
  void unknownReferences() {
    assertEquals(
        """
        p.yaml:6:26: steps.1.off: expected the id of an item, found "pump-bolt", which nothing has; did you mean "pump-bolts"?
        p.yaml:6:46: steps.1.needs: expected the id of a step, found "clean", which nothing has; add it to the plan, or correct the id""",
        faults(
            """
            items:
              - {say: [pump bolts], thing: bolt}
            steps:
              - {say: [strip], off: [pump-bolt], needs: [clean]}
            """));
  }

  @Test
  void aReferenceToSomethingElse() {
    assertEquals(
        """
        p.yaml:6:26: steps.1.off: expected the id of an item, found "fit", which is a step; name an item here
        p.yaml:7:26: steps.2.needs: expected the id of a step, found "pin", which is an item; name a step here""",
        faults(
            """
            items:
              - {say: [pin]}
            steps:
              - {say: [strip], off: [fit]}
              - {say: [fit], needs: [pin]}
            """));
  }

  @Test
  void stepsThatNeedEachOther() {
    assertEquals(
        """
        p.yaml:6:26: steps.3.needs: expected an order in which each comes after what it needs, found a ring: strip -> clean -> fit -> strip; take one of these needs out
        p.yaml:7:28: steps.4.needs: expected an order in which each comes after what it needs, found a ring: drain -> drain; take one of these needs out""",
        faults(
            """
            steps:
              - {say: [strip], needs: [clean]}
              - {say: [clean], needs: [fit]}
              - {say: [fit], needs: [strip]}
              - {say: [drain], needs: [drain]}
            """));
  }

  @Test
  void itemsThatSitOnEachOther() {
    assertEquals(
        "p.yaml:5:24: items.2.of: expected an order in which each comes after what it needs, found a ring: cap -> cover -> cap; take one of these needs out",
        faults(
            """
            items:
              - {say: [cap], of: cover}
              - {say: [cover], of: cap}
            """));
  }

  @Test
  void capacityOfNought() {
    assertEquals(
        """
        p.yaml:5:47: systems.1.capacity: expected more than 0, found "0 L"; correct the number, or take the line out if it is not known
        p.yaml:5:60: systems.1.before: expected 0 or more, found "-1 L"; correct the number""",
        faults(
            """
            fluids: [{say: [oil], grade: any}]
            systems:
              - {say: [oil system], fluid: oil, capacity: 0 L, before: -1 L}
            """));
  }

  @Test
  void amountsWithoutUnit() {
    assertEquals(
        """
        p.yaml:4:38: items.1.head: expected a number and its unit, found "13" without a unit; add one of mm, in, thou
        p.yaml:4:50: items.1.length: expected a number and its unit, found "about 3 mm"; write it like "2.10 L"; units here: mm, in, thou""",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, head: 13, length: about 3 mm}
            """));
  }

  @Test
  void unitsThatAreNotUnits() {
    assertEquals(
        """
        p.yaml:4:38: items.1.head: expected a known unit, found "13 furlongs"; units here: mm, in, thou
        p.yaml:4:59: items.1.length: expected an amount in one of mm, in, thou, found "20 L"; use one of these units""",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, head: 13 furlongs, length: 20 L}
            """));
  }

  @Test
  void unitsInDoubt() {
    assertEquals(
        """
        p.yaml:5:47: systems.1.capacity: expected one certain unit, found "4 qt"; say which: US qt or imp qt
        p.yaml:5:61: systems.1.before: expected one certain unit, found "12 oz"; say which: US fl oz or imp fl oz""",
        faults(
            """
            fluids: [{say: [oil], grade: any}]
            systems:
              - {say: [oil system], fluid: oil, capacity: 4 qt, before: 12 oz}
            """));
  }

  @Test
  void commaInANumber() {
    assertEquals(
        "p.yaml:5:47: systems.1.capacity: expected a number with a point, found \"6,4 L\"; write 2.1, not 2,1; no marks between thousands",
        faults(
            """
            fluids: [{say: [oil], grade: any}]
            systems:
              - {say: [oil system], fluid: oil, capacity: "6,4 L"}
            """));
  }

  @Test
  void fractionsWithoutEnd() {
    assertEquals(
        """
        p.yaml:4:38: items.1.head: expected a number that ends, found "1/3 in", which has no end as a decimal; use halves, quarters, eighths, sixteenths ... or a decimal number
        p.yaml:4:54: items.1.length: expected a number that ends, found "1/0 in", which has no end as a decimal; use halves, quarters, eighths, sixteenths ... or a decimal number""",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, head: 1/3 in, length: 1/0 in}
            """));
  }

  @Test
  void torqueWithoutTolerance() {
    assertEquals(
        """
        p.yaml:4:40: items.1.torque.tolerance: expected this field, found nothing; add it, for example tolerance: ±2 N·m (or 10 %, as the manual says)
        p.yaml:4:40: items.1.torque.tolerance-from: expected this field, found nothing; add it, for example tolerance-from: workshop manual p. 12
        p.yaml:5:38: items.2.torque.value: expected this field, found nothing; add it, for example value: 24 N·m (the maker's figure)""",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, torque: {value: 24 N·m}}
              - {say: [nut], thing: nut, torque: {tolerance: 5 %, tolerance-from: p. 2}}
            """));
  }

  @Test
  void torqueAsAPlainText() {
    assertEquals(
        "p.yaml:4:40: items.1.torque: expected fields of its own, found \"24 N·m\"; write it like torque: {value: 24 N·m, tolerance: ±2 N·m, tolerance-from: manual p. 12}",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, torque: 24 N·m}
            """));
  }

  @Test
  void toleranceInAnotherUnit() {
    assertEquals(
        """
        p.yaml:4:67: items.1.torque.tolerance: expected the unit N·m, as beside it, found 2 lbf·ft; give it in N·m
        p.yaml:5:86: items.2.torque.tolerance.minus: expected the unit N·m, as beside it, found 9 lbf·in; give it in N·m""",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, torque: {value: 24 N·m, tolerance: 2 lbf·ft, tolerance-from: p. 2}}
              - {say: [nut], thing: nut, torque: {value: 24 N·m, tolerance: {plus: 1 N·m, minus: 9 lbf·in}, tolerance-from: p. 2}}
            """));
  }

  @Test
  void toleranceAsLargeAsTheValue() {
    assertEquals(
        "p.yaml:4:67: items.1.torque.tolerance: expected a tolerance smaller than the value, found 24 N·m below 24 N·m; correct the tolerance or the value",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, torque: {value: 24 N·m, tolerance: 100 %, tolerance-from: p. 2}}
            """));
  }

  @Test
  void toleranceOneSided() {
    assertEquals(
        "p.yaml:4:67: items.1.torque.tolerance.minus: expected this field, found nothing; add it, for example minus: 2 N·m",
        faults(
            """
            items:
              - {say: [bolt], thing: bolt, torque: {value: 24 N·m, tolerance: {plus: 1 N·m}, tolerance-from: p. 2}}
            """));
  }

  @Test
  void headSizeOfNobodyKnowsWhat() {
    assertEquals(
        "p.yaml:4:5: items.1.thing: expected this field, found nothing; add it, for example thing: bolt",
        faults(
            """
            items:
              - {say: [bolt], head: 13 mm}
            """));
  }

  @Test
  void newAndCarriedOver() {
    assertEquals(
        """
        p.yaml:4:44: items.1.carry-over: expected either renew or carry-over, found both; a part that moves over from the old one is not new: take one out
        p.yaml:5:46: items.2.carry-over: expected either stretch or carry-over, found both; stretch bolts are new each time
        p.yaml:6:29: items.3.temporary: expected either temporary or renew, found both; a temporary item does not stay on the machine: take one out""",
        faults(
            """
            items:
              - {say: [bolt], renew: true, carry-over: true}
              - {say: [stud], stretch: true, carry-over: true}
              - {say: [pin], temporary: true, renew: true}
            """));
  }

  @Test
  void alignmentOutsideTheCircle() {
    assertEquals(
        """
        p.yaml:4:38: items.1.alignment.angle: expected an angle from 0° to under 360°, clockwise from twelve o'clock, found "360°"; correct the angle
        p.yaml:4:55: items.1.alignment.tolerance: expected more than 0, found "0°"; correct the number, or take the line out if it is not known""",
        faults(
            """
            items:
              - {say: [bolt], alignment: {angle: 360°, tolerance: 0°}}
            """));
  }

  @Test
  void rangeUpsideDown() {
    assertEquals(
        """
        p.yaml:4:38: instruments.1.from: expected from below to, found from 5 L to 1 L; swap the two or correct them
        p.yaml:7:48: limits.1.from: expected from below to, found from 90 °C to 80 °F; swap the two or correct them""",
        faults(
            """
            instruments:
              - {say: [jug], kind: vessel, from: 5 L, to: 1 L, tolerance: 5 %}
            places: [{say: [hub]}]
            limits:
              - {subject: hub, measure: temperature, from: 90 °C, to: 80 °F}
            """));
  }

  @Test
  void rangeInTwoUnits() {
    assertEquals(
        """
        p.yaml:4:38: instruments.1.from: expected the unit L, as beside it, found 50 mL; give it in L
        p.yaml:4:65: instruments.1.tolerance: expected the unit L, as beside it, found 20 mL; give it in L""",
        faults(
            """
            instruments:
              - {say: [jug], kind: vessel, from: 50 mL, to: 1 L, tolerance: 20 mL}
            """));
  }

  @Test
  void scaleOfAnotherKind() {
    assertEquals(
        "p.yaml:4:38: instruments.1.from: expected an amount in one of L, mL, US fl oz, US pt, US qt, US gal, imp fl oz, imp pt, imp qt, imp gal, g, kg, oz, lb, found \"0 N·m\"; use one of these units",
        faults(
            """
            instruments:
              - {say: [jug], kind: vessel, from: 0 N·m, to: 1 L, tolerance: 5 %}
            """));
  }

  @Test
  void shareOfATemperature() {
    assertEquals(
        "p.yaml:4:74: instruments.1.tolerance: expected a tolerance in °C, found a share of a temperature; give it like \"±1 °C\": a share of a temperature means nothing",
        faults(
            """
            instruments:
              - {say: [thermometer], kind: gauge, from: 0 °C, to: 100 °C, tolerance: 2 %}
            """));
  }

  @Test
  void noSuchDay() {
    assertEquals(
        "p.yaml:4:80: instruments.1.calibrated: expected a date, found \"2026-02-30\"; write it like 2026-03-31",
        faults(
            """
            instruments:
              - {say: [jug], kind: vessel, from: 0 L, to: 1 L, tolerance: 5 %, calibrated: 2026-02-30}
            """));
  }

  @Test
  void instrumentWithNothing() {
    assertEquals(
        """
        p.yaml:4:5: instruments.1.kind: expected this field, found nothing; add it, for example kind: vessel
        p.yaml:4:5: instruments.1.from: expected this field, found nothing; add it, for example from: 0.5 L (the lowest mark)
        p.yaml:4:5: instruments.1.to: expected this field, found nothing; add it, for example to: 5 L (the highest mark)
        p.yaml:4:5: instruments.1.tolerance: expected this field, found nothing; add it, for example tolerance: 5 % (or ±0.05 L)""",
        faults(
            """
            instruments:
              - say: [jug]
            """));
  }

  @Test
  void limitThatLimitsNothing() {
    assertEquals(
        """
        p.yaml:5:5: limits.1: expected from, to or both, found neither; add at least one of them
        p.yaml:6:29: limits.2.measure: expected a measure with a number, found level; give the system a mark (the field "marks") in place of a limit
        p.yaml:7:5: limits.3.subject: expected this field, found nothing; add it, for example subject: cooling (the id of a system, place or item)
        p.yaml:7:5: limits.3.measure: expected this field, found nothing; add it, for example measure: temperature
        p.yaml:7:5: limits.3: expected from, to or both, found neither; add at least one of them""",
        faults(
            """
            places: [{say: [hub]}]
            limits:
              - {subject: hub, measure: gap}
              - {subject: hub, measure: level, to: 3 L}
              - {}
            """));
  }

  @Test
  void soundsThatAreNone() {
    assertEquals(
        """
        p.yaml:4:12: pronunciations.grommet: expected sounds of the CMU dictionary in capitals, found "A0"; write it like "G R AA M AH T"
        p.yaml:5:9: pronunciations.Seal: expected a spoken name of one to five lower-case words, found "Seal"; give one word in lower-case letters""",
        faults(
            """
            pronunciations:
              grommet: G R A0 M
              Seal: S IY L
            """));
  }

  @Test
  void noSuchFile() throws IOException {
    assertEquals(
        "expected a plan file, found no such file; check its name and folder",
        afterName(PlanReader.read(folder.resolve("nothing.yaml"))));
  }

  @Test
  void aFolder() throws IOException {
    assertEquals(
        "expected a plan file, found a folder; name the .yaml or .json file in it",
        afterName(PlanReader.read(folder)));
  }

  private static String afterName(PlanReading reading) {
    String text = told(reading);
    return text.substring(text.indexOf(": ") + 2);
  }

  @Test
  void bytesThatAreNotUtf8() throws IOException {
    assertEquals(
        "p.yaml:2:8: expected text in UTF-8, found bytes that are not UTF-8; save the file again as UTF-8",
        file("tallyback-plan: 1\nname: hübe\n".getBytes(StandardCharsets.ISO_8859_1)));
  }

  @Test
  void utf16() throws IOException {
    assertEquals(
        "p.yaml:1:1: expected text in UTF-8, found bytes that are not UTF-8; save the file again as UTF-8",
        file(HEAD.getBytes(StandardCharsets.UTF_16)));
  }

  @Test
  void aLetterCutOffAtTheEnd() throws IOException {
    byte[] whole = (HEAD + "#ü").getBytes(StandardCharsets.UTF_8);

    assertEquals(
        "p.yaml:3:2: expected text in UTF-8, found bytes that are not UTF-8; save the file again as UTF-8",
        file(Arrays.copyOf(whole, whole.length - 1)));
  }

  @Test
  void aFileOfMoreThanAMegabyte() throws IOException {
    assertEquals(
        "p.yaml: expected a plan of at most 1000000 bytes, found a larger file; check that this is the plan;"
            + " split a job that large into several plans",
        file(("# " + "x".repeat(PlanReader.LARGEST_BYTES)).getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void bytesOfNoText() throws IOException {
    byte[] noise = new byte[4000];
    new Random(7).nextBytes(noise);

    assertEquals(1, file(noise).lines().count());
  }

  @Test
  void aControlCharacterInTheText() {
    assertEquals(1, faults("machine: {name: a\u0007b}\n").lines().count());
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{a: ", "- "})
  void nestingWithoutEnd(String level) {
    String nested = (level.equals("- ") ? "\n  " : "") + level.repeat(200_000);

    assertEquals(
        "expected at most 16 levels of nesting, found more; check the brackets and the indentation",
        afterName(reading(HEAD + "items: " + nested)));
  }

  @Test
  void anAliasBomb() {
    StringBuilder bomb = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
    for (int i = 1; i < 12; i++) {
      bomb.append("a").append(i).append(": &a").append(i).append(" [");
      bomb.append(String.join(", ", Collections.nCopies(9, "*a" + (i - 1)))).append("]\n");
    }

    assertEquals(
        "expected at most 50 aliases (*name), found more; write the values out",
        afterName(reading(HEAD + bomb)));
  }

  @Test
  void anAliasOfItself() {
    assertEquals(
        "p.yaml:3:8: items: expected fields in each entry of the list, found a list;"
            + " write it like - say: [a name]",
        faults("items: &a [*a]\n"));
  }

  @Test
  void aTorqueThatContainsItself() {
    assertTrue(
        faults("items:\n  - {say: [nut], thing: nut, torque: &t {value: *t}}\n")
            .contains("items.1.torque.value: expected an amount in N·m"));
  }

  @Test
  void aHopelessFileIsToldItsFirstTwoHundredFaults() {
    String rest =
        IntStream.range(0, 3000)
            .mapToObj(i -> "  - {say: [pin], of: nowhere" + i + "}\n")
            .collect(Collectors.joining("", "items:\n", ""));

    List<PlanFault> faults = reading(HEAD + rest).faults();

    assertEquals(201, faults.size());
    assertTrue(faults.get(200).found().matches("[0-9]+ more faults"), faults.get(200).found());
  }

  @Test
  void allFaultsComeAtOnceInTheOrderOfTheFile() {
    List<PlanFault> faults =
        reading(
                HEAD
                    + """
                    machine: {serial: 7}
                    items: [{say: [pin], count: 0}]
                    steps: [{say: [strip], needs: [nothing]}]
                    colour: red
                    """)
            .faults();

    assertEquals(List.of(3, 4, 5, 6), faults.stream().map(PlanFault::line).toList());
  }

  private static final String WHOLE =
      """
      tallyback-plan: 1
      name: hub
      fluids: [{say: [oil], grade: any, form: premix}]
      systems: [{say: [oil system], fluid: oil, capacity: 2 L, drains: [{say: [sump], share: 1 L}]}]
      items:
        - {say: [hub nut], thing: nut, count: 4, head: 19 mm}
        - {say: [cap nut], thing: nut, torque: {value: 24 N·m, tolerance: ±2 N·m, tolerance-from: p. 1}}
        - {say: [pin], temporary: true, alignment: {angle: 0°, tolerance: ±30°}}
      steps:
        - {id: strip, say: [strip], off: [hub-nut, cap-nut], on: [pin], states: [cold]}
        - {say: [fit], on: [hub-nut, cap-nut], off: [pin], needs: [strip], minutes: 5, cautions: [mind it]}
      instruments: [{say: [jug], kind: vessel, from: 0 L, to: 1 L, tolerance: 5 %}]
      limits: [{subject: oil-system, measure: temperature, to: 90 °C}]
      """;

  private static final List<String> JUNK =
      List.of(
          "", "\t", "\n", ":", "- ", "[", "}", "'", "\"", "&a ", "*a ", "0", "-", "\u0000", "±",
          "!!int ", "? ", "|", "# ", ",", "~", "%");

  @Test
  void randomDamageNeverThrowsAndIsAlwaysToldOnOneLineEach() {
    assertEquals(List.of(), reading(WHOLE).faults());
    long seed = 20260302;
    Random random = new Random(seed);
    for (int round = 0; round < 1000; round++) {
      StringBuilder text = new StringBuilder(WHOLE);
      for (int slips = 1 + random.nextInt(4); slips > 0; slips--) {
        int at = random.nextInt(text.length());
        int end = Math.min(text.length(), at + random.nextInt(4));
        text.replace(at, end, JUNK.get(random.nextInt(JUNK.size())));
      }
      PlanReading reading =
          assertDoesNotThrow(() -> reading(text.toString()), () -> "seed " + seed + "\n" + text);
      for (PlanFault fault : reading.faults()) {
        assertEquals(1, fault.text().lines().count(), fault.text());
      }
    }
  }

  // Worth a second look

  @Test
  void drainSharesThatExceedTheCapacity() {
    assertEquals(
        """
        p.yaml:8:13: systems.1.drains: expected drain shares that together fit the capacity of 2 L, \
        found 2.1 L; check the shares and the capacity
        p.yaml:9:13: systems.1.before: expected at most the capacity of 2 L, found 3 L; check both amounts""",
        warnings(
            """
            fluids:
              - {say: [oil], grade: any}
            systems:
              - say: [oil system]
                fluid: oil
                drains: [{say: [sump], share: 1200 mL}, {say: [tap], share: 0.9 L}]
                before: 3 L
                capacity: 2 L
            """));
  }

  @Test
  void itemsThatNoStepBringsBack() {
    assertEquals(
        """
        p.yaml:4:5: items.1: expected a later step that puts it back, found "nut" only taken off \
        (in "strip"); name it under "on" of the step that puts it back
        p.yaml:5:5: items.2: expected a step that takes it off or puts it on, found "clip" in no step; \
        name it under "off" or "on" of a step if the job moves it
        p.yaml:6:5: items.3: expected a step that takes the temporary item out again, found "pin" \
        only put in; name it under "off" of the step that takes it out""",
        warnings(
            """
            items:
              - {say: [nut]}
              - {say: [clip]}
              - {say: [pin], temporary: true}
            steps:
              - {say: [strip], off: [nut], on: [pin]}
            """));
  }

  @Test
  void aShareOverHundred() {
    assertEquals(
        "p.yaml:3:47: fluids.1.strength: expected a share up to 100 %, found \"150 %\"; correct it",
        faults("fluids: [{say: [coolant], grade: b, strength: 150 %}]\n"));
  }

  @Test
  void anAdapterOnAJug() {
    assertEquals(
        "p.yaml:4:77: instruments.1.adapter: expected an adapter on a wrench, found one on a vessel;"
            + " take it out or correct the kind",
        faults(
            "instruments:\n  - {say: [jug], kind: vessel, from: 0 L, to: 5 L, tolerance: 5 %,"
                + " adapter: {wrench: 300 mm, reach: 50 mm, angle: 0°}}\n"));
  }

  @Test
  void aHoldOfATemperature() {
    assertEquals(
        "p.yaml:5:64: limits.1.minutes: expected a hold of a pressure, found one of temperature;"
            + " take it out or correct the measure",
        faults(
            """
            places: [{say: [block]}]
            limits:
              - {subject: block, measure: temperature, to: 98 °C, minutes: 10}
            """));
  }
}
