package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import tallyback.model.Statement;
import tallyback.model.Statement.FilmMark;
import tallyback.model.Statement.LookAgain;
import tallyback.model.Statement.Span;
import tallyback.model.Statement.Undone;
import tallyback.phrase.ReadBackText;

/** Marks for a film, and what is to be looked at again. */
class FilmMarksTest {

  private final Talk talk = new Talk();

  private String saidBack(String words) {
    talk.sure(words);
    return new ReadBackText(talk.dialogue().plan()).of(talk.last()).spoken();
  }

  @Test
  void aMarkWithoutANumberGetsTheNext() {
    assertEquals("camera mark one", saidBack("camera mark"));
    assertEquals(new FilmMark(1), talk.last());
    talk.sure("camera mark five");
    assertEquals(new FilmMark(5), talk.last());
    assertEquals("camera mark six", saidBack("camera mark"));
  }

  @Test
  void aNumberIsNotGivenAgainWhenItsMarkIsTakenBack() {
    talk.sureOf("camera mark", "scratch that");
    assertEquals(Undone.class, talk.last().getClass());
    talk.sure("camera mark");
    assertEquals(new FilmMark(2), talk.last());
  }

  @Test
  void aMarkIsNotWhatTheNextEntryFollowsOn() {
    talk.sureOf("three tens off the belly pan", "camera mark one");
    assertEquals("belly-pan-bolts", ((Statement.ItemsMoved) after("and two more")).item());
  }

  private Statement after(String words) {
    talk.sure(words);
    return talk.last();
  }

  @Test
  void lookingAgainIsSaidBackSoThatANumberCantBeMisheard() {
    assertEquals(
        "look again at the outlet nuts in two weeks",
        saidBack("look again in two weeks at the outlet nuts"));
    assertEquals(new LookAgain(2, Span.WEEKS, "outlet-nuts", false), talk.last());
    assertEquals("look again at the level tomorrow", saidBack("look again at the level tomorrow"));
    assertEquals("look again in thirteen days, one three", saidBack("look again in thirteen days"));
    assertEquals("look again in a year", saidBack("look again in twelve months"));
  }

  @Test
  void itCanBeTakenBack() {
    talk.sureOf("look again at the level in a week", "scratch that");
    assertEquals(Undone.class, talk.last().getClass());
  }
}
