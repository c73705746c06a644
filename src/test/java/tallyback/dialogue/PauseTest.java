package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Source;
import tallyback.model.Statement.Resumed;

/** While work is paused nothing is kept. */
class PauseTest {

  private static final String PAUSED = "paused: say carry on first";

  private final Talk talk = new Talk();

  private Reply called(String... readings) {
    return talk.dialogue()
        .take(
            new Utterance("c", Talk.NINE, Source.SPOKEN, List.of(readings), false, null, true, 20));
  }

  @Test
  void nothingThatIsSaidIsNoted() {
    talk.sure("pause the job");
    int before = talk.noted.size();
    for (String words :
        List.of(
            "six pump bolts off",
            "torqued the outlet nuts to nineteen newton metres",
            "photo taken",
            "scratch that",
            "remind me in ten minutes",
            "anna speaking",
            "leaving for the night")) {
      Reply reply = talk.sure(words);
      assertEquals(Status.REJECTED, reply.status(), words);
      assertEquals(PAUSED, reply.say(), words);
    }
    assertEquals(
        Status.REJECTED, talk.doubtful("six pump bolts off", "five pump bolts off").status());
    assertEquals(before, talk.noted.size());
    assertTrue(talk.dialogue().finish().isEmpty(), "and nothing stays open");
  }

  @Test
  void whoeverCallsIsToldAndNothingOfItIsKept() {
    talk.sure("pause the job");
    int before = talk.noted.size();
    assertEquals(PAUSED, called().say());
    assertEquals(PAUSED, called("five belly pan bolts off").say());
    assertEquals(before, talk.noted.size());
  }

  @Test
  void aMemoIsNotTaken() {
    talk.sure("pause the job");
    int before = talk.noted.size();
    assertEquals(
        PAUSED,
        talk.dialogue()
            .memo(
                new Utterance("m", Talk.NINE, Source.SPOKEN, List.of(), false, null, true, 20),
                3,
                false)
            .say());
    assertEquals(
        PAUSED,
        talk.dialogue()
            .take(new Utterance("t", Talk.NINE, Source.TYPED, List.of("memo worn"), false, null))
            .say());
    assertEquals(before, talk.noted.size());
  }

  @Test
  void carryOnEndsItAlsoAfterTheToolWasStartedAgain() {
    talk.sureOf("five belly pan bolts off", "pause the job");
    talk.startAgain();
    assertTrue(talk.dialogue().isPaused());
    assertEquals(Status.NOTED, talk.sure("carry on").status());
    assertEquals(new Resumed(), talk.last());
    assertEquals(Status.NOTED, talk.sure("six pump bolts off").status());
  }

  @Test
  void aTimerRingsAllTheSame() {
    talk.sureOf("remind me in ten minutes", "pause the job");
    assertEquals(
        List.of("reminder: ten minutes over"),
        talk.dialogue().remindersDue(Talk.NINE.plusSeconds(60 * 12)));
  }

  @Test
  void ordersToTheVoiceAndTheEarKeepNothing() {
    talk.sure("pause the job");
    assertEquals(Status.ANSWERED, talk.sure("quieter").status());
    assertEquals(Status.ANSWERED, talk.sure("wait for the word").status());
    assertEquals(PAUSED, talk.sure("what timers are running").say());
  }
}
