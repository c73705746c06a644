package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Amount;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.Undone;
import tallyback.model.Unit;

/** "The belly pan was five, not six": an earlier entry put right by naming what it is about. */
class NamedRepairTest {

  private final Talk talk = new Talk();

  private Corrected corrected() {
    return (Corrected) talk.last();
  }

  private void assertNothingNoted(int entries, String why, Reply reply) {
    assertEquals(why, reply.say());
    assertEquals(Status.REJECTED, reply.status());
    assertEquals(entries, talk.noted.size());
  }

  @Test
  void aCountIsPutRightByThePartItFastens() {
    talk.sureOf("four belly pan bolts off", "three belt guard bolts off", "engine cold");
    Reply reply = talk.sure("belly pan was five not four");
    assertEquals(Status.NOTED, reply.status());
    assertEquals("u1", corrected().target());
    ItemsMoved now = (ItemsMoved) corrected().now();
    assertEquals("belly-pan-bolts", now.item());
    assertEquals(5, now.count());
    assertEquals(ItemMove.OFF, now.move());
    assertEquals("instead of four, noted at 09:01", reply.reminder());
  }

  @Test
  void aTorqueIsPutRightWithItsUnit() {
    talk.sureOf("torqued the outlet nuts to sixty newton metres", "engine cold");
    Reply reply = talk.sure("outlet nuts were sixteen newton metres not sixty");
    Tightened now = (Tightened) corrected().now();
    assertEquals("outlet-nuts", now.item());
    assertEquals(Amount.of("16", Unit.NEWTON_METRE), now.torque());
    assertEquals("instead of six zero newton metres, noted at 09:01", reply.reminder());
  }

  @Test
  void aBareNumberKeepsTheUnitThatWasSaid() {
    talk.sureOf("torqued the outlet nuts to sixty inch pounds");
    talk.sure("outlet nuts were sixteen not sixty");
    assertEquals(Amount.of("16", Unit.POUND_INCH), Talk.amountOf(corrected().now()));
  }

  @Test
  void aVolumeIsPutRightByItsDrainPoint() {
    talk.sureOf(
        "drained two point six litres from the left plug",
        "drained one point one litres from the block plug");
    talk.sure("the block plug was two point one litres");
    assertEquals("u2", corrected().target());
    FluidMoved now = (FluidMoved) corrected().now();
    assertEquals("block-drain", now.place());
    assertEquals(Amount.of("2.1", Unit.LITRE), now.amount());
  }

  @Test
  void ofSeveralEntriesTheLastThatSaysItIsMeant() {
    talk.sureOf(
        "four belly pan bolts off", "five belly pan bolts back on", "three belt guard bolts off");
    talk.sure("belly pan was four not five");
    assertEquals("u2", corrected().target());
    talk.sure("belly pan was five not four");
    assertEquals(ItemMove.ON, ((ItemsMoved) ((Corrected) talk.last()).now()).move());
  }

  @Test
  void whatWasTakenBackIsNotPutRight() {
    talk.sureOf("four belly pan bolts off", "scratch that");
    assertNothingNoted(
        2,
        "nothing is noted about the belly pan; say it in full",
        talk.sure("belly pan was five not four"));
  }

  @Test
  void aCorrectedEntryIsPutRightByTheValueItHasNow() {
    talk.sureOf("four belly pan bolts off", "belly pan was three not four", "engine cold");
    talk.sure("belly pan was five not three");
    assertEquals("u1", corrected().target());
    assertEquals(5, ((ItemsMoved) corrected().now()).count());
    assertNothingNoted(
        4,
        "no entry about the belly pan says four; say it in full",
        talk.sure("belly pan was two not four"));
  }

  @Test
  void aValueThatNobodySaidIsNotGuessed() {
    talk.sure("belly pan off");
    assertNothingNoted(
        1,
        "no entry about the belly pan says six; say it in full",
        talk.sure("belly pan was five not six"));
    assertNothingNoted(
        1,
        "no entry about the belly pan has such a value; say it in full",
        talk.sure("belly pan was five litres"));
  }

  @Test
  void twoThingsThatFitAreNotGuessedBetween() {
    talk.sureOf("five belly pan bolts off", "belly pan bolts to five newton metres");
    Reply reply = talk.sure("belly pan bolts were four not five");
    assertEquals(Status.REJECTED, reply.status());
    assertEquals(
        "that could be belly pan bolts to five newton metres, or five belly pan bolts off; name it"
            + " in full",
        reply.say());
    talk.sure("belly pan bolts were nine newton metres not five");
    assertEquals(Amount.of("9", Unit.NEWTON_METRE), Talk.amountOf(corrected().now()));
  }

  @Test
  void twoGroupsAtOnePlaceAreNotGuessedBetween() {
    talk.sureOf("two pump bolts off", "two long bolts off");
    Reply reply = talk.sure("water pump was one not two");
    assertEquals(
        "that could be two long bolts off, or two pump bolts off; name it in full", reply.say());
    talk.sure("long bolts were one not two");
    assertEquals("long-bolts", ((ItemsMoved) corrected().now()).item());
  }

