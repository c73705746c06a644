package tallyback.speech;

import java.util.List;

/**
 * How well a clip fits words that were given to the recogniser.
 *
 * @param words the candidate
 * @param logScore natural log of the likelihood of the clip's sound given these words; negative
 *     infinity when the clip cannot be read so at all
 */
public record ScoredCandidate(List<String> words, double logScore) {

  /** Copies the words. */
  public ScoredCandidate {
    words = List.copyOf(words);
  }
}
