package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Certainty;
import tallyback.model.Source;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.Undone;

/** Memos, typed and spoken, and photos. */
class MemoTest {

  private final Talk talk = new Talk();

  private Reply typed(String line) {
    return talk.dialogue()
        .take(new Utterance("t", Talk.NINE, Source.TYPED, List.of(line), false, null));
  }

  private Reply spoken(int seconds, boolean cut) {
    return talk.dialogue()
        .memo(
            new Utterance("m", Talk.NINE, Source.SPOKEN, List.of(), false, null, true, 20),
            seconds,
            cut);
  }

  @Test
  void aTypedMemoIsItsTextWhateverItSays() {
    assertEquals(Status.NOTED, typed("memo the thread looks worn").status());
    assertEquals(new Memo(null, "the thread looks worn"), talk.last());
    assertEquals(Status.NOTED, typed("Memo: six pump bolts off").status());
    assertEquals(new Memo(null, "six pump bolts off"), talk.last());
  }

  @Test
  void aTypedMemoOfNothingIsTurnedDown() {
    Reply reply = typed("memo");
    assertEquals(Status.REJECTED, reply.status());
    assertEquals(
        "a memo of what? write it behind the word: memo the thread looks worn", reply.say());
    assertEquals(List.of(), talk.noted);
  }

  @Test
  void aSpokenMemoIsNotedWithItsLengthAndTakenBack() {
    assertEquals(Status.NOTED, spoken(40, false).status());
    assertEquals(new Memo(40, null), talk.last());
    assertEquals("again: memo, forty seconds, kept", talk.sure("say that again").say());
    talk.sure("scratch that");
    assertEquals(new Undone("m"), talk.last());
  }

  @Test
  void theLongestSaysSo() {
    assertEquals("that is the longest a memo can be", spoken(60, true).reminder());
  }

  @Test
  void whatWasAskedBeforeStaysOpen() {
    assertEquals(Status.ASKED, talk.sure("torqued the outlet nuts to nineteen").status());
    Reply begun = talk.dialogue().memoBegun(List.of("memo"));
    assertEquals(1, begun.leftOpen().size());
    assertEquals(Certainty.UNCONFIRMED, talk.lastEntry().certainty());
    assertFalse(talk.dialogue().isWaitingForAnswer());
  }

  @Test
  void onlyItsOwnWordsBeginAndEndIt() {
    assertTrue(talk.dialogue().beginsMemo("voice memo"));
    assertFalse(talk.dialogue().beginsMemo("six pump bolts off"));
    assertTrue(talk.dialogue().endsMemo("end of memo"));
    assertFalse(talk.dialogue().endsMemo("voice memo"));
    assertEquals("no memo was begun", talk.sure("end of memo").say());
  }

  @Test
  void photosAreNumberedAndANumberIsNeverGivenAgain() {
    talk.sureOf("photo of the belly pan", "photo taken");
    assertEquals(new PhotoMarked(null, 2), talk.last());
    talk.sureOf("scratch that", "photo of the belly pan");
    assertEquals(new PhotoMarked("belly-pan", 3), talk.last());
    assertEquals("the last: photo three, belly pan", talk.sure("read back the last").say());
    talk.startAgain();
    talk.sure("photo taken");
    assertEquals(new PhotoMarked(null, 4), talk.last());
  }
}
