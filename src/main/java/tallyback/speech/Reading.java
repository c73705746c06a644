package tallyback.speech;

import java.util.List;

/**
 * One way of reading a clip.
 *
 * @param words the words in order, at least one
 * @param logScore natural log of the likelihood of the clip's sound given these words. Only
 *     differences between readings of one clip mean anything.
 */
public record Reading(List<Word> words, double logScore) {

  /** Copies the words. */
  public Reading {
    words = List.copyOf(words);
  }

  /**
   * The words alone.
   *
   * @return their texts in order
   */
  public List<String> texts() {
    return words.stream().map(Word::text).toList();
  }

  /**
   * The reading as a line of text.
   *
   * @return the words separated by blanks
   */
  public String line() {
    return String.join(" ", texts());
  }
}
