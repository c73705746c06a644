package tallyback.speech;

import java.util.List;
import java.util.Set;

/**
 * One way of reading a clip.
 *
 * @param words the words in order, at least one
 * @param logScore natural log of the likelihood of the clip's sound given these words. Only
 *     differences between readings of one clip mean anything.
 */
public record Reading(List<Word> words, double logScore) {

  /**
   * Small words say neither what nor where, and clear voices too speak some of them so that they
   * fit badly: of "point", "a", "oh" and "more" said by five clear voices, and heard right, one in
   * nine fitted worse than -110, of all other words one in a hundred and thirty.
   */
  private static final Set<String> SMALL =
      Set.of("a", "an", "the", "of", "at", "to", "it", "oh", "point", "more");

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

  /**
   * How well the word fits that fits worst.
   *
   * @return the lowest {@link Word#fit}
   */
  public double worstWordFit() {
    return words.stream().mapToDouble(Word::fit).min().orElse(Double.NEGATIVE_INFINITY);
  }

  /**
   * The same of the words that say what, where or how many: something else may have been said in
   * the place of one that fits badly.
   *
   * @return the lowest {@link Word#fit} of them; infinite when there is none
   */
  public double worstTellingWordFit() {
    return words.stream()
        .filter(word -> !SMALL.contains(word.text()))
        .mapToDouble(Word::fit)
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }
}
