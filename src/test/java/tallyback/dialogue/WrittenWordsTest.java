package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Source;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.Written;

/** What is typed for the owner of the machine. */
class WrittenWordsTest {

  private final Talk talk = new Talk();

  private Reply typed(String line) {
    return talk.dialogue()
        .take(new Utterance("t", Talk.NINE, Source.TYPED, List.of(line), false, null));
  }

  @Test
  void theWordsBehindTheColonCountAsTheyStand() {
    assertEquals(
        Status.NOTED, typed("Complaint:  Loses coolant; \u00bc L a day, <b> 2,5 ").status());
    assertEquals(
        new Written(About.COMPLAINT, "Loses coolant; \u00bc L a day, <b> 2,5"), talk.last());
    assertEquals("again: complaint: leaks", again("complaint: leaks"));
    talk.sure("scratch that");
    assertEquals(new Undone("t"), talk.last());
  }

  private String again(String line) {
    typed(line);
    return talk.sure("say that again").say();
  }

  @Test
  void eachOfThemCanBeTyped() {
    Set<About> typed = EnumSet.noneOf(About.class);
    for (String head :
        List.of(
            "owner",
            "complaint",
            "arrival",
            "condition",
            "condition on arrival",
            "cause",
            "extra work",
            "agreed",
            "agreed with",
            "advice",
            "watch",
            "to  watch",
            "old parts",
            "waste",
            "signed",
            "Signed by")) {
      assertEquals(Status.NOTED, typed(head + ": six pump bolts off").status(), head);
      typed.add(((Written) talk.last()).about());
    }
    assertEquals(EnumSet.allOf(About.class), typed);
  }

  @Test
  void withoutAColonAWordOrATextItIsNone() {
    for (String line : List.of("complaint loses coolant", "complaint:", "waste : ", "rumour: x")) {
      assertEquals(Status.REJECTED, typed(line).status(), line);
    }
    assertEquals(List.of(), talk.noted);
    typed("memo complaint: x");
    assertEquals(new Memo(null, "complaint: x"), talk.last());
  }

  @Test
  void spokenItIsNone() {
    assertEquals(Status.REJECTED, talk.sure("complaint: loses coolant").status());
  }
}
