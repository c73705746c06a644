package tallyback.speech;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tallyback.phrase.EntryGrammar;

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

  private static final List<Set<String>> TEENS_AND_TENS =
      List.of(
          Set.of("thirteen", "thirty"),
          Set.of("fourteen", "forty"),
          Set.of("fifteen", "fifty"),
          Set.of("sixteen", "sixty"),
          Set.of("seventeen", "seventy"),
          Set.of("eighteen", "eighty"),
          Set.of("nineteen", "ninety"));

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
    if (rival.size() > best.size()) {
      return longer;
    }
    List<String> heard = without(best, rival);
    List<String> other = without(rival, best);
    if (heard.contains("nine") && other.contains("nought")) {
      return nought;
    }
    if (TEENS_AND_TENS.stream().anyMatch(pair -> hasOneEach(pair, heard, other))) {
      return teen;
    }
    boolean inNumber =
        heard.stream().anyMatch(EntryGrammar::isNumberWord)
            || other.stream().anyMatch(EntryGrammar::isNumberWord);
    return inNumber ? number : word;
  }

  /** The words of one reading that are not in the other, each as often as it is too many. */
  private static List<String> without(List<String> words, List<String> others) {
    List<String> left = new ArrayList<>(words);
    others.forEach(left::remove);
    return left;
  }

  private static boolean hasOneEach(Set<String> pair, List<String> heard, List<String> other) {
    return heard.stream().anyMatch(pair::contains) && other.stream().anyMatch(pair::contains);
  }
}
