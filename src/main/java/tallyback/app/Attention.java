package tallyback.app;

import tallyback.phrase.WordGraph;

/** Puts the attention word in front of everything that may be said. */
final class Attention {

  private Attention() {}

  static WordGraph before(WordGraph entries, String word) {
    WordGraph.Builder builder = new WordGraph.Builder();
    // State 0 is the start of what is built; the entries' own states follow it.
    for (int state = 0; state < entries.stateCount(); state++) {
      builder.newState();
    }
    builder.arc(0, word, 1 + entries.start());
    for (int state = 0; state < entries.stateCount(); state++) {
      for (WordGraph.Arc arc : entries.arcs(state)) {
        builder.arc(1 + state, arc.word(), 1 + arc.target());
      }
      if (entries.isFinal(state)) {
        builder.accept(1 + state);
      }
    }
    return builder.build();
  }
}
