package tallyback.phrase;

import java.util.List;

/**
 * How words sound: the port through which grammar lint and recogniser ask for pronunciations.
 *
 * <p>A word without a pronunciation cannot be heard, and a recogniser that skips it silently turns
 * one entry into another. So everything that builds a grammar asks here first, and refuses the word
 * by name.
 *
 * <p>Thread rule: implementations are immutable after construction and may be shared.
 */
public interface Lexicon {

  /**
   * Says whether the word can be heard.
   *
   * @param word one word in lower case, as it stands in a {@link WordGraph}
   * @return whether at least one pronunciation is known
   */
  boolean knows(String word);

  /**
   * The ways the word is said, the commonest first.
   *
   * @param word one word in lower case
   * @return each pronunciation as ARPAbet phones separated by one blank, without stress marks
   *     ({@code "T AO R K T"}), as in the CMU Pronouncing Dictionary; empty when the word is
   *     unknown
   */
  List<String> pronunciations(String word);
}
