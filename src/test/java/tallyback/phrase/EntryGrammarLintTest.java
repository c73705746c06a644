package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.plan.BigPlan;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

class EntryGrammarLintTest {

  private static final Lexicon LEXICON = new CmuWords();

  @Test
  void demoPlanHasNoWordUnheardAndNoPhraseWithTwoMeanings() {
    assertEquals(List.of(), DemoGrammar.GRAMMAR.lint(LEXICON));
  }

  @Test
  void planWithNothingButANameMakesAGrammar() {
    EntryGrammar grammar = EntryGrammar.of(plan("tallyback-plan: 1\nname: nothing known yet\n"));
    assertEquals(List.of(), grammar.lint(LEXICON));
    assertTrue(grammar.read("six bolts ten millimetre off").isPresent());
    assertTrue(grammar.read("level's at the full mark").isPresent());
  }

  @Test
  void seedOilServiceIsFitForUse() {
    assertEquals(
        List.of(),
        EntryGrammar.of(DemoGrammar.plan("seeds/engine-oil-and-filter.yaml")).lint(LEXICON));
  }

  @Test
  void seedBrakePadsIsFitForUse() {
    assertEquals(
        List.of(),
        EntryGrammar.of(DemoGrammar.plan("seeds/brake-pads-and-discs.yaml")).lint(LEXICON));
  }

  @Test
  void planOfAHundredAndFiftyItemsIsFitForUse() {
    EntryGrammar grammar = EntryGrammar.of(BigPlan.plan());
    assertEquals(List.of(), grammar.lint(LEXICON));
    assertTrue(grammar.entries().stateCount() < 6_000, grammar.entries().toString());
  }

  @Test
  void wordWithoutPronunciationIsNamedWithItsRemedy() {
    EntryGrammar grammar =
        EntryGrammar.of(plan("tallyback-plan: 1\nname: odd\nplaces:\n  - say: [zwirbel]\n"));
    List<GrammarFault> faults = grammar.lint(LEXICON);
    assertTrue(
        faults.stream().anyMatch(fault -> fault.found().contains("zwirbel")), faults.toString());
  }

  @Test
  void nameSharedByTwoItemsIsRefusedBeforeAnythingIsHeard() {
    String text =
        """
        tallyback-plan: 1
        name: two items of one name
        places:
          - say: [gearbox]
        items:
          - id: left-stud
            say: [front bolts]
            thing: bolt
            count: 2
            of: gearbox
        """;
    Plan plan = plan(text);
    Plan.Item item = plan.items().get(0);
    Plan.Item twin =
        new Plan.Item(
            "other",
            item.say(),
            item.thing(),
            2,
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
            null);
    Plan doubled =
        new Plan(
            plan.name(),
            plan.text(),
            plan.hash(),
            plan.machine(),
            plan.people(),
            plan.fluids(),
            plan.systems(),
            plan.places(),
            List.of(item, twin),
            plan.steps(),
            plan.instruments(),
            plan.limits(),
            plan.pronunciations());
    UnusableGrammarException refused =
        assertThrows(UnusableGrammarException.class, () -> EntryGrammar.of(doubled));
    assertEquals(
        "the plan:1: expected each item to have a name of its own, found \"front bolts\" for both left-stud and other."
            + " Change one of the two in the plan.",
        refused.getMessage());
  }

  private static Plan plan(String text) {
    return PlanReader.read("test.yaml", text)
        .plan()
        .orElseThrow(() -> new AssertionError("plan not read"));
  }
}
