package tallyback.speech.adapt;

import java.util.List;
import tallyback.audio.Clip;

/**
 * A line that was repeated.
 *
 * @param clip its sound, as cut out of a stream
 * @param words what was to be said, in lower case; at least one
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
