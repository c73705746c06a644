package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement.Hindrance;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.Undone;

/** What is said where it is too noisy, and what becomes of it when it is quiet. */
class TooNoisyTest {

  private final Talk talk = new Talk();
  private int called;

  TooNoisyTest() {
    talk.dialogue().asksAgain(true);
  }

  /** Somebody calls something out in the noise, two minutes after the last time, from nine on. */
  private Reply inNoise(String... readings) {
    return inNoise(true, readings);
  }

  private Reply inNoise(boolean kept, String... readings) {
    called++;
    return talk.dialogue()
        .tooNoisy(
            new Utterance(
                "n" + called,
                Talk.NINE.plusSeconds(120L * (called - 1)),
                Source.SPOKEN,
                List.of(readings),
                false,
                null,
                kept,
                4));
  }

  private Optional<Reply> quietAt(int minute) {
    return talk.dialogue().sayAgain(at(minute), false);
  }

  private static Instant at(int minute) {
    return Talk.NINE.plusSeconds(60L * minute);
  }

  private static String asks(Optional<Reply> reply) {
    return reply.map(Reply::say).orElse("");
  }

  @Test
  void whatIsCalledOutIsKeptWhateverItSoundedLike() {
    Reply reply = inNoise("six pump bolts off");
    assertEquals(Status.REJECTED, reply.status());
    assertEquals(
        "too noisy to trust what I hear: not noted, kept as sound. I'll ask you when it is quieter",
        reply.say());
    assertEquals(new NotUnderstood(4, Hindrance.NOISE), talk.last());
    assertEquals(Certainty.UNCONFIRMED, talk.lastEntry().certainty());
    assertEquals("", talk.lastEntry().words());
  }

  @Test
  void nothingElseIsKept() {
    assertEquals(
        "too noisy to trust what I hear: say it when it is quieter", inNoise(false, "yes").say());
    assertEquals(List.of(), talk.noted);
  }

  @Test
  void aRecordingAsksNobodyAndWhoListensAfterwardsAsks() {
    talk.dialogue().asksAgain(false);
    assertEquals(
        "too noisy to trust what I hear: not noted, kept as sound. Say it again when it is quieter",
        inNoise().say());
    assertTrue(clearly("wheels chocked").reminder().startsWith("at 09:00 something was not"));
    startAgain();
    assertTrue(asks(quietAt(5)).startsWith("one thing was said in the noise"));
  }

  @Test
  void whoWillBeAskedIsNotReminded() {
    inNoise();
    assertEquals("", clearly("wheels chocked").reminder());
  }

  /** Somebody says something without any noise. */
  private Reply clearly(String words) {
    return talk.dialogue()
        .take(new Utterance("clear", at(3), Source.SPOKEN, List.of(words), false, null, false, 40));
  }

  private void startAgain() {
    talk.startAgain();
    talk.dialogue().asksAgain(true);
  }

  @Test
  void whatStillWaitsIsAskedForAfterTheToolWasStartedAgain() {
    inNoise();
    inNoise();
    quietAt(5);
    talk.sure("six pump bolts off");
    startAgain();
    assertTrue(
        asks(quietAt(6))
            .startsWith("one thing was said in the noise. Say it again: it was at 09:02"));
    talk.sure("belly pan off");
    startAgain();
    assertEquals("", asks(quietAt(7)));
  }

  @Test
  void takenBackBeforeItWasStartedAgainItIsWantedOnceMore() {
    inNoise();
    quietAt(5);
    talk.sureOf("six pump bolts off", "scratch that");
    startAgain();
    assertTrue(asks(quietAt(6)).contains("09:00"));
  }

  @Test
  void theEarliestIsAskedForFirstAndEachOnce() {
    inNoise("six pump bolts off");
    inNoise();
    assertEquals(
        "two things were said in the noise. Say the first again: it was at 09:00. Or: skip it, ask"
            + " me later",
        asks(quietAt(5)));
    assertTrue(talk.dialogue().isWaitingForAnswer());
    assertTrue(talk.dialogue().isSayingAgain());
    assertEquals(List.of("skip it", "ask me later"), talk.dialogue().answers());
    assertEquals("", asks(quietAt(6)), "it is being waited for");
  }

  @Test
  void whatIsSaidAgainIsNotedWhenItWasFirstSaidAndSettlesIt() {
    inNoise();
    inNoise();
    quietAt(5);
    Reply reply = talk.sure("six pump bolts off");
    assertEquals(Status.NOTED, reply.status());
    Entry again = talk.noted.get(2);
    assertEquals(6, ((ItemsMoved) again.statement()).count());
    assertEquals(Talk.NINE, again.happenedAt());
    assertEquals(Certainty.CONFIRMED, again.certainty());
    assertEquals(new NotUnderstoodSettled("n1", again.id()), talk.last());
    assertEquals(Source.TOOL, talk.lastEntry().source());
    assertEquals("noted as said at 09:00. now what you said at 09:02", reply.reminder());
    talk.sure("belly pan off");
    assertEquals(at(2), talk.noted.get(4).happenedAt());
    assertFalse(talk.dialogue().isWaitingForAnswer());
    talk.sure("wheels chocked");
    assertFalse(talk.lastEntry().happenedAt().isBefore(at(3)), "nothing is asked for any more");
    assertEquals(Status.REJECTED, talk.sure("never mind what you missed").status());
  }

