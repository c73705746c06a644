package tallyback.app;

import java.util.List;
import tallyback.phrase.WordGraph;

/** The attention word in front of what may be said. */
final class Attention {

  private Attention() {}

  /** The word alone. */
  static WordGraph alone(String word) {
    return WordGraph.ofPhrases(List.of(List.of(word)));
  }

  /** Everything that may be said, with the word in front of it or without. */
  static WordGraph maybeBefore(WordGraph phrases, String word) {
    WordGraph.Builder builder = new WordGraph.Builder();
    // State 0 is the start of what is built; the phrases' own states follow it.
    for (int state = 0; state < phrases.stateCount(); state++) {
      builder.newState();
    }
    builder.arc(0, word, 1 + phrases.start());
    builder.emptyArc(0, 1 + phrases.start());
    for (int state = 0; state < phrases.stateCount(); state++) {
      for (WordGraph.Arc arc : phrases.arcs(state)) {
        builder.arc(1 + state, arc.word(), 1 + arc.target());
      }
      if (phrases.isFinal(state)) {
        builder.accept(1 + state);
      }
    }
    return builder.build();
  }
}
