package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.dialogue.answers.Answers;
import tallyback.log.Draft;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.HowHeard.Asked;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.Undone;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

class DialogueTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private static Plan plan;
  private static Interpreter interpreter;
  private static Answers answers;

  private final List<Entry> noted = new ArrayList<>();
  private Dialogue dialogue = dialogue(List.of());
  private int said;

  @BeforeAll
  static void makeGrammar() throws IOException {
    plan = PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    EntryGrammar grammar = EntryGrammar.of(plan);
    interpreter = Interpreter.of(grammar);
    answers = new Answers(plan, grammar::readBack, grammar::card);
  }

  private Dialogue dialogue(List<Entry> before) {
    Dialogue.Setting setting =
        new Dialogue.Setting("job", "test", "mechanic", ZoneOffset.UTC, InstantSource.fixed(NINE));
    return new Dialogue(plan, interpreter, answers, (draft, clip) -> note(draft), setting, before);
  }

  private Entry note(Draft draft) {
    Entry entry = draft.noted(noted.size() + 1L, null);
    noted.add(entry);
    return entry;
  }

  private Reply sure(String words) {
    return say(false, words);
  }

  private Reply doubtful(String... readings) {
    return say(true, readings);
  }

  private Reply say(boolean doubtful, String... readings) {
    said++;
    return dialogue.take(
        new Utterance(
            "u" + said,
            NINE.plusSeconds(60L * said),
            Source.SPOKEN,
            List.of(readings),
            doubtful,
            null));
  }

  private Statement last() {
    return noted.get(noted.size() - 1).statement();
  }

  private static Amount amountOf(Statement statement) {
    return Amounts.of(statement).orElseThrow();
  }

  private Reply called(int snrDb, String... readings) {
    return heard(true, snrDb, readings);
  }

  private Reply heard(boolean called, @Nullable Integer snrDb, String... readings) {
    said++;
    return dialogue.take(
        new Utterance(
            "u" + said,
            NINE.plusSeconds(60L * said),
            Source.SPOKEN,
            List.of(readings),
            false,
            null,
            called,
            snrDb));
  }

  @Test
  void whatFollowsTheAttentionWordAndIsNotUnderstoodIsKept() {
    Reply reply = called(9);
    assertEquals(Status.REJECTED, reply.status());
    assertEquals("not understood, kept; say it again when it is quieter", reply.say());
    assertEquals(noted.get(0), reply.entry());
    assertEquals(new Statement.NotUnderstood(9), last());
    assertEquals(Certainty.UNCONFIRMED, noted.get(0).certainty());
    assertEquals("", noted.get(0).words());
    assertEquals(NINE.plusSeconds(60), noted.get(0).happenedAt());
  }

  @Test
  void inTheQuietItIsToBeSaidAnotherWay() {
    assertEquals("not understood, kept; say it again another way", called(25).say());
  }

  @Test
  void withoutTheAttentionWordNothingIsKept() {
    Reply reply = heard(false, 9);
    assertEquals("", reply.say());
    assertEquals(List.of(), noted);
  }

  @Test
  void inABreakNothingIsKept() {
    sure("taking a break");
    called(9);
    assertEquals(1, noted.size());
  }

  @Test
  void whatWasNotUnderstoodIsRemindedOfOnceWhenItIsClearlyQuieter() {
    called(9);
    called(11);
    assertEquals("", called(14, "six pump bolts off").reminder());
    assertEquals(
        "at 09:01 something was not understood: say it again, then \"never mind what you missed\"",
        called(15, "engine cold").reminder());
    assertEquals(
        "at 09:02 something was not understood: say it again, then \"never mind what you missed\"",
        called(40, "battery off").reminder());
    assertEquals("", called(40, "on stands").reminder());
  }

  @Test
  void severalThingsMissedAreRemindedOfTogether() {
    called(9);
    called(9);
    called(9);
    assertEquals(
        "at 09:01, 09:02 and 09:03 something was not understood: say it again, then \"never mind"
            + " what you missed\"",
        called(40, "engine cold").reminder());
  }

  @Test
  void whatIsNotNotedRemindsOfNothing() {
    called(9);
    assertEquals("", heard(false, 40).reminder());
  }

  @Test
  void whatWasMissedIsSettledByThePhrase() {
    called(9);
    assertEquals(Status.NOTED, sure("never mind what you missed").status());
    assertEquals(new Statement.NotUnderstoodSettled(), last());
    assertEquals("", called(40, "engine cold").reminder());
  }

  @Test
  void thePhraseWithdrawnLeavesItMissedAgain() {
    called(9);
    sure("never mind what you missed");
    sure("scratch that");
    assertFalse(called(40, "engine cold").reminder().isEmpty());
  }

  @Test
  void nothingMissedCannotBeSettled() {
    Reply reply = sure("never mind what you missed");
    assertEquals(Status.REJECTED, reply.status());
    assertEquals("nothing was missed", reply.say());
    assertEquals(List.of(), noted);
  }

  @Test
  void scratchThatMeansWhatWasUnderstoodBefore() {
    sure("six pump bolts off");
    called(9);
    sure("scratch that");
    assertEquals(new Statement.Undone("u1"), last());
  }

  @Test
  void anOpenQuestionStaysOpenBehindWhatWasNotUnderstood() {
    doubtful("six pump bolts off", "sixteen pump bolts off");
    assertEquals(List.of("six pump bolts off", "sixteen pump bolts off"), dialogue.offered());
    called(9);
    assertTrue(dialogue.isWaitingForAnswer());
    sure("yes");
    assertEquals(6, ((ItemsMoved) last()).count());
    assertEquals(List.of(), dialogue.offered());
  }

  @Test
  void aDialogueThatGoesOnRemembersWhatWasMissed() {
    called(9);
    dialogue = dialogue(List.copyOf(noted));
    assertFalse(called(40, "engine cold").reminder().isEmpty());
  }

  @Test
  void aClearEntryIsNotedAsSaid() {
    Reply reply = sure("six pump bolts off");
    assertEquals(Status.NOTED, reply.status());
    assertEquals("six pump bolts off", noted.get(0).words());
    ItemsMoved moved = (ItemsMoved) last();
    assertEquals("pump-bolts", moved.item());
    assertEquals(6, moved.count());
    assertEquals(NINE.plusSeconds(60), noted.get(0).happenedAt());
  }

  @Test
  void boltsNamedByTheirPlaceAreFoundInThePlan() {
    sure("six bolts ten millimetre out of the splash guard");
    assertEquals("splash-guard-bolts", ((ItemsMoved) last()).item());
  }

  @Test
  void aHeadSizeThatDiffersFromThePlanIsKeptAsSaid() {
    sure("six bolts twelve millimetre out of the splash guard");
    ItemsMoved moved = (ItemsMoved) last();
    assertEquals("splash-guard-bolts", moved.item());
    assertEquals(Amount.of("12", Unit.MILLIMETRE), moved.headSize());
  }

  @Test
  void lostOneMeansOneOfWhatWasSpokenOfBefore() {
    sure("four elbow nuts off");
    sure("dropped one in the machine");
    ItemsMoved dropped = (ItemsMoved) last();
    assertEquals(ItemMove.DROPPED, dropped.move());
    assertEquals("elbow-nuts", dropped.item());
    sure("found it");
    assertEquals("elbow-nuts", ((ItemsMoved) last()).item());
  }

  @Test
  void lostOneAfterTheCoverIsOneOfTheBoltsThatHeldIt() {
    sure("splash guard off");
    sure("dropped one in the machine");
    assertEquals("splash-guard-bolts", ((ItemsMoved) last()).item());
    sure("thermostat off");
    sure("dropped one in the machine");
    assertNull(((ItemsMoved) last()).item());
    sure("thermostat off");
    sure("dropped it in the machine");
    assertEquals("thermostat", ((ItemsMoved) last()).item());
  }

  @Test
  void theOtherSideIsTheOtherDrain() {
    sure("drained two point nine litres from the radiator drain into the big jug");
    sure("and nine fifty mils from the other side");
    FluidMoved more = (FluidMoved) last();
    assertEquals("block-drain", more.place());
    assertEquals("cooling", more.system());
    assertEquals(Amount.of("950", Unit.MILLILITRE), more.amount());
  }

  @Test
  void aNumberWithoutUnitIsAskedAndTheUnitSettlesIt() {
    Reply asked = sure("torqued the fan nuts to twenty two");
    assertEquals(Status.ASKED, asked.status());
    assertTrue(asked.say().startsWith("22 what? newton metres"), asked.say());
    assertTrue(noted.isEmpty());
    Reply answered = sure("foot pounds");
    assertEquals(Status.NOTED, answered.status());
    assertEquals(Amount.of("22", Unit.POUND_FOOT), amountOf(last()));
    assertEquals("u1", noted.get(0).id());
    assertEquals(Certainty.CONFIRMED, noted.get(0).certainty());
  }

  @Test
  void aUnitIsNeverTakenFromThePlan() {
    sure("torqued the fan nuts to twenty two");
    dialogue.finish();
    assertEquals(Amount.of("22", Unit.UNSAID), amountOf(last()));
    assertEquals(Certainty.UNCONFIRMED, noted.get(0).certainty());
  }

  @Test
  void anUnansweredQuestionIsNotedAsUnconfirmedBeforeTheNextEntry() {
    sure("torqued the fan nuts to twenty two");
    Reply next = sure("fan shroud back on");
    assertEquals(1, next.leftOpen().size());
    assertEquals(Certainty.UNCONFIRMED, noted.get(0).certainty());
    assertEquals("u1", noted.get(0).id());
    assertEquals(Certainty.CONFIRMED, noted.get(1).certainty());
  }

  @Test
  void doubtIsAskedAndYesNotesTheFirstReading() {
    Reply asked =
        doubtful("elbow nuts to fifteen newton metres", "elbow nuts to fifty newton metres");
    assertEquals(Status.ASKED, asked.status());
    assertTrue(noted.isEmpty());
    sure("yes");
    assertEquals(Amount.of("15", Unit.NEWTON_METRE), amountOf(last()));
  }

  @Test
  void noOffersTheOtherReadingAndAsksAgain() {
    doubtful("elbow nuts to fifteen newton metres", "elbow nuts to fifty newton metres");
    Reply other = sure("no");
    assertEquals(Status.ASKED, other.status());
    assertTrue(other.say().contains("fifty"), other.say());
    sure("yes");
    assertEquals(Amount.of("50", Unit.NEWTON_METRE), amountOf(last()));
  }

  @Test
  void noToBothReadingsNotesNothing() {
    doubtful("elbow nuts to fifteen newton metres", "elbow nuts to fifty newton metres");
    sure("no");
    Reply dropped = sure("no");
    assertEquals(Status.REJECTED, dropped.status());
    assertTrue(noted.isEmpty());
    assertTrue(!dialogue.isWaitingForAnswer());
  }

  @Test
  void theSecondOneNotesTheSecondReading() {
    doubtful("elbow nuts to fifteen newton metres", "elbow nuts to fifty newton metres");
    sure("the second one");
    assertEquals(Amount.of("50", Unit.NEWTON_METRE), amountOf(last()));
  }

  @Test
  void sayingItAgainSettlesTheDoubt() {
    doubtful("elbow nuts to fifteen newton metres", "elbow nuts to fifty newton metres");
    Reply again = doubtful("elbow nuts to fifty newton metres");
    assertEquals(Status.NOTED, again.status());
    assertEquals(Amount.of("50", Unit.NEWTON_METRE), amountOf(last()));
    assertEquals(1, noted.size());
  }

  @Test
  void everyReadingAndWhatWasAskedStaysWithTheEntry() {
    String fifteen = "torqued the fan nuts to fifteen";
    String fifty = "torqued the fan nuts to fifty";
    String first = doubtful(fifteen, fifty).say();
    String second = sure("yes").say();
    sure("newton metres");
    assertEquals(
        new HowHeard(
            List.of(fifteen, fifty),
            List.of(new Asked(first, "yes"), new Asked(second, "newton metres"))),
        noted.get(0).heard());
    doubtful("elbow nuts to fifteen newton metres", "elbow nuts to fifty newton metres");
    sure("no");
    sure("yes");
    HowHeard other = Objects.requireNonNull(noted.get(1).heard());
    assertEquals("elbow nuts to fifty newton metres", noted.get(1).words());
    assertEquals("elbow nuts to fifteen newton metres", other.readings().get(0));
    assertEquals(List.of("no", "yes"), other.asked().stream().map(Asked::answer).toList());
  }

  @Test
  void whatNobodyAnsweredAndWhatNobodyAskedIsToldApart() {
    String asked = sure("torqued the fan nuts to fifteen").say();
    sure("four elbow nuts off");
    assertEquals(new HowHeard(List.of(), List.of(new Asked(asked, null))), noted.get(0).heard());
    assertEquals(new HowHeard(List.of(), List.of()), noted.get(1).heard());
    say(false, "six splash guard bolts off", "four splash guard bolts off");
    assertEquals(
        List.of("six splash guard bolts off", "four splash guard bolts off"),
        Objects.requireNonNull(noted.get(2).heard()).readings());
  }

  @Test
  void whatWasTypedHasNoReadings() {
    Reply reply =
        dialogue.take(
            new Utterance("k1", NINE, Source.TYPED, List.of("four elbow nuts off"), false, null));
    assertEquals(Status.NOTED, reply.status());
    assertNull(noted.get(0).heard());
  }

  @Test
  void anotherValueAsAnswerIsTakenWithTheUnitThatWasSaid() {
    doubtful("elbow nuts to fifty newton metres");
    sure("no sixteen");
    assertEquals(Amount.of("16", Unit.NEWTON_METRE), amountOf(last()));
  }

  @Test
  void aDoubtfulNumberWithoutUnitIsAskedTwice() {
    doubtful("torqued the fan nuts to fifteen", "torqued the fan nuts to fifty");
    Reply unit = sure("yes");
    assertEquals(Status.ASKED, unit.status());
    assertTrue(unit.say().startsWith("15 what?"), unit.say());
    sure("newton metres");
    assertEquals(Amount.of("15", Unit.NEWTON_METRE), amountOf(last()));
  }

  @Test
  void scratchThatWithANumberCorrectsTheLastEntryAndKeepsIt() {
    sure("elbow nuts to sixty newton metres");
    sure("scratch that sixteen not sixty");
    Corrected corrected = (Corrected) last();
    assertEquals("u1", corrected.target());
    assertEquals(Amount.of("16", Unit.NEWTON_METRE), amountOf(corrected.now()));
    assertEquals(2, noted.size());
  }

  @Test
  void aSecondCorrectionChangesTheSameEntry() {
    sure("elbow nuts to sixty newton metres");
    sure("scratch that sixteen not sixty");
    sure("correction eighteen");
    Corrected corrected = (Corrected) last();
    assertEquals("u1", corrected.target());
    assertEquals(Amount.of("18", Unit.NEWTON_METRE), amountOf(corrected.now()));
  }

  @Test
  void scratchThatWithdrawsTheLastEntryThenTheOneBefore() {
    sure("five belly pan bolts off");
    sure("belly pan off");
    sure("scratch that");
    assertEquals("u2", ((Undone) last()).target());
    sure("scratch that");
    assertEquals("u1", ((Undone) last()).target());
    Reply none = sure("scratch that");
    assertEquals(Status.REJECTED, none.status());
    assertEquals(4, noted.size());
  }

  @Test
  void aDoubtfulCorrectionSettlesNothing() {
    doubtful("elbow nuts to fifty newton metres");
    Reply reply = doubtful("scratch that sixteen not fifty", "scratch that sixty not fifty");
    assertEquals(Status.ASKED, reply.status());
    assertEquals(Certainty.UNCONFIRMED, noted.get(0).certainty());
    assertEquals(Amount.of("50", Unit.NEWTON_METRE), amountOf(noted.get(0).statement()));
  }

  @Test
  void aReadingThatMeansNothingIsNotReplacedByAnother() {
    Reply reply = say(false, "elbow nuts to to newton", "elbow nuts to fifty newton metres");
    assertEquals(Status.REJECTED, reply.status());
    assertTrue(noted.isEmpty());
  }

  @Test
  void scratchThatDropsAnOpenQuestion() {
    sure("torqued the fan nuts to twenty two");
    sure("scratch that");
    assertTrue(noted.isEmpty());
    assertTrue(!dialogue.isWaitingForAnswer());
  }

  @Test
  void saidLateItHappenedEarlier() {
    sure("drained the block plug twenty minutes ago");
    assertEquals(NINE.plusSeconds(60 - 1200), noted.get(0).happenedAt());
  }

  @Test
  void thatWasTwentyMinutesAgoMovesTheLastEntry() {
    sure("belly pan off");
    sure("that was twenty minutes ago");
    Retimed retimed = (Retimed) last();
    assertEquals("u1", retimed.target());
    assertEquals(NINE.plusSeconds(120 - 1200), retimed.happenedAt());
  }

  @Test
  void whilePausedNothingIsNotedButCarryingOn() {
    sure("taking a break");
    Reply ignored = sure("belly pan off");
    assertEquals(Status.REJECTED, ignored.status());
    assertEquals(1, noted.size());
    sure("carry on");
    sure("belly pan off");
    assertEquals(3, noted.size());
  }

  @Test
  void theSpeakerIsWhoeverSaidSo() {
    sure("anna speaking");
    sure("belly pan off");
    assertEquals("anna", noted.get(1).actor());
  }

  @Test
  void anAnswerToNothingIsNoEntry() {
    Reply reply = sure("newton metres");
    assertEquals(Status.REJECTED, reply.status());
    assertTrue(noted.isEmpty());
  }

  @Test
  void oneBreathOfThreeFactsIsThreeEntriesWithIdsOfTheirOwn() {
    sure("running at eighty six degrees celsius heater on full");
    assertEquals(List.of("u1", "u1/2", "u1/3"), noted.stream().map(Entry::id).toList());
  }

  @Test
  void closingTheJobIsAskedWhenItWasOnlyHeard() {
    Reply asked = sure("the job is finished");
    assertEquals(Status.ASKED, asked.status());
    sure("yes");
    assertTrue(last() instanceof Statement.JobClosed);
  }

  @Test
  void aDialogueGoesOnWhereTheEntriesStop() {
    sure("anna speaking");
    sure("four elbow nuts off");
    Dialogue nextDay = dialogue(List.copyOf(noted));
    assertEquals("anna", nextDay.actor());
    nextDay.take(
        new Utterance("v1", NINE, Source.TYPED, List.of("dropped one on the floor"), false, null));
    assertEquals("elbow-nuts", ((ItemsMoved) last()).item());
  }

  @Test
  void sameAgainOnAnotherGroupRepeatsTheTorque() {
    sure("elbow nuts to eighteen newton metres");
    sure("same again on the fan nuts");
    Tightened again = (Tightened) last();
    assertEquals("fan-nuts", again.item());
    assertEquals(Amount.of("18", Unit.NEWTON_METRE), again.torque());
  }

  @Test
  void soundThatIsNoEntryChangesNothing() {
    sure("torqued the fan nuts to twenty two");
    Reply reply = say(false);
    assertEquals(Status.REJECTED, reply.status());
    assertTrue(dialogue.isWaitingForAnswer());
    assertTrue(noted.isEmpty());
  }
}
