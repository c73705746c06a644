package tallyback.phrase;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A grammar made ready: reads phrases and gives the graph of all phrases for the recogniser.
 *
 * <p>A grammar without recursion is regular, so it becomes a finite-state transducer (words in,
 * pieces out) and, without the pieces, a minimal acceptor. Words are given out only between a tag
 * that ends in {@code <} and the tag {@code >}: {@code <NULL> {number<} two point one {>}} gives
 * the tag {@code number<}, the words "two", "point", "one" and the tag {@code >}. All other words
 * give nothing; tags always are given out.
 *
 * <p>Thread rule: share freely; nothing of it changes once it is seen.
 */
final class CompiledGrammar {

  /** More words than anybody says or types in one entry; what is longer is not read. */
  static final int LONGEST_PHRASE_WORDS = 200;

  private final RuleBook book;
  private final PhraseNetwork network;
  private final Transducer transducer;

  /** Made when it is first wanted: only who listens or looks for near phrases wants it. */
  private volatile @Nullable WordGraph graph;

  private CompiledGrammar(RuleBook book) {
    this.book = book;
    this.network = PhraseNetwork.of(book);
    this.transducer = Transducer.of(network);
  }

  /**
   * Compiles.
   *
   * @param files the files; all their rules share one namespace
   * @param rootRule the name of the rule that every phrase begins with, without brackets
   * @return the compiled grammar
   * @throws UnusableGrammarException with every fault that keeps it from being compiled
   */
  static CompiledGrammar compile(List<JsgfFile> files, String rootRule) {
    RuleBook book = new RuleBook(files, rootRule);
    List<GrammarFault> faults = book.faults();
    if (!faults.isEmpty()) {
      throw new UnusableGrammarException(faults);
    }
    return new CompiledGrammar(book);
  }

  /**
   * Reads a phrase.
   *
   * @param words its words, in lower case
   * @return all different ways to read it: none if it is no phrase of the grammar, and more than
   *     one only if the grammar is ambiguous, which {@link GrammarLint} refuses
   */
  List<Parse> parse(List<String> words) {
    return words.size() > LONGEST_PHRASE_WORDS ? List.of() : transducer.parse(words);
  }

  /** Everything that may be said. */
  WordGraph graph() {
    WordGraph made = graph;
    if (made == null) {
      synchronized (this) {
        made = graph;
        if (made == null) {
          made = WordGraph.of(network.words(), transducer.acceptor());
          graph = made;
        }
      }
    }
    return made;
  }

  /** The whole grammar as one file of the JSpeech Grammar Format. */
  String toJsgf() {
    return JsgfWriter.write("tallyback", book.rules().stream().map(this::rootPublic).toList());
  }

  private JsgfRule rootPublic(JsgfRule rule) {
    return new JsgfRule(
        rule.name(),
        rule.isPublic() || rule.name().equals(book.root()),
        rule.expansion(),
        rule.source(),
        rule.line());
  }

  RuleBook book() {
    return book;
  }

  PhraseNetwork network() {
    return network;
  }

  Transducer transducer() {
    return transducer;
  }
}
