package tallyback.books;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Rational;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Undone;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

class BooksTest {

  private static final Plan PLAN = plan();
  private static final Instant START = Instant.parse("2026-03-02T08:00:00Z");
  private static final long SEED = Long.getLong("seed", 17L);

  private final List<Entry> entries = new ArrayList<>();

  private static Plan plan() {
    String text =
        """
        tallyback-plan: 1
        name: Cover off and on
        fluids:
          - {id: coolant, say: [coolant], grade: blue}
        systems:
          - {id: cooling, say: [cooling system], fluid: coolant, capacity: 6 L}
        items:
          - {id: cover, say: [cover]}
          - {id: cover-bolts, say: [cover bolts], thing: bolt, count: 6, head: 10 mm, of: cover}
          - {id: cover-clips, say: [cover clips], thing: clip, count: 3, of: cover}
          - {id: gasket, say: [gasket], renew: true}
          - {id: locking-pin, say: [locking pin], thing: pin, temporary: true}
        """;
    return PlanReader.read("cover.yaml", text).plan().orElseThrow();
  }

  private String say(Statement statement) {
    return say(statement, Certainty.CONFIRMED);
  }

  private String say(Statement statement, Certainty certainty) {
    long seq = entries.size() + 1L;
    String id = "e" + seq;
    Instant now = START.plusSeconds(60 * seq);
    entries.add(
        new Entry(
            id,
            "job",
            seq,
            now,
            now,
            ZoneOffset.UTC,
            "anna",
            "bench",
            Source.TYPED,
            certainty,
            "said",
            null,
            statement));
    return id;
  }

  private Books books() {
    return Books.of(PLAN, entries);
  }

  private int bolts(Account account) {
    return books().confirmed().item("cover-bolts").orElseThrow().count(account);
  }

  private static ItemsMoved bolts(ItemMove move, int count) {
    return new ItemsMoved(move, "cover-bolts", null, count, false, null, null, null);
  }

  private static FluidMoved fluid(FluidMove move, @Nullable Amount amount) {
    return new FluidMoved(move, amount, false, null, null, "cooling", null, null, null, null);
  }

  private List<Remark.Why> remarks() {
    return books().remarks().stream().map(Remark::why).toList();
  }

  @Test
  void boltsOffGoFromTheMachineIntoTheTray() {
    say(bolts(ItemMove.OFF, 4));
    assertEquals(2, bolts(Account.MACHINE));
    assertEquals(4, bolts(Account.TRAY));
  }

  @Test
  void undoOfTheLastEntryTakesItBack() {
    say(bolts(ItemMove.OFF, 4));
    say(new Undone(null));
    assertEquals(6, bolts(Account.MACHINE));
    assertEquals(List.of(), books().standing());
  }

  @Test
  void undoTwiceTakesTwoEntriesBack() {
    say(bolts(ItemMove.OFF, 4));
    say(bolts(ItemMove.ON, 1));
    say(new Undone(null));
    say(new Undone(null));
    assertEquals(6, bolts(Account.MACHINE));
  }

  @Test
  void undoOfAnUndoBringsTheEntryBack() {
    say(bolts(ItemMove.OFF, 4));
    String undo = say(new Undone("e1"));
    say(new Undone(undo));
    assertEquals(4, bolts(Account.TRAY));
    assertEquals(List.of(), remarks());
  }

  @Test
  void undoOfAnUndoOfAnUndoTakesItBackAgain() {
    say(bolts(ItemMove.OFF, 4));
    say(new Undone("e1"));
    say(new Undone("e2"));
    say(new Undone("e3"));
    assertEquals(0, bolts(Account.TRAY));
  }

  @Test
  void undoWithNothingToUndoIsExplained() {
    say(new Undone(null));
    assertEquals(List.of(Remark.Why.NOTHING_TO_UNDO), remarks());
  }

  @Test
  void undoOfAnUnknownEntryIsExplained() {
    say(new Undone("no-such-entry"));
    assertEquals(List.of(Remark.Why.UNKNOWN_TARGET), remarks());
  }

