package tallyback.speech.adapt;

import java.util.List;
import tallyback.audio.Clip;

/**
 * A recording without noise of which it is known what is said.
 *
 * @param words the words in lower case, at least one
 * @param clip the sound
 */
public record KnownSpeech(List<String> words, Clip clip) {

  /** Copies the words. */
  public KnownSpeech {
    words = List.copyOf(words);
    if (words.isEmpty()) {
      throw new IllegalArgumentException("known speech needs its words; give at least one");
    }
  }
}
