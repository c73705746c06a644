package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.NotUnderstood;

/** How questions of the speaker's get along with entries and with the tool's own questions. */
class QuestionsInDialogueTest {

  private final AskedJob job =
      new AskedJob(
          """
          tallyback-plan: 1
          name: Lid off and on
          fluids: [{id: oil, say: [gear oil], grade: gear oil of the maker}]
          systems: [{id: case, say: [gear case], fluid: oil}]
          items:
            - {id: lid, say: [lid]}
            - {id: lid-bolts, say: [lid bolts], thing: bolt, count: 4, of: lid}
          steps: [{id: open, say: [open lid], off: [lid, lid-bolts]}]
          """);

  @Test
  void aQuestionIsAnsweredAndNothingIsNoted() {
    Reply reply = job.say("what's next");
    assertEquals(Status.ANSWERED, reply.status());
    assertEquals("next: open lid", reply.say());
    assertEquals("", reply.reminder());
    assertNull(reply.entry());
    assertEquals(List.of(), job.noted());
  }

  @Test
  void doubtBetweenQuestionsIsAnsweredByTheBest() {
    Reply reply = job.doubtful("what's next", "what's left");
    assertEquals(Status.ANSWERED, reply.status());
    assertEquals("next: open lid", reply.say());
    assertEquals(Status.ANSWERED, job.doubtful("what's left").status());
  }

  @Test
  void doubtWhetherItWasAnEntryIsAsked() {
    Reply reply = job.doubtful("say again", "same again");
    assertEquals(Status.ASKED, reply.status());
    assertEquals("did you say \"say again\"? yes, no, or say it again", reply.say());
    assertTrue(job.isWaitingForAnswer());
    Reply yes = job.say("yes");
    assertEquals(Status.ANSWERED, yes.status());
    assertFalse(job.isWaitingForAnswer());
    assertEquals(List.of(), job.noted());
  }

  @Test
  void noToAQuestionOffersTheEntry() {
    job.doubtful("what's next", "lid off");
    Reply reply = job.say("no");
    assertEquals("did you say \"lid off\"? yes, no, or say it again", reply.say());
    assertEquals(Status.NOTED, job.say("yes").status());
    assertEquals(ItemsMoved.class, job.noted().get(0).statement().getClass());
  }

  @Test
  void noToAnEntryOffersTheQuestion() {
    job.doubtful("lid off", "what's left");
    assertEquals("did you say \"what's left\"? yes, no, or say it again", job.say("no").say());
    assertEquals(Status.ANSWERED, job.say("yes").status());
    assertEquals(List.of(), job.noted());
  }

  @Test
  void theSecondOneMayBeAQuestion() {
    job.doubtful("lid off", "what's next");
    assertEquals("next: open lid", job.say("the second one").say());
    assertEquals(List.of(), job.noted());
  }

  @Test
  void aDoubtfulQuestionSaidAgainIsAnswered() {
    job.doubtful("what's next", "lid off");
    assertEquals("next: open lid", job.doubtful("what's next", "lid off").say());
    assertFalse(job.isWaitingForAnswer());
    assertEquals(List.of(), job.noted());
  }

  @Test
  void ofAQuestionLeftOpenNothingIsNoted() {
    job.doubtful("what's next", "lid off");
    job.tell("four lid bolts off");
    assertEquals(1, job.noted().size());
  }

  @Test
  void butWhatWasCalledOutIsKeptAsNotUnderstood() {
    job.calledDoubtful("what's next", "lid off");
    Reply reply = job.say("four lid bolts off");
    Entry left = reply.leftOpen().get(0);
    assertEquals(new NotUnderstood(40), left.statement());
    assertEquals("", left.words());
    assertEquals(Certainty.UNCONFIRMED, left.certainty());
  }

  @Test
  void theToolsOwnQuestionStaysOpenAndIsAskedAgain() {
    job.say("drained two");
    Reply reply = job.say("what's next");
    assertEquals("next: open lid", reply.say());
    assertEquals("2 what? litres, millilitres, u s quarts or imperial pints", reply.reminder());
    assertTrue(job.isWaitingForAnswer());
    assertEquals(Status.NOTED, job.say("litres").status());
    assertEquals(1, job.noted().size());
  }

  @Test
  void anUnansweredEntryIsNotSettledByAQuestion() {
    job.doubtful("lid off", "lid bolts off");
    assertEquals(Status.ANSWERED, job.say("what's left").status());
    assertEquals(List.of(), job.noted());
    assertEquals(Status.NOTED, job.say("yes").status());
  }

  @Test
  void pausedIsPaused() {
    job.tell("taking a break");
    Reply reply = job.say("what's next");
    assertEquals(Status.REJECTED, reply.status());
    assertEquals("paused: say carry on first", reply.say());
  }

  @Test
  void sayAgainRepeatsWhatWasSaidLast() {
    assertEquals("again: nothing was said yet", job.say("say again").say());
    job.tell("four lid bolts off");
    assertEquals("again: four lid bolts off", job.say("say that again").say());
    assertEquals("again: four lid bolts off", job.say("repeat that").say());
    job.say("louder");
    assertEquals("again: four lid bolts off", job.say("say again").say());
    job.say("what's next");
    assertEquals("again: next: open lid", job.say("say again").say());
  }

  @Test
  void sayAgainWhileAskedSaysTheQuestionOnce() {
    job.say("drained two");
    Reply reply = job.say("say again");
    assertEquals("again: 2 what? litres, millilitres, u s quarts or imperial pints", reply.say());
    assertEquals("", reply.reminder());
    assertTrue(job.isWaitingForAnswer());
  }

  @Test
  void sayAgainWhileAskedIsCarriedOutInDoubtToo() {
    job.say("drained two");
    assertEquals(Status.ANSWERED, job.doubtful("say again", "same again").status());
    assertTrue(job.isWaitingForAnswer());
    assertEquals(Status.NOTED, job.say("litres").status());
  }

  @Test
  void whatIsNoQuestionAndNoEntryIsNeither() {
    assertEquals(Status.REJECTED, job.say("what time is lunch").status());
  }
}