  @Test
  void undoOfWhatIsWithdrawnAlreadyIsExplained() {
    say(bolts(ItemMove.OFF, 4));
    say(new Undone("e1"));
    say(new Undone("e1"));
    assertEquals(List.of(Remark.Why.ALREADY_WITHDRAWN), remarks());
    assertEquals(0, bolts(Account.TRAY));
  }

  @Test
  void anEntryThatComesLaterCannotBeUndone() {
    say(new Undone("e2"));
    say(bolts(ItemMove.OFF, 4));
    assertEquals(List.of(Remark.Why.UNKNOWN_TARGET), remarks());
    assertEquals(4, bolts(Account.TRAY));
  }

  @Test
  void theOpeningOfAJobStays() {
    say(new JobOpened("plan", "hash", "text"));
    say(new Undone(null));
    say(new Undone("e1"));
    assertEquals(List.of(Remark.Why.NOTHING_TO_UNDO, Remark.Why.OPENING_STAYS), remarks());
  }

  @Test
  void aCorrectionStandsInThePlaceOfWhatItCorrects() {
    say(bolts(ItemMove.OFF, 4));
    String correction = say(new Corrected("e1", bolts(ItemMove.OFF, 5)));
    assertEquals(5, bolts(Account.TRAY));
    Standing standing = books().standing().get(0);
    assertEquals(List.of("e1", correction), standing.evidence());
    assertEquals(START.plusSeconds(60), standing.entry().happenedAt());
  }

  @Test
  void undoOfACorrectionBringsTheFirstWordsBack() {
    say(bolts(ItemMove.OFF, 4));
    say(new Corrected("e1", bolts(ItemMove.OFF, 5)));
    say(new Undone(null));
    assertEquals(4, bolts(Account.TRAY));
  }

  @Test
  void aCorrectionOfACorrectionHolds() {
    say(bolts(ItemMove.OFF, 4));
    say(new Corrected("e1", bolts(ItemMove.OFF, 5)));
    say(new Corrected("e2", bolts(ItemMove.OFF, 6)));
    assertEquals(6, bolts(Account.TRAY));
  }

  @Test
  void aCorrectionOfAWithdrawnEntryDoesNotCountAndSaysSo() {
    say(bolts(ItemMove.OFF, 4));
    say(new Undone("e1"));
    say(new Corrected("e1", bolts(ItemMove.OFF, 5)));
    assertEquals(0, bolts(Account.TRAY));
    assertEquals(List.of(Remark.Why.CORRECTS_WITHDRAWN), remarks());
  }

  @Test
  void aCorrectionIntoAnUndoIsNoCorrection() {
    say(bolts(ItemMove.OFF, 4));
    say(new Corrected("e1", new Undone(null)));
    assertEquals(4, bolts(Account.TRAY));
    assertEquals(List.of(Remark.Why.NOT_A_CORRECTION), remarks());
  }

  @Test
  void anUnconfirmedCorrectionLeavesBothUnconfirmed() {
    say(bolts(ItemMove.OFF, 4));
    say(new Corrected("e1", bolts(ItemMove.OFF, 5)), Certainty.UNCONFIRMED);
    assertEquals(0, bolts(Account.TRAY));
    assertEquals(2, books().standing().size());
    assertFalse(books().standing().stream().anyMatch(said -> said.entry().confirmed()));
  }

  @Test
  void aConfirmedCorrectionSettlesAnUnconfirmedOne() {
    say(bolts(ItemMove.OFF, 4));
    say(new Corrected("e1", bolts(ItemMove.OFF, 5)), Certainty.UNCONFIRMED);
    say(new Corrected("e1", bolts(ItemMove.OFF, 6)));
    assertEquals(6, bolts(Account.TRAY));
    assertEquals(1, books().standing().size());
  }

  @Test
  void anUnconfirmedUndoTakesNothingBackButLeavesADoubt() {
    say(bolts(ItemMove.OFF, 4));
    say(new Undone("e1"), Certainty.UNCONFIRMED);
    assertEquals(0, bolts(Account.TRAY));
    assertEquals(4, books().all().item("cover-bolts").orElseThrow().count(Account.TRAY));
  }

