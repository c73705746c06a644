package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.dialogue.answers.Voices;

class WhoseVoiceTest {

  /** Anna and Max were taught; Max's is not there any more. */
  private static final class Taught implements Voices {
    private @Nullable String now;

    @Override
    public @Nullable String expected() {
      return now;
    }

    @Override
    public boolean expect(@Nullable String voice) {
      if (voice != null && !Set.of("anna").contains(voice)) {
        return false;
      }
      now = voice;
      return true;
    }
  }

  private final Talk talk = Talk.withVoices("anna", "max");
  private final Taught voices = new Taught();

  @Test
  void whoSpeaksIsAnsweredAndSwitchedAndNothingIsNoted() {
    talk.dialogue().hearsThrough(voices);
    assertEquals(
        "speaking: mechanic. I listen for anybody's voice", talk.sure("who is speaking").say());
    Reply reply = talk.sure("anna is speaking");
    assertEquals(Status.ANSWERED, reply.status());
    assertEquals("from now on I listen for anna's voice", reply.say());
    assertEquals("anna", voices.now);
    assertEquals(
        "speaking: mechanic. I listen for anna's voice", talk.sure("who's speaking").say());
    assertEquals(
        "max: that voice was not taught; nothing changes", talk.sure("speaking is max").say());
    assertEquals("anna", voices.now);
    assertEquals(
        "from now on I listen for anybody's voice", talk.sure("anybody is speaking").say());
    assertNull(voices.now);
    assertEquals(0, talk.noted.size());
  }

  @Test
  void anOrderThatWasHeardInDoubtIsAskedAbout() {
    talk.dialogue().hearsThrough(voices);
    assertEquals(Status.ASKED, talk.doubtful("anna is speaking", "anna speaking").status());
    assertNull(voices.now);
  }

  @Test
  void whereAllIsTypedNoVoiceIsHeard() {
    assertEquals(
        "that is for what is heard; nothing changes here", talk.sure("anna is speaking").say());
  }
}
