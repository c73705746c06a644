package tallyback.phrase;

import java.util.List;
import java.util.random.RandomGenerator;

/**
 * Phrases of an entry grammar for the figures: drawn with a seed, every branch as often as its
 * siblings.
 */
public final class Examples {

  private final EntryGrammar grammar;
  private final PhraseMaker maker;

  /** Phrases of everything that may be noted when it is said of one's own accord. */
  public Examples(EntryGrammar grammar, RandomGenerator random) {
    this.grammar = grammar;
    maker = new PhraseMaker(grammar.compiledEntries(), random);
  }

  /** The next phrase. */
  public List<String> next() {
    List<String> phrase = maker.next();
    while (notesNothing(String.join(" ", phrase))) {
      phrase = maker.next();
    }
    return phrase;
  }

  private boolean notesNothing(String words) {
    return grammar.readQuestion(words).isPresent();
  }
}
