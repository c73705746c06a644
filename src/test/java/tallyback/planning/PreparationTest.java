package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.planning.PrepSheet.Use;
import tallyback.planning.PrepSheet.Why;
import tallyback.trade.Dilution;
import tallyback.trade.Glycol;

class PreparationTest {

  private static final String HEAD =
      """
      tallyback-plan: 1
      name: Test
      machine: {name: Test machine, sides: as seen from behind}
      """;

  private static Plan plan(String rest) {
    return PlanReader.read("test", HEAD + rest).plan().orElseThrow();
  }

  private static PrepSheet sheet(String rest) {
    return Preparation.of(plan(rest), List.of());
  }

  private static Amount litres(String value) {
    return Amount.of(value, Unit.LITRE);
  }

  @Test
  void toolsGoBySizeAndSayWhatFor() {
    PrepSheet sheet =
        sheet(
            """
            items:
              - {id: cover, say: [cover]}
              - {say: [cover bolts], thing: bolt, count: 4, of: cover, head: 10 mm, drive: hex}
              - {say: [small screws], thing: screw, count: 2, head: 8 mm, drive: hex}
              - {say: [side nuts], thing: nut, count: 3, head: 10 mm, drive: hex}
              - {say: [odd stud], thing: stud}
            """);

    assertEquals(
        List.of(
            new PrepSheet.Tool(
                Amount.of("8", Unit.MILLIMETRE), "hex", List.of(new Use("small screws", 2, ""))),
            new PrepSheet.Tool(
                Amount.of("10", Unit.MILLIMETRE),
                "hex",
                List.of(new Use("cover bolts", 4, "cover"), new Use("side nuts", 3, ""))),
            new PrepSheet.Tool(null, "", List.of(new Use("odd stud", 1, "")))),
        sheet.tools());
    assertEquals(7, sheet.tools().get(1).count());
    assertEquals(4, sheet.torqueFromManual().size());
  }

  /** A wrench up to 50 N·m promises nothing below 10, ISO 6789-1:2017. */
  @Test
  void eachTorqueGoesToTheSmallestWrenchThatIsMadeForIt() {
    PrepSheet sheet =
        sheet(
            """
            items:
              - {say: [first], thing: bolt, torque: {value: 6 N·m, tolerance: 10 %, tolerance-from: test}}
              - {say: [second], thing: bolt, torque: {value: 10 N·m, tolerance: 10 %, tolerance-from: test}}
              - {say: [third], thing: bolt, torque: {value: 120 N·m, tolerance: 10 %, tolerance-from: test}}
              - {say: [fourth], thing: bolt, torque: {value: 40 N·m, tolerance: 10 %, tolerance-from: test}}
            instruments:
              - {say: [long wrench], kind: wrench, from: 5 N·m, to: 100 N·m, tolerance: 4 %}
              - {say: [short wrench], kind: wrench, from: 5 N·m, to: 50 N·m, tolerance: 4 %}
            """);

    assertEquals(
        List.of("short wrench second 10 N·m fourth 40 N·m", "long wrench"),
        sheet.wrenches().stream()
            .map(
                wrench ->
                    wrench.name()
                        + wrench.tightenings().stream()
                            .map(each -> " " + each.use().item() + " " + each.torque())
                            .reduce("", String::concat))
            .toList());
    assertEquals(
        List.of("first", "third"),
        sheet.noWrench().stream().map(each -> each.use().item()).toList());
  }

  @Test
  void theDemoNeedsWhatComesOut() throws IOException {
    Plan plan = PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    PrepSheet sheet = Preparation.of(plan, List.of(300, 260));

    // 3.1 L and 2.2 L come out of 6.4 L.
    assertEquals(Optional.of(litres("5.30")), sheet.catches().get(0).sum());
    PrepSheet.FluidNeed coolant = sheet.fluids().get(0);
    assertEquals(Optional.of(litres("5.30")), coolant.litres());
    assertEquals(Optional.of(litres("1.10")), coolant.stays());
    assertEquals(1, coolant.rounds());
    assertEquals(new PrepSheet.Time(270, 0, List.of(260, 300)), sheet.time());
    assertTrue(sheet.parts().stream().allMatch(part -> part.why() == Why.RENEWED));
    assertEquals(
        List.of("locking pin", "blanking plug", "clamp pliers"),
        sheet.temporary().stream().map(Use::item).toList());
  }

  /** Of 10 L, 6 come out each time: 0.4, 0.16, 0.064, 0.0256 of the old is left. */
  @Test
  void itIsDrainedUntilLittleEnoughOfTheOldStays() {
    String system =
        """
        fluids:
          - {id: oil, say: [gear oil], grade: any}
        systems:
          - id: box
            say: [gearbox]
            fluid: oil
            capacity: 10 L
            old-at-most: %s
            drains: [{say: [box plug], share: 6 L}]
        """;

    assertEquals(4, sheet(system.formatted("5 %")).fluids().get(0).rounds());
    assertEquals(
        Optional.of(litres("24.00")), sheet(system.formatted("5 %")).fluids().get(0).litres());
    assertEquals(1, sheet(system.formatted("40 %")).fluids().get(0).rounds());
  }

  /** Mixed again, what is poured and what stays come to the wanted strength. */
  @Test
  void concentrateAndWaterReachTheProtection() {
    PrepSheet.FluidNeed need =
        sheet(
                """
                fluids:
                  - {id: coolant, say: [coolant], grade: any, form: concentrate, base: ethylene-glycol, strength: 95 %}
                systems:
                  - id: cooling
                    say: [cooling system]
                    fluid: coolant
                    capacity: 10 L
                    drains: [{say: [lower plug], share: 8 L}]
                limits:
                  - {subject: cooling, measure: strength, from: -36 °C, to: -32 °C}
                """)
            .fluids()
            .get(0);
    PrepSheet.Mix mix = need.mix().orElseThrow();

    assertEquals(Amount.of("-34", Unit.CELSIUS), mix.protectsTo());
    double wanted = Glycol.ETHYLENE.volumeShareFreezingAt(-34).orElseThrow();
    for (boolean strong : new boolean[] {true, false}) {
      Rational concentrate =
          (strong ? mix.concentrateIfStrong() : mix.concentrateIfWater().orElseThrow()).base();
      Rational water = (strong ? mix.waterIfStrong() : mix.waterIfWater().orElseThrow()).base();
      assertEquals(8, concentrate.plus(water).toDouble(), 0.011);
      Rational poured = Dilution.mixed(concentrate, Rational.of(95, 100), water, Rational.ZERO);
      Rational stays = strong ? Rational.of(Math.round(wanted * 1e6), 1_000_000) : Rational.ZERO;
      Rational all = Dilution.mixed(concentrate.plus(water), poured, Rational.of(2, 1), stays);
      assertEquals(wanted, all.toDouble(), 0.002);
    }
  }

  @Test
  void whatThePlanDoesNotSayIsLeftEmpty() {
    PrepSheet.FluidNeed need =
        sheet(
                """
                fluids:
                  - {id: oil, say: [engine oil], grade: as the manual says}
                systems:
                  - {id: sump, say: [sump], fluid: oil, drains: [{say: [sump plug]}]}
                """)
            .fluids()
            .get(0);

    assertEquals(Optional.empty(), need.litres());
    assertEquals(Optional.empty(), need.stays());
    assertEquals(0, need.rounds());
  }
}
