package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Unit;

/** What can't be is asked about, whatever the score; what only differs from the plan never is. */
class ImpossibleTest {

  private static final String ENDING = " Right? yes, no, or say it again";

  private Talk talk = new Talk();

  private void assertAsked(String why, String words) {
    int before = talk.noted.size();
    Reply reply = talk.sure(words);
    assertEquals(why + ENDING, reply.say());
    assertEquals(Status.ASKED, reply.status());
    assertEquals(before, talk.noted.size());
  }

  private void assertNoted(String words) {
    Reply reply = talk.sure(words);
    assertEquals(Status.NOTED, reply.status(), reply.say());
  }

  @Test
  void moreBackOnThanAreOff() {
    assertNoted("two belly pan bolts off");
    assertAsked("that would be six of five belly pan bolts on.", "three belly pan bolts back on");
    assertEquals(Status.NOTED, talk.sure("yes").status());
    assertEquals(3, ((ItemsMoved) talk.last()).count());
    assertEquals(Certainty.CONFIRMED, talk.lastEntry().certainty());
    assertEquals("three belly pan bolts back on", talk.lastEntry().words());
  }

  @Test
  void moreBackOnThanTheGroupHas() {
    assertNoted("five belly pan bolts off");
    assertAsked("that would be six of five belly pan bolts on.", "six belly pan bolts back on");
    assertEquals("dropped, nothing noted; say it again", talk.sure("no").say());
    assertNoted("five belly pan bolts back on");
  }

  @Test
  void moreOffThanTheGroupHas() {
    assertAsked("that would be seven of five belly pan bolts off.", "seven belly pan bolts off");
  }

  @Test
  void theRightNumberMayBeSaidInstead() {
    assertAsked("that would be seven of five belly pan bolts off.", "seven belly pan bolts off");
    assertEquals(Status.NOTED, talk.sure("no five").status());
    assertEquals(5, ((ItemsMoved) talk.last()).count());
  }

  @Test
  void anotherImpossibleNumberIsAskedAboutAgain() {
    assertAsked("that would be seven of five belly pan bolts off.", "seven belly pan bolts off");
    Reply reply = talk.sure("no eight");
    assertEquals("that would be eight of five belly pan bolts off." + ENDING, reply.say());
  }

  @Test
  void saidTwiceAlikeItIsMeant() {
    assertAsked("that would be seven of five belly pan bolts off.", "seven belly pan bolts off");
    assertEquals(Status.NOTED, talk.sure("seven belly pan bolts off").status());
    assertEquals(1, talk.noted.size());
  }

  @Test
  void whatWasSaidWithoutANumberIsNotHeldAgainstTheCount() {
    assertNoted("belly pan bolts off");
    assertNoted("five belly pan bolts back on");
  }

  @Test
  void unansweredItIsNotedAsUnconfirmed() {
    talk.sure("seven belly pan bolts off");
    Reply reply = talk.sure("engine cold");
    assertEquals(1, reply.leftOpen().size());
    assertEquals(Certainty.UNCONFIRMED, talk.noted.get(0).certainty());
  }

  @Test
  void moreTightenedThanThereAre() {
    assertAsked(
        "that would be nine of six pump bolts.", "nine pump bolts to twenty four newton metres");
  }

  @Test
  void doubtAndWhyAreAskedTogether() {
    Reply reply = talk.doubtful("seven belly pan bolts off", "eleven belly pan bolts off");
    assertEquals(
        "did you say \"seven belly pan bolts off\"? that would be seven of five belly pan bolts"
            + " off. yes, no, or say it again",
        reply.say());
    assertEquals(Status.NOTED, talk.sure("yes").status());
  }

  @Test
  void moreDrainedThanTheSystemHolds() {
    assertNoted("drained four litres from the block plug");
    assertAsked(
        "that would be nine point zero zero litres out of the cooling system, which holds six point"
            + " four litres.",
        "drained five litres from the left plug");
  }

  @Test
  void whatTheJugsCantTellIsNotAskedAbout() {
    assertNoted("drained six point five litres from the block plug");
  }

  @Test
  void aCorrectionCanBeImpossibleToo() {
    assertNoted("five belly pan bolts off");
    assertAsked(
        "that would be fifteen of five belly pan bolts off.", "scratch that fifteen not five");
    assertNotedAfterYes();
  }

  private void assertNotedAfterYes() {
    assertEquals(Status.NOTED, talk.sure("yes").status());
  }

  @Test
  void beyondTheWrenchNamed() {
    Reply reply = talk.sure("outlet nuts to ninety newton metres with the small wrench");
    assertEquals(Status.ASKED, reply.status());
    assertTrue(
        reply.say().contains("is beyond the small wrench, which goes from five newton metres to"),
        reply.say());
    assertNotedAfterYes();
    assertEquals(Amount.of("90", Unit.NEWTON_METRE), Talk.amountOf(talk.last()));
  }

  @Test
  void beyondEveryWrench() {
    Reply reply = talk.sure("outlet nuts to nine hundred newton metres");
    assertEquals(Status.ASKED, reply.status());
    assertTrue(reply.say().contains("is beyond every wrench of the plan"), reply.say());
  }

  @Test
  void driftFromThePlanIsNotedAsSaid() {
    assertNoted("outlet nuts to sixty newton metres");
    assertNoted("pump bolts to thirty five newton metres");
    assertNoted("drained point three litres from the block plug");
  }

  @Test
  void aStepThatWasDone() {
    assertNoted("strip covers done");
    assertAsked("strip covers was done already, at 09:01.", "strip covers done");
    assertNotedAfterYes();
    assertEquals(new StepMarked("strip-covers", StepMark.DONE), talk.last());
  }

  @Test
  void aStepDoneAgainIsNoContradiction() {
    assertNoted("strip covers done");
    assertNoted("strip covers done again");
  }

  @Test
  void aStepTakenBackMayBeDone() {
    talk.sureOf("strip covers done", "scratch that");
    assertNoted("strip covers done");
  }

  @Test
  void beforeTheJobWasOpened() {
    talk = Talk.opened();
    assertAsked(
        "that would be at 06:01, before the job was opened at 08:00.",
        "five belly pan bolts off three hours ago");
    assertEquals(Status.NOTED, talk.sure("yes").status());
    assertNoted("engine cold half an hour ago");
  }

  @Test
  void aLaterTimeThatLiesBeforeTheJob() {
    talk = Talk.opened();
    assertNoted("five belly pan bolts off");
    assertAsked(
        "that would be at 05:02, before the job was opened at 08:00.", "that was four hours ago");
  }
}
