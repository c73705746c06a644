package tallyback.speech;

import java.util.Collection;
import java.util.List;

/**
 * Words that nobody said how to pronounce, so that the recogniser could never hear them. Never
 * dropped silently.
 */
public final class UnknownWords extends IllegalArgumentException {

  private static final long serialVersionUID = 1L;

  private final List<String> words;

  /**
   * Names all the words.
   *
   * @param words the words without a pronunciation
   */
  public UnknownWords(Collection<String> words) {
    super(
        "no pronunciation for: "
            + String.join(", ", words)
            + "; expected every word of the grammar in the dictionary; add each under \"pronunciations\" in the plan, or use another word");
    this.words = List.copyOf(words);
  }

  /**
   * The words.
   *
   * @return all words without a pronunciation
   */
  public List<String> words() {
    return words;
  }
}