  @Test
  void minutesAgoAreReckonedFromThen() {
    inNoise();
    quietAt(60);
    talk.sure("engine stopped ten minutes ago");
    assertEquals(at(-10), talk.noted.get(1).happenedAt());
  }

  @Test
  void inDoubtItIsAskedAboutAndThenSettled() {
    inNoise();
    quietAt(5);
    assertEquals(Status.ASKED, talk.doubtful("six pump bolts off", "five pump bolts off").status());
    assertEquals(1, talk.noted.size());
    talk.sure("yes");
    assertEquals(Talk.NINE, talk.noted.get(1).happenedAt());
    assertEquals(new NotUnderstoodSettled("n1", talk.noted.get(1).id()), talk.last());
  }

  @Test
  void leftInDoubtItSettlesNothing() {
    inNoise();
    quietAt(5);
    talk.doubtful("six pump bolts off", "five pump bolts off");
    talk.dialogue().finish();
    assertEquals(Certainty.UNCONFIRMED, talk.lastEntry().certainty());
    assertEquals(2, talk.noted.size());
  }

  @Test
  void takenBackItIsWantedOnceMore() {
    inNoise();
    quietAt(5);
    talk.sure("six pump bolts off");
    talk.sure("scratch that");
    assertEquals(new Undone(talk.noted.get(1).id()), talk.last());
    assertTrue(asks(quietAt(6)).startsWith("one thing was said in the noise. Say it again"));
  }

  @Test
  void skippedItStaysAsItIsAndIsNotAskedForAgain() {
    inNoise();
    quietAt(5);
    assertEquals(
        "skipped. What you said at 09:00 is kept as sound, not noted", talk.sure("skip it").say());
    assertEquals("", asks(quietAt(100)));
    assertEquals(1, talk.noted.size());
    assertEquals(Status.NOTED, talk.sure("never mind what you missed").status());
  }

  @Test
  void noAndNeverMindSkipItToo() {
    inNoise();
    inNoise();
    quietAt(5);
    assertEquals("now what you said at 09:02", talk.sure("no").reminder());
    talk.sure("never mind");
    assertFalse(talk.dialogue().isWaitingForAnswer());
  }

  @Test
  void putOffItIsAskedForTenMinutesLater() {
    inNoise();
    quietAt(5);
    assertEquals("later, then", talk.sure("ask me later").say());
    assertEquals("", asks(quietAt(10)));
    assertTrue(asks(quietAt(11)).contains("09:00"));
  }

  @Test
  void whoDoesNotAnswerIsLeftInPeace() {
    inNoise();
    inNoise();
    quietAt(5);
    talk.dialogue().notSaidAgain(at(6));
    assertFalse(talk.dialogue().isWaitingForAnswer());
    assertEquals("", asks(quietAt(15)));
    assertEquals(
        "one thing was said in the noise. Say it again: it was at 09:02. Or: skip it, ask me later",
        asks(quietAt(16)));
  }

  @Test
  void whatWasSaidHoursAgoNobodyRemembers() {
    inNoise();
    assertEquals("", asks(quietAt(121)));
  }

  @Test
  void aQuestionOfTheSpeakersIsAnsweredInBetween() {
    inNoise();
    quietAt(5);
    assertEquals(Status.ANSWERED, talk.sure("what's next").status());
    talk.sure("six pump bolts off");
    assertEquals(Talk.NINE, talk.noted.get(1).happenedAt());
  }

  @Test
  void aBreakIsNoRepeat() {
    inNoise();
    quietAt(5);
    talk.sure("taking a break");
    assertEquals(new Paused(), talk.last());
    assertTrue(talk.lastEntry().happenedAt().isAfter(Talk.NINE));
    assertEquals("", asks(quietAt(7)), "nobody is asked in a break");
  }

  @Test
  void settledAsAWholeNothingIsAskedFor() {
    inNoise();
    talk.sure("never mind what you missed");
    assertEquals("", asks(quietAt(5)));
  }

  @Test
  void aQuestionLeftInTheNoiseIsAskedAgain() {
    talk.doubtful("six pump bolts off", "sixteen pump bolts off");
    inNoise(false, "yes");
    assertTrue(talk.dialogue().isUndecided());
    assertEquals(
        "did you say \"six pump bolts off\"? yes, no, or say it again",
        asks(talk.dialogue().sayAgain(at(5), true)));
    assertEquals("", asks(talk.dialogue().sayAgain(at(5), false)));
    talk.sure("yes");
    assertEquals(6, ((ItemsMoved) talk.last()).count());
  }

  @Test
  void onlyWhatPutsNothingIntoTheLogIsSafe() {
    Dialogue dialogue = talk.dialogue();
    assertTrue(dialogue.isSafeInNoise("scratch that"));
    assertTrue(dialogue.isSafeInNoise("what's next"));
    assertFalse(dialogue.isSafeInNoise("no"), "nothing is asked");
    assertFalse(dialogue.isSafeInNoise("six pump bolts off"));
    assertFalse(dialogue.isSafeInNoise("listen to everything"));
    talk.doubtful("six pump bolts off", "sixteen pump bolts off");
    assertTrue(dialogue.isSafeInNoise("no"));
    assertTrue(dialogue.isSafeInNoise("never mind"));
    assertFalse(dialogue.isSafeInNoise("yes"));
    assertFalse(dialogue.isSafeInNoise("no sixteen newton metres"));
  }
}
