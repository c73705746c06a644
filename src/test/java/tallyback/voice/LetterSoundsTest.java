package tallyback.voice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tallyback.speech.CmuLexicon;
import tallyback.voice.freetts.FreeTtsVoice;

/** The sounds that are suggested for a word nobody knows. */
class LetterSoundsTest {

  @Test
  void aWordThatIsSpelledAsItIsSaid() {
    assertEquals(Optional.of("G R AA M AH T"), FreeTtsVoice.sounds("grommet"));
    assertEquals(Optional.of("B L IY D ER"), FreeTtsVoice.sounds("bleeder"));
  }

  @Test
  void whatHasNoLettersHasNoSounds() {
    assertEquals(Optional.empty(), FreeTtsVoice.sounds("'"));
  }

  /** A suggestion that a plan would be refused for is none. */
  @Test
  void everyPhoneIsOneThatAPlanMayUse() {
    for (String word :
        List.of("quillerby", "zyzzgrub", "o'ring", "wrenchhouse", "jaguar", "azure")) {
      String phones = FreeTtsVoice.sounds(word).orElseThrow();
      CmuLexicon with = CmuLexicon.load().with(Map.of(word, List.of(phones)));
      assertTrue(with.knows(word), word + " " + phones);
    }
  }
}