  @Test
  void aBareUndoPassesOverWhatWasNotUnderstood() {
    say(bolts(ItemMove.OFF, 6));
    say(new Statement.NotUnderstood(9), Certainty.UNCONFIRMED);
    say(new Undone(null));
    assertEquals(
        List.of(new Statement.NotUnderstood(9)),
        books().standing().stream().map(Standing::statement).toList());
  }

  @Test
  void aBareUndoTakesBackWhatWasSaidAgainAndNotTheToolsOwnMarkOfIt() {
    say(new Statement.NotUnderstood(9), Certainty.UNCONFIRMED);
    say(bolts(ItemMove.OFF, 6));
    say(new Statement.NotUnderstoodSettled("e1", "e2"));
    say(new Undone(null));
    assertEquals(0, bolts(Account.TRAY));
  }

  @Test
  void aRetimedEntryTakesItsNewPlace() {
    say(bolts(ItemMove.OFF, 4));
    say(new Memo());
    say(new Retimed("e2", START));
    assertEquals(new Memo(), books().standing().get(0).statement());
  }

  @Test
  void theSameIdNotedTwiceCountsOnce() {
    say(bolts(ItemMove.OFF, 4));
    entries.add(entries.get(0));
    assertEquals(4, bolts(Account.TRAY));
    assertEquals(List.of(Remark.Why.NOTED_TWICE), remarks());
  }

  @Test
  void aLumpStatementIsSaidAndNotCounted() {
    say(bolts(ItemMove.OFF, 6));
    say(new ItemsMoved(ItemMove.ON, "cover-bolts", null, 6, true, null, null, null));
    assertEquals(6, bolts(Account.TRAY));
    assertEquals(1, books().confirmed().item("cover-bolts").orElseThrow().uncounted().size());
  }

  @Test
  void aGroupNamedByItsPlaceIsFoundWhenOnlyOneFits() {
    say(new ItemsMoved(ItemMove.OFF, null, Thing.BOLT, 5, false, null, "cover", null));
    assertEquals(5, bolts(Account.TRAY));
  }

  @Test
  void whatFitsTwoGroupsIsNotGuessed() {
    say(new ItemsMoved(ItemMove.OFF, null, null, 2, false, null, "cover", null));
    assertEquals(0, bolts(Account.TRAY));
    assertEquals(
        List.of("things at cover (not in the plan)"),
        books().confirmed().items().values().stream()
            .filter(account -> account.item().isEmpty())
            .map(ItemAccount::label)
            .toList());
  }

  @Test
  void aPartSaidToBeNewTwiceIsFittedOnce() {
    say(new ItemsMoved(ItemMove.OFF, "gasket", null, null, false, null, null, null));
    say(new PartFitted("gasket", PartCondition.NEW));
    say(new ItemsMoved(ItemMove.ON, "gasket", null, null, false, null, null, null));
    ItemAccount gasket = books().confirmed().item("gasket").orElseThrow();
    assertEquals(1, gasket.count(Account.MACHINE));
    assertEquals(1, gasket.restated().size());
  }

  @Test
  void whatFellIntoTheMachineStaysThereUntilItIsFoundThere() {
    say(bolts(ItemMove.OFF, 6));
    say(
        new ItemsMoved(
            ItemMove.DROPPED, "cover-bolts", null, 1, false, null, null, FellWhere.MACHINE));
    say(
        new ItemsMoved(
            ItemMove.DROPPED, "cover-bolts", null, 1, false, null, null, FellWhere.FLOOR));
    say(new ItemsMoved(ItemMove.FOUND, "cover-bolts", null, 1, false, null, null, FellWhere.FLOOR));
    ItemAccount account = books().confirmed().item("cover-bolts").orElseThrow();
    assertEquals(1, account.lostInMachine());
    assertEquals(1, account.count(Account.LOST));
  }

