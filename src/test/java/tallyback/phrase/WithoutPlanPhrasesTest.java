package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Statement;
import tallyback.plan.Plan;

/** The names that come with the program, for jobs without a plan. */
class WithoutPlanPhrasesTest {

  private static final Plan NAMES = DemoGrammar.plan("grammars/names.yaml");
  private static final EntryGrammar GRAMMAR = EntryGrammar.of(NAMES);

  private static Statement said(String words) {
    return GRAMMAR
        .read(words)
        .map(Meaning::statement)
        .orElseThrow(() -> new AssertionError(GRAMMAR.whyNot(words).toString()));
  }

  @Test
  void hasNoWordUnheardAndNoPhraseWithTwoMeanings() {
    assertEquals(List.of(), GRAMMAR.lint(new CmuWords()));
  }

  @Test
  void thereAreEnoughNamesAndTheGraphStaysSmall() {
    long numbered = NAMES.places().stream().filter(each -> each.id().matches("place-\\d+")).count();
    assertEquals(30, numbered);
    long names = NAMES.items().size() + NAMES.places().size() - numbered;
    assertTrue(names >= 150, "" + names);
    assertTrue(GRAMMAR.entries().stateCount() < 4_000, GRAMMAR.entries().toString());
  }

  @Test
  void fastenersAreNamedByWhatTheyHold() {
    assertEquals(
        new Statement.ItemsMoved(
            Statement.ItemMove.OFF, null, Statement.Thing.BOLT, 5, false, null, "belly-pan", null),
        said("five of the belly pan bolts off"));
    Statement.Tightened torqued =
        (Statement.Tightened) said("belly pan bolts torqued to nine newton metres");
    assertEquals("belly-pan", torqued.place());
    assertEquals(Statement.Thing.BOLT, torqued.thing());
    Statement.ItemsMoved connector = (Statement.ItemsMoved) said("alternator connector off");
    assertEquals(Integer.valueOf(1), connector.count());
    assertEquals(
        Statement.Thing.NUT, ((Statement.ItemsMoved) said("four new wheels nuts on")).thing());
  }

  @Test
  void whatIsSaidBackNamesTheFasteners() {
    ReadBack back = GRAMMAR.readBack(said("belly pan bolts hand tight"));
    assertEquals("belly pan bolts hand tight", back.spoken());
    assertEquals("hand tight belly pan bolts", back.written());
  }

  /** "Place twenty six bolts out" may be six bolts out of place twenty: it is no phrase at all. */
  @Test
  void aNumberedPlaceNeverRunsIntoANumberOfBolts() {
    assertFalse(GRAMMAR.read("place twenty six bolts out").isPresent());
    assertFalse(GRAMMAR.read("place twenty six bolts to nine newton metres").isPresent());
    Statement.Tightened told =
        (Statement.Tightened) said("torqued the nuts at place twenty six to nine newton metres");
    assertEquals("place-26", told.place());
    assertEquals(
        "place-26", ((Statement.ItemsMoved) said("six bolts out of place twenty six")).place());
    assertEquals("place-6", ((Statement.ItemsMoved) said("place six bolts out")).place());
  }

  @Test
  void aMemoNamesAPlace() {
    assertEquals(new Statement.Memo(null, null, "place-3"), said("name place three"));
    assertFalse(DemoGrammar.GRAMMAR.read("name place three").isPresent());
  }

  /** The names here are no part of the grammar of a plan. */
  @Test
  void thePlanOfAJobKnowsNothingOfThem() {
    assertFalse(DemoGrammar.GRAMMAR.entries().words().contains("turbocharger"));
    assertFalse(DemoGrammar.GRAMMAR.read("radiator bolts off").isPresent());
    assertEquals(2166, DemoGrammar.GRAMMAR.entries().stateCount());
  }
}
