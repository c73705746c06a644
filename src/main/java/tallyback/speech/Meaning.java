package tallyback.speech;

import java.util.List;

/**
 * Tells when two readings amount to the same entry, so that nobody is asked to choose between "six
 * bolt" and "six bolts".
 *
 * <p>Thread rule: called by the recogniser's owner.
 */
@FunctionalInterface
public interface Meaning {

  /**
   * What a phrase means.
   *
   * @param words a phrase that the grammar accepts
   * @return anything with {@code equals}: equal for phrases that mean the same
   */
  Object of(List<String> words);

  /**
   * Takes every phrase at its words.
   *
   * @return a meaning under which different words always differ
   */
  static Meaning literal() {
    return List::copyOf;
  }
}
