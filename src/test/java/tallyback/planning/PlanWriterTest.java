package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tallyback.plan.BigPlan;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;

class PlanWriterTest {

  /** All of a plan but its text, which is written anew. */
  private static Plan withoutText(Plan plan) {
    return new Plan(
        plan.name(),
        "",
        "",
        plan.machine(),
        plan.people(),
        plan.fluids(),
        plan.systems(),
        plan.places(),
        plan.items(),
        plan.steps(),
        plan.instruments(),
        plan.limits(),
        plan.pronunciations(),
        plan.open(),
        plan.basis());
  }

  private static Plan read(String text) {
    PlanReading reading = PlanReader.read("written", text);
    assertEquals(List.of(), reading.faults(), text);
    return reading.plan().orElseThrow();
  }

  private static void comesBack(Plan plan) {
    assertEquals(withoutText(plan), withoutText(read(PlanWriter.write(plan))));
  }

  @TestFactory
  Stream<DynamicTest> everyPlanWeShipAndEveryExampleComesBackAsItWas() throws IOException {
    List<Path> plans =
        new ArrayList<>(List.of(Path.of("demo-data/plan.yaml"), Path.of("grammars/names.yaml")));
    for (String folder : List.of("seeds", "src/test/resources/gallery")) {
      try (Stream<Path> files = Files.walk(Path.of(folder))) {
        files.filter(file -> file.toString().endsWith(".yaml")).sorted().forEach(plans::add);
      }
    }
    assertTrue(plans.size() > 60, plans.toString());
    return plans.stream()
        .map(
            file ->
                DynamicTest.dynamicTest(
                    file.toString(), () -> comesBack(PlanReader.read(file).plan().orElseThrow())));
  }

  @Test
  void aLargePlanComesBackAsItWas() {
    comesBack(BigPlan.plan());
  }

  @Test
  void textThatYamlCouldTakeForSomethingElseComesBackAsItWas() {
    for (String name :
        List.of(
            "yes",
            "1.5",
            "0x10",
            "- a list",
            "a: b",
            "a #b",
            "\"in quotes\"",
            "back\\slash",
            "*a",
            "two  blanks",
            "ends in colon:",
            "[a, b]",
            "{a}",
            "größer ½ Öl",
            "null",
            "~",
            "2026-03-02",
            "!tag",
            "%",
            "`",
            "@at",
            "|",
            ">",
            "'")) {
      Plan plan = read("tallyback-plan: 1\nname: placeholder\n");
      Plan named =
          new Plan(
              name,
              "",
              "",
              new Plan.Machine(name, name, name),
              plan.people(),
              plan.fluids(),
              plan.systems(),
              plan.places(),
              plan.items(),
              plan.steps(),
              plan.instruments(),
              plan.limits(),
              plan.pronunciations());
      comesBack(named);
    }
  }

  @Test
  void aRemarkOfSeveralLinesStaysOneRemark() {
    Plan plan = read("tallyback-plan: 1\nname: a\nplaces:\n  - say: [hub]\n");
    String text =
        PlanWriter.write(
            plan,
            new PlanWriter.Remarks() {
              @Override
              public List<String> of(Plan.Named named) {
                return List.of("first\nname: second\u2028name: third");
              }
            });
    assertTrue(text.contains("    # first name: second name: third\n"), text);
    assertEquals("a", read(text).name());
  }
}
