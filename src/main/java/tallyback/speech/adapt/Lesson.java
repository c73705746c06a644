package tallyback.speech.adapt;

import java.util.List;
import tallyback.audio.Clip;

/**
 * A recording without noise of which it is known what is said.
 *
 * @param clip its sound, as cut out of a stream
 * @param words what is said in it, in lower case; at least one
 */
public record Lesson(Clip clip, List<String> words) {

  /** Copies the words. */
  public Lesson {
    words = List.copyOf(words);
    if (words.isEmpty()) {
      throw new IllegalArgumentException("a lesson needs words");
    }
  }
}
