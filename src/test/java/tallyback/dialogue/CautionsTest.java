package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Certainty;
import tallyback.model.Source;
import tallyback.model.Statement.CautionAnswered;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Undone;

/**
 * The plan's cautions come with the step that needs them, and what hurts people wants its answer.
 */
class CautionsTest {

  private static final String BELT =
      "caution. Key out and battery earth off before a hand goes near belt or fan. Say understood.";

  private final Talk talk = new Talk();

  @BeforeEach
  void somebodyListens() {
    talk.dialogue().sayCautions(true);
  }

  private void restart() {
    talk.startAgain();
    talk.dialogue().sayCautions(true);
  }

  @Test
  void aStepBegunIsCautionedOf() {
    Reply reply = talk.sure("starting strip belt");
    assertEquals(Status.NOTED, reply.status());
    assertEquals(BELT, reply.reminder());
    assertTrue(talk.dialogue().isWaitingForAnswer());
  }

  @Test
  void soIsTheFirstEntryThatBelongsToAStep() {
    assertEquals(BELT, talk.sure("three belt guard bolts off").reminder());
    assertEquals("", talk.sure("belt guard off").reminder().replace(Texts.GONE_ON, ""));
  }

  @Test
  void understoodIsNoted() {
    talk.sure("starting strip belt");
    assertEquals(Status.NOTED, talk.sure("understood").status());
    assertEquals(new CautionAnswered("strip-belt", true), talk.last());
    assertEquals("understood", talk.lastEntry().words());
    assertFalse(talk.dialogue().isWaitingForAnswer());
    assertEquals("", talk.sure("three belt guard bolts off").reminder());
  }

  @Test
  void yesAndOkayWillDo() {
    for (String word : new String[] {"yes", "okay", "got it"}) {
      Talk other = new Talk();
      other.dialogue().sayCautions(true);
      other.sure("starting strip belt");
      other.sure(word);
      assertEquals(new CautionAnswered("strip-belt", true), other.last(), word);
    }
  }

  @Test
  void goingOnWithoutIsNotedAndHoldsNobodyUp() {
    talk.sure("starting strip belt");
    Reply reply = talk.sure("three belt guard bolts off");
    assertEquals(Status.NOTED, reply.status());
    assertEquals("gone on without \"understood\", which is noted", reply.reminder());
    assertEquals(new CautionAnswered("strip-belt", false), talk.noted.get(1).statement());
    assertEquals(Source.TOOL, talk.noted.get(1).source());
    assertEquals(Certainty.CONFIRMED, talk.noted.get(1).certainty());
    assertTrue(talk.last() instanceof ItemsMoved);
  }

  @Test
  void makingSafeIsNoGoingOn() {
    talk.sureOf("starting strip belt", "key out", "battery off", "understood");
    assertEquals(new CautionAnswered("strip-belt", true), talk.last());
  }

  @Test
  void onceUnderstoodItIsNotSaidAgainWhileTheMachineIsAsItWas() {
    talk.sureOf("starting strip belt", "understood");
    assertEquals("", talk.sure("starting strip belt").reminder());
    talk.sureOf("engine cold", "battery off");
    assertEquals("", talk.sure("starting strip belt").reminder());
  }

  @Test
  void itIsSaidAgainWhenTheMachineHasBecomeMoreDangerous() {
    talk.sureOf("battery off", "starting strip belt", "understood", "battery back on");
    assertEquals(BELT, talk.sure("starting strip belt").reminder());
    talk.sureOf("understood", "engine running", "engine stopped");
    assertEquals(BELT, talk.sure("starting strip belt").reminder());
  }

  @Test
  void itIsSaidAgainToSomebodyElse() {
    talk.sureOf("starting strip belt", "understood", "tobias speaking");
    assertEquals(BELT, talk.sure("starting strip belt").reminder());
  }

  @Test
  void aCautionThatHurtsNobodyIsSaidOnceAndWantsNoAnswer() {
    Reply reply = talk.sure("starting strip pump");
    assertEquals(
        "caution. The locking pin is out again before the engine turns.", reply.reminder());
    assertFalse(talk.dialogue().isWaitingForAnswer());
    talk.sure("engine running");
    assertEquals("", talk.sure("starting strip pump").reminder());
  }

  @Test
  void aStepThatIsDoneIsNotCautionedOf() {
    assertEquals("", talk.sure("strip belt done").reminder());
    assertEquals("", talk.sure("three belt guard bolts off").reminder());
  }

  @Test
  void nobodyIsCautionedByARecording() {
    talk.dialogue().sayCautions(false);
    assertEquals("", talk.sure("starting strip belt").reminder());
  }

  @Test
  void understoodWithNothingAskedIsNoEntry() {
    assertEquals("nothing was asked", talk.sure("understood").say());
    talk.sure("starting strip belt");
    talk.doubtful("understood");
    assertEquals(1, talk.noted.size());
  }

  @Test
  void scratchThatDoesNotMeanTheAnswer() {
    talk.sureOf("starting strip belt", "understood", "scratch that");
    assertEquals(new Undone("u1"), talk.last());
  }

  @Test
  void whatWasUnderstoodOutlastsARestart() {
    talk.sureOf("starting strip belt", "understood");
    restart();
    assertEquals("", talk.sure("starting strip belt").reminder());
  }

  @Test
  void anOpenQuestionIsAnsweredFirst() {
    talk.sure("starting strip belt");
    talk.doubtful("two belt guard bolts off", "three belt guard bolts off");
    talk.sure("yes");
    assertTrue(talk.last() instanceof ItemsMoved);
  }

  @Test
  void whatHurtsPeopleIsToldFromWhatSpoilsTheJob() {
    assertTrue(Cautions.hurts("Open the cap only on a cold engine with the pressure off."));
    assertTrue(Cautions.hurts("Coolant is poisonous and tastes sweet."));
    assertTrue(Cautions.hurts("Run it only outside or with the exhaust led outside."));
    assertTrue(Cautions.hurts("A raised machine stands on blocks or stands at once."));
    assertFalse(Cautions.hurts("The locking pin is out again before the engine turns."));
    assertFalse(Cautions.hurts("Photograph the hose routing."));
  }

  @Test
  void thePlanMaySayWhatACautionIsAbout() {
    Talk plain =
        Talk.about(
            """
            tallyback-plan: 1
            name: Lid
            steps:
              - id: open
                say: [open lid]
                cautions:
                  - {text: The hot side is marked red., injury: false}
              - id: shut
                say: [shut lid]
                cautions:
                  - {text: Mind the edge., injury: true}
              - id: wipe
                say: [wipe lid]
                cautions: [Hot oil burns., Note the number.]
            """);
    plain.dialogue().sayCautions(true);
    assertEquals(
        "caution. The hot side is marked red.", plain.sure("starting open lid").reminder());
    assertEquals(
        "caution. Mind the edge. Say understood.", plain.sure("starting shut lid").reminder());
    plain.sure("understood");
    assertEquals(
        "caution. Hot oil burns. Note the number. Say understood.",
        plain.sure("starting wipe lid").reminder());
  }
}
