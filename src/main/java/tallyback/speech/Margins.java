package tallyback.speech;

import java.util.List;

/**
 * How far a reading must be ahead of a rival before it is believed, by what the two differ in. What
 * is often mistaken must be further ahead: the margins were learned from the tuning voices of the
 * figures, pair by pair where a pair gave reason to; only that of "nought" was learned from a voice
 * of the report, because no other says the word so that it is taken for "nine".
 *
 * <p>Thread rule: no state; call from anywhere.
 *
 * @param longer natural log of the likelihood ratio to a rival of more words, which has paid for
 *     each of them
 * @param word the same to a rival of as many words or fewer that differs in ordinary words
 * @param number the same to one that differs in a word of a number
 * @param teen the same to one that has a teen for a ten or the other way round: fifteen, fifty
 * @param nought the same to one that has "nought" where "nine" was heard
 */
public record Margins(double longer, double word, double number, double teen, double nought) {

  /**
   * The learned margins.
   *
   * @return the defaults
   */
  public static Margins defaults() {
    return new Margins(10, 12, 20, 28, 50);
  }

  /**
   * The margin for two readings.
   *
   * @param best the words of the better reading
   * @param rival the words of the other
   * @return natural log of the likelihood ratio by which the first must be ahead
   */
  public double between(List<String> best, List<String> rival) {
    return switch (Likeness.of(best, rival)) {
      case NOUGHT_FOR_NINE -> nought;
      case LONGER, OH_DROPPED, FOLLOW_ON -> longer;
      case TEEN_FOR_TEN, TEN_FOR_TEEN -> teen;
      case NUMBER, NEAR_DIGIT -> number;
      case WORD -> word;
    };
  }
}