  @Test
  void foundItMeansTheOneThatWasLost() {
    say(bolts(ItemMove.OFF, 6));
    say(bolts(ItemMove.DROPPED, 1));
    ItemsMoved foundIt =
        new ItemsMoved(ItemMove.FOUND, "cover-bolts", null, null, false, null, null, null);
    say(foundIt);
    ItemAccount account = books().confirmed().item("cover-bolts").orElseThrow();
    assertEquals(0, account.count(Account.LOST));
    assertEquals(6, account.count(Account.TRAY));

    say(bolts(ItemMove.DROPPED, 2));
    say(foundIt);
    assertEquals(2, books().confirmed().item("cover-bolts").orElseThrow().count(Account.LOST));
  }

  @Test
  void fluidWithNoAmountOrNoUnitStaysVisibleAndCountsForNothing() {
    say(fluid(FluidMove.OUT, null));
    say(fluid(FluidMove.OUT, Amount.of("2.1", Unit.UNSAID)));
    FluidAccount cooling = books().confirmed().fluid("cooling").orElseThrow();
    assertEquals(2, cooling.uncounted().size());
    assertEquals(Rational.ZERO, cooling.litres(Account.PAN));
  }

  @Test
  void impossibleAmountsAreExplained() {
    say(bolts(ItemMove.OFF, 0));
    say(bolts(ItemMove.OFF, -2));
    say(fluid(FluidMove.OUT, Amount.of("-1", Unit.LITRE)));
    say(fluid(FluidMove.OUT, Amount.of("3", Unit.MILLIMETRE)));
    assertEquals(
        List.of(
            Remark.Why.IMPOSSIBLE_COUNT,
            Remark.Why.IMPOSSIBLE_COUNT,
            Remark.Why.IMPOSSIBLE_AMOUNT,
            Remark.Why.NOT_A_VOLUME),
        remarks());
  }

  @Test
  void quartsAndLitresAddUpExactly() {
    say(fluid(FluidMove.OUT, Amount.of("1", Unit.US_QUART)));
    say(fluid(FluidMove.OUT, Amount.of("2.1", Unit.LITRE)));
    assertEquals(
        Rational.parse("3.046352946"),
        books().confirmed().fluid("cooling").orElseThrow().litres(Account.PAN));
  }

  @Test
  void anUnknownOpeningAmountIsMarkedInTheBalance() {
    say(fluid(FluidMove.OUT, Amount.of("2.1", Unit.LITRE)));
    assertEquals(
        "Balance[subject=cooling, label=cooling system, lines=["
            + "Line[account=SYSTEM, count=null, amount=-2.10 L, opening=true], "
            + "Line[account=PAN, count=null, amount=2.10 L, opening=false]]]",
        books().balances().get(books().balances().size() - 1).toString());
  }

  @Test
  void aPlanWithNothingButANameTakesEveryEntry() {
    Plan empty =
        PlanReader.read("empty.yaml", "tallyback-plan: 1\nname: nothing\n").plan().orElseThrow();
    say(bolts(ItemMove.OFF, 4));
    say(fluid(FluidMove.OUT, Amount.of("2.1", Unit.LITRE)));
    say(new TemporaryMoved(true, "locking-pin", null));
    Books books = Books.of(empty, entries);
    assertEquals(2, books.confirmed().items().size());
    assertEquals(1, books.confirmed().fluids().size());
  }

  private static <T> T any(T[] choices, Random random) {
    return choices[random.nextInt(choices.length)];
  }

  private Statement randomMove(Random random) {
    return switch (random.nextInt(4)) {
      case 0 -> {
        ItemMove move = any(ItemMove.values(), random);
        String item = random.nextBoolean() ? "cover-bolts" : "cover-clips";
        yield new ItemsMoved(
            move, item, null, 1 + random.nextInt(4), random.nextInt(9) == 0, null, null, null);
      }
      case 1 -> new PartFitted("gasket", any(PartCondition.values(), random));
      case 2 -> new TemporaryMoved(random.nextBoolean(), "locking-pin", null);
      default -> {
        FluidMove move = any(FluidMove.values(), random);
        Unit unit = random.nextBoolean() ? Unit.LITRE : Unit.IMPERIAL_PINT;
        yield fluid(move, Amount.of((1 + random.nextInt(40)) + ".5", unit));
      }
    };
  }

