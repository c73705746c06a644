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

  /**
   * How much better the whole reading explains its words' sound than any row of phones would.
   *
   * @return the mean {@link Word#fit} over the time of all words: natural log of the likelihood
   *     ratio per second
   */
  public double fit() {
    double total = 0;
    long durationMs = 0;
    for (Word word : words) {
      total += word.fit() * (word.endMs() - word.startMs());
      durationMs += word.endMs() - word.startMs();
    }
    return durationMs == 0 ? Double.NEGATIVE_INFINITY : total / durationMs;
  }
}
