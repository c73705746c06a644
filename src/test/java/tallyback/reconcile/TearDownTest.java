package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.model.Finding;
import tallyback.model.Verdict;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.PlanReader;
import tallyback.reconcile.TearDown.Open;

class TearDownTest {

  private static final Plan NAMES =
      PlanReader.read(
              "names.yaml",
              """
              tallyback-plan: 1
              name: names
              basis: names
              fluids:
                - {say: [coolant], grade: as the manual says}
              systems:
                - {id: cooling, say: [cooling system], fluid: coolant}
              places:
                - {id: block, say: [engine block]}
                - {id: place-3, say: [place three]}
              items:
                - {id: guard, say: [belt guard]}
                - {id: pan, say: [belly pan]}
                - {id: hose, say: [top hose], thing: hose}
                - {id: injectors, say: [injector, injectors], count: 2}
                - {id: tool, say: [locking tool], thing: pin, count: 2, temporary: true}
              """)
          .plan()
          .orElseThrow();

  private static TearDown read(String job) {
    return TearDown.of(NAMES, JobText.read(job));
  }

  private static Outcome judged(String job) {
    return Reconciler.reconcile(NAMES, JobText.read(job));
  }

  private static List<String> kinds(Outcome outcome) {
    return outcome.findings().stream().map(Finding::kind).toList();
  }

  private static int count(TearDown told, String id) {
    return told.plan().item(id).map(Item::count).orElse(0);
  }

  private static List<String> open(TearDown told) {
    return told.open().stream().map(Open::words).toList();
  }

  @Test
  void onlyWhatWasNamedIsExpected() {
    TearDown told = read("09:00 items-moved move=off item=pan");
    assertEquals(List.of("pan"), told.plan().items().stream().map(Item::id).toList());
    assertEquals(List.of(), told.plan().systems());
    assertEquals(Plan.Basis.TEAR_DOWN, told.plan().basis());
  }

  @Test
  void fastenersAreGroupedByWhatTheyHoldAndByHead() {
    TearDown told =
        read(
            """
            09:00 items-moved move=off place=block thing=bolt count=4 headSize="13 mm"
            09:01 items-moved move=off place=block thing=bolt count=2 headSize="10 mm"
            09:02 items-moved move=off place=pan thing=nut count=3 headSize="10 mm"
            09:03 items-moved move=off place=pan thing=nut count=1
            """);
    assertEquals(4, count(told, "block-bolts-13-mm"));
    assertEquals(2, count(told, "block-bolts-10-mm"));
    assertEquals(4, count(told, "pan-nuts"));
    assertEquals(List.of(), open(told));
  }

  @Test
  void takenOffAgainCountsOnce() {
    TearDown told =
        read(
            """
            09:00 items-moved move=off place=pan thing=bolt count=6
            09:10 items-moved move=on place=pan thing=bolt count=6
            09:20 items-moved move=off place=pan thing=bolt count=6
            """);
    assertEquals(6, count(told, "pan-bolts"));
    assertEquals(List.of(), open(told));
  }

  @Test
  void fewerTakenOffLaterMayBeTheSameOrOthersSoItIsAsked() {
    TearDown told =
        read(
            """
            09:00 items-moved move=off place=pan thing=bolt count=4
            09:10 items-moved move=on place=pan thing=bolt count=4
            09:20 items-moved move=off place=pan thing=bolt count=2
            """);
    assertEquals(
        List.of(
            "belly pan bolts: how many? 4 came off and went back, and later 2: of the same, or"
                + " others?"),
        open(told));
  }

  @Test
  void whatShearedCameOffToo() {
    TearDown told =
        read(
            """
            09:00 items-moved move=off place=pan thing=bolt count=5
            09:01 items-moved move=sheared place=pan thing=bolt count=1
            """);
    assertEquals(6, count(told, "pan-bolts"));
  }

  @Test
  void whatOnlyWentOnIsAsked() {
    assertEquals(
        List.of("belly pan bolts: how many? 6 went on, and nobody said that any came off"),
        open(read("09:00 items-moved move=on place=pan thing=bolt count=6")));
  }

  @Test
  void aWithdrawnEntryExpectsNothing() {
    TearDown told = read("09:00 items-moved move=off item=pan\n09:01 undone target=e1");
    assertEquals(List.of(), told.plan().items());
  }

  @Test
  void moreThanAPlanCanCountIsAsked() {
    TearDown told =
        read(
            """
            09:00 items-moved move=off place=pan thing=screw count=60
            09:01 items-moved move=off place=pan thing=screw count=60
            """);
    assertEquals(99, count(told, "pan-screws"));
    assertEquals(1, told.open().size());
  }