  /** Against the plainest way to do it: each undo walks down what it turns over. */
  @Test
  void anyUndosOfUndosComeToTheSameAsOneByOne() {
    Random random = new Random(SEED);
    for (int job = 0; job < 2_000; job++) {
      entries.clear();
      int count = 2 + random.nextInt(30);
      int[] withdrew = new int[count];
      boolean[] withdrawn = new boolean[count];
      boolean mostlyTheLast = random.nextBoolean();
      for (int place = 0; place < count; place++) {
        withdrew[place] = -1;
        if (place < 2 || random.nextInt(4) == 0) {
          say(bolts(ItemMove.OFF, 1));
          continue;
        }
        boolean bare = random.nextInt(8) == 0;
        int target =
            bare
                ? lastStandingMove(place, withdrawn)
                : mostlyTheLast && random.nextInt(8) > 0 ? place - 1 : random.nextInt(place);
        say(new Undone(bare ? null : entries.get(target).id()));
        if (target >= 0 && !withdrawn[target]) {
          withdrew[place] = target;
          boolean now = true;
          for (int each = target; each >= 0; each = withdrew[each]) {
            withdrawn[each] = now;
            now = !now;
          }
        }
      }
      List<String> expected = new ArrayList<>();
      for (int place = 0; place < count; place++) {
        if (!withdrawn[place] && entries.get(place).statement() instanceof ItemsMoved) {
          expected.add(entries.get(place).id());
        }
      }
      assertEquals(
          expected,
          books().standing().stream().map(said -> said.entry().id()).toList(),
          "seed " + SEED + ", job " + job);
    }
  }

  private int lastStandingMove(int before, boolean[] withdrawn) {
    for (int place = before - 1; place >= 0; place--) {
      if (!withdrawn[place] && entries.get(place).statement() instanceof ItemsMoved) {
        return place;
      }
    }
    return -1;
  }

  /** Walking down all the others each time would be five thousand million steps. */
  @Test
  void aLongChainOfUndosIsNoTrouble() {
    String last = say(bolts(ItemMove.OFF, 1));
    for (int undo = 0; undo < 100_000; undo++) {
      last = say(new Undone(last));
    }
    assertEquals(1, bolts(Account.TRAY));
    say(new Undone(last));
    assertEquals(0, bolts(Account.TRAY));
  }

  @Test
  void aMoveNeverMakesOrLosesAnything() {
    Random random = new Random(SEED);
    Ledger opening = Books.of(PLAN, List.of()).confirmed();
    for (int job = 0; job < 2_000; job++) {
      entries.clear();
      int count = random.nextInt(20);
      for (int move = 0; move < count; move++) {
        say(randomMove(random));
      }
      Ledger now = books().confirmed();
      for (Map.Entry<String, ItemAccount> item : opening.items().entrySet()) {
        assertEquals(
            total(item.getValue()),
            total(now.item(item.getKey()).orElseThrow()),
            "seed " + SEED + ", job " + job);
      }
      assertEquals(
          Rational.ZERO,
          total(now.fluid("cooling").orElseThrow()),
          "seed " + SEED + ", job " + job);
    }
  }

  private static int total(ItemAccount account) {
    return account.balances().values().stream().mapToInt(Integer::intValue).sum();
  }

  private static Rational total(FluidAccount account) {
    return account.balances().values().stream().reduce(Rational.ZERO, Rational::plus);
  }

  @Test
  void undoRestoresTheBalancesExactly() {
    Random random = new Random(SEED + 1);
    for (int job = 0; job < 2_000; job++) {
      entries.clear();
      int count = random.nextInt(15);
      for (int move = 0; move < count; move++) {
        say(randomMove(random));
      }
      Ledger before = books().confirmed();
      int more = 1 + random.nextInt(5);
      for (int move = 0; move < more; move++) {
        say(randomMove(random));
      }
      for (int move = 0; move < more; move++) {
        say(new Undone(null));
      }
      assertEquals(before, books().confirmed(), "seed " + SEED + ", job " + job);
    }
  }
}