  @Test
  void howManyWereTightenedIsPutRight() {
    talk.sureOf("three outlet nuts to nineteen newton metres");
    talk.sure("outlet nuts were two not three");
    Tightened now = (Tightened) corrected().now();
    assertEquals(2, now.count());
    assertEquals(Amount.of("19", Unit.NEWTON_METRE), now.torque());
  }

  @Test
  void aTemporaryThingIsPutRight() {
    talk.sureOf("put one of the clamp pliers in", "engine cold");
    talk.sure("clamp pliers were two not one");
    assertEquals(new TemporaryMoved(true, "clamp-pliers", 2), corrected().now());
  }

  @Test
  void aHeadSizeIsPutRight() {
    talk.sureOf("six bolts twelve millimetre out of the splash guard", "engine cold");
    talk.sure("splash guard was ten millimetres not twelve");
    assertEquals(Amount.of("10", Unit.MILLIMETRE), ((ItemsMoved) corrected().now()).headSize());
  }

  @Test
  void whatIsNotedSoAlreadyIsSaid() {
    talk.sure("drained two point one litres from the block plug");
    assertNothingNoted(
        1, "it is noted so already", talk.sure("block plug was two point one litres"));
  }

  @Test
  void aDoubtfulRepairIsAskedAbout() {
    talk.sureOf("four belly pan bolts off", "engine cold");
    Reply asked = talk.doubtful("belly pan was five not four", "belly pan was nine not four");
    assertEquals(Status.ASKED, asked.status());
    Reply reply = talk.sure("yes");
    assertEquals(5, ((ItemsMoved) corrected().now()).count());
    assertEquals("instead of four, noted at 09:01", reply.reminder());
  }

  @Test
  void theLastEntryNeedsNoTime() {
    talk.sure("torqued the outlet nuts to sixty inch pounds");
    assertEquals(
        "instead of six zero inch pounds", talk.sure("scratch that sixteen not sixty").reminder());
  }

  @Test
  void aUnitLeftOpenNeverBecomesTheOldOne() {
    talk.sure("drained two point one litres from the block plug");
    assertEquals(Status.REJECTED, talk.sure("block plug was two quarts").status());
    assertEquals(Status.REJECTED, talk.sure("correction two quarts").status());
    talk.doubtful("drained three litres from the block plug");
    assertEquals(Status.ASKED, talk.sure("no two quarts").status());
    assertEquals(1, talk.noted.size());
  }

  // ---- taking back by name

  @Test
  void theLastEntryAboutANamedThingIsTakenBack() {
    talk.sureOf("five belly pan bolts off", "three belt guard bolts off", "engine cold");
    Reply reply = talk.sure("scratch the belly pan");
    assertEquals(new Undone("u1"), talk.last());
    assertEquals("taken back: five belly pan bolts off, noted at 09:01", reply.reminder());
    assertEquals(
        "nothing is noted about the belly pan; say it in full",
        talk.sure("scratch the belly pan").say());
  }

  @Test
  void takingBackTheLastSaysWhatItWas() {
    talk.sure("five belly pan bolts off");
    assertEquals("taken back: five belly pan bolts off", talk.sure("scratch that").reminder());
  }

  // ---- the other reading

  @Test
  void theOtherReadingOfTheLastEntryReplacesIt() {
    talk.doubtful("three belt guard bolts off", "two belt guard bolts off");
    talk.sure("yes");
    Reply reply = talk.sure("the other reading");
    assertEquals("u1", corrected().target());
    assertEquals(2, ((ItemsMoved) corrected().now()).count());
    assertEquals("instead of three", reply.reminder());
    assertNothingNoted(
        2, "nothing else was heard there; say it in full", talk.sure("the other reading"));
  }

  @Test
  void theOtherReadingOfWhatWasNotedUnaskedIsKnownToo() {
    talk.say(false, "three belt guard bolts off", "two belt guard bolts off");
    talk.sure("the other reading");
    assertEquals(2, ((ItemsMoved) corrected().now()).count());
  }

  @Test
  void readingsThatMeanTheSameAreNoOthers() {
    talk.say(false, "three belt guard bolts off", "belt guard bolts three off");
    assertEquals(
        "nothing else was heard there; say it in full", talk.sure("the other reading").say());
  }

  @Test
  void theOtherReadingAnswersTheQuestion() {
    talk.doubtful("three belt guard bolts off", "two belt guard bolts off");
    Reply reply = talk.sure("the other reading");
    assertEquals("did you say \"two belt guard bolts off\"? yes, no, or say it again", reply.say());
    talk.sure("yes");
    assertEquals(2, ((ItemsMoved) talk.last()).count());
  }

  @Test
  void nothingHeardBeforeHasNoOtherReading() {
    assertNothingNoted(
        0, "nothing else was heard there; say it in full", talk.sure("the other reading"));
  }

  @Test
  void anotherEntryInBetweenForgetsTheOtherReading() {
    talk.say(false, "three belt guard bolts off", "two belt guard bolts off");
    talk.sure("engine cold");
    assertEquals(
        "nothing else was heard there; say it in full", talk.sure("the other reading").say());
  }
}