  @Test
  void everythingBackAndTightLeavesNothingAgainstIt() {
    Outcome outcome =
        judged(
            """
            09:00 items-moved move=off place=pan thing=bolt count=5
            09:01 items-moved move=off item=pan
            09:02 items-moved move=off item=hose
            09:03 temporary-moved in=true item=tool
            09:04 fluid-moved move=out amount="2 L" system=cooling
            10:00 temporary-moved in=false item=tool
            10:01 items-moved move=on item=hose
            10:02 fluid-moved move=in amount="2 L" system=cooling
            10:03 items-moved move=on item=pan
            10:04 items-moved move=on place=pan thing=bolt count=5
            10:05 tightened state=torqued place=pan thing=bolt torque="9 N·m"
            10:06 state-said state=tools-out
            """);
    assertEquals(List.of(), kinds(outcome));
    assertEquals(Verdict.Answer.CLEAR, outcome.verdict().startForTest());
  }

  @Test
  void whatIsOffInLooseOrShortIsFound() {
    Outcome outcome =
        judged(
            """
            09:00 items-moved move=off place=pan thing=bolt count=5
            09:02 items-moved move=off item=hose
            09:03 temporary-moved in=true item=tool
            09:04 fluid-moved move=out amount="2 L" system=cooling
            10:02 fluid-moved move=in amount="1 L" system=cooling
            10:04 items-moved move=on place=pan thing=bolt count=5
            10:05 tightened state=hand-tight place=pan thing=bolt
            """);
    assertEquals(
        List.of("fluid-short", "hand-tight-only", "not-connected", "temporary-still-in"),
        kinds(outcome).stream().sorted().toList());
    assertEquals(Verdict.Answer.STOP, outcome.verdict().startForTest());
  }

  @Test
  void aBoltOfWhichNobodySaidThatItIsTightIsFound() {
    String job =
        """
        09:00 items-moved move=off place=pan thing=bolt count=5
        10:04 items-moved move=on place=pan thing=bolt count=5
        """;
    assertEquals(List.of("tightness-unsaid"), kinds(judged(job)));
    String some = "10:05 tightened state=torqued place=pan thing=bolt count=3 torque=\"9 N·m\"\n";
    assertEquals(List.of("tightness-unsaid"), kinds(judged(job + some)));
    String rest = "10:06 tightened state=by-feel place=pan thing=bolt count=2\n";
    assertEquals(List.of(), kinds(judged(job + some + rest)));
  }

  @Test
  void aNumberThatWasNotSaidLeavesItOpen() {
    Outcome outcome =
        judged(
            """
            09:00 items-moved move=off place=pan thing=bolt
            10:00 items-moved move=on place=pan thing=bolt lump=true
            10:05 tightened state=by-feel place=pan thing=bolt
            10:06 state-said state=tools-out
            """);
    assertEquals(Verdict.Answer.OPEN, outcome.verdict().startForTest());
    assertTrue(
        outcome.unchecked().contains("belly pan bolts: how many? Said to be off without a number"),
        outcome.unchecked().toString());
  }

  @Test
  void anotherOrderThanTheReverseIsNoMoreThanANote() {
    Outcome outcome =
        judged(
            """
            09:00 items-moved move=off item=guard
            09:01 items-moved move=off item=pan
            10:00 items-moved move=on item=guard
            10:01 items-moved move=on item=pan
            10:06 state-said state=tools-out
            """);
    assertEquals(List.of("order-not-reversed"), kinds(outcome));
    assertEquals(Verdict.Answer.CLEAR, outcome.verdict().startForTest());
  }

  @Test
  void aPlaceWithoutANameIsOpenUntilAMemoNamesIt() {
    String job = "09:00 items-moved move=off place=place-3 thing=bolt count=2\n";
    assertEquals(
        List.of("place three: what is it called? Say \"name place three\" and then its name"),
        open(read(job)));
    assertEquals(List.of(), open(read(job + "09:01 memo seconds=3 subject=place-3")));
    assertEquals(
        List.of(), open(read(job + "09:01 memo text=\"place three is the filter bracket\"")));
  }

  @Test
  void severalPartsOfOneNameAreCounted() {
    TearDown told = read("09:00 items-moved move=off item=injectors count=4");
    assertEquals(4, count(told, "injectors"));
  }

  @Test
  void aPlanThatSomebodyWroteStaysAsItIs() {
    Plan plan =
        PlanReader.read(
                "p.yaml",
                """
                tallyback-plan: 1
                name: written
                items:
                  - {id: pan, say: [belly pan]}
                  - {id: pan-bolts, say: [pan bolts], thing: bolt, count: 5, of: pan}
                """)
            .plan()
            .orElseThrow();
    var entries =
        JobText.read(
            """
            09:00 items-moved move=off place=pan thing=bolt count=6
            09:01 items-moved move=off place=pan thing=nut count=2
            """);
    assertEquals(plan, TearDown.expected(plan, entries));
    TearDown told = TearDown.of(plan, entries);
    assertEquals(5, count(told, "pan-bolts"));
    assertEquals(2, count(told, "pan-nuts"));
    assertEquals(List.of("pan bolts: how many? The plan says 5, and 6 came off"), open(told));
  }
}
