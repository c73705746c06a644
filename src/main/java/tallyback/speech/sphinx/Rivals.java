package tallyback.speech.sphinx;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import tallyback.phrase.WordGraph;

/**
 * The phrases that a reading is most easily mistaken for: those of the same grammar in which one
 * word is exchanged for any other, or one or two for words that sound alike (fifteen and fifty,
 * eight and ten), one word stands for two or two for one (forty and four two), or a short word is
 * put in or left out (oh, and, a).
 *
 * <p>The search keeps one history per state, so its second best is no true runner-up; decoding the
 * clip again over these phrases alone finds it.
 */
final class Rivals {

  private static final int MOST_PHRASES = 1200;

  private final WordGraph grammar;
  private final SoundAlike sounds;
  private final List<String> best;
  private final Set<List<String>> found = new LinkedHashSet<>();

  /** Whether any word may be exchanged, or only such as sound alike. */
  private boolean anyWord;

  private Rivals(List<String> best, WordGraph grammar, SoundAlike sounds) {
    this.best = best;
    this.grammar = grammar;
    this.sounds = sounds;
  }

  /**
   * The rivals of a reading, those with as many words or fewer apart from those with more: a longer
   * one has paid for each of its words, so it must be nearer to cast a doubt, and the stronger of
   * the two must not hide the other. Some of them may come to the same as the reading.
   *
   * @return the phrases of each of the two kinds that has any
   */
  static List<Set<List<String>>> of(List<String> best, WordGraph grammar, SoundAlike sounds) {
    Rivals rivals = new Rivals(best, grammar, sounds);
    // The likeliest first: a long row of numbers has more rivals than there is time for.
    rivals.explore(1);
    rivals.explore(2);
    rivals.anyWord = true;
    rivals.explore(1);
    rivals.found.remove(best);
    Set<List<String>> longer = new LinkedHashSet<>();
    Set<List<String>> others = new LinkedHashSet<>();
    rivals.found.forEach(phrase -> (phrase.size() > best.size() ? longer : others).add(phrase));
    return Stream.of(others, longer).filter(phrases -> !phrases.isEmpty()).toList();
  }

  private void explore(int changes) {
    explore(grammar.start(), 0, changes, new ArrayList<>());
  }

  private void explore(int state, int at, int changesLeft, List<String> said) {
    if (found.size() >= MOST_PHRASES) {
      return;
    }
    if (at == best.size() && changesLeft == 0 && grammar.isFinal(state)) {
      found.add(List.copyOf(said));
    }
    if (at < best.size()) {
      step(grammar.next(state, best.get(at)), best.get(at), at + 1, changesLeft, said);
    }
    if (changesLeft > 0) {
      change(state, at, changesLeft - 1, said);
    }
  }

  private void change(int state, int at, int changesLeft, List<String> said) {
    if (at < best.size()) {
      exchange(state, at, changesLeft, said);
      split(state, at, changesLeft, said);
      leaveOut(state, at, changesLeft, said);
    }
    if (at + 1 < best.size()) {
      join(state, at, changesLeft, said);
    }
    putIn(state, at, changesLeft, said);
  }

  private void exchange(int state, int at, int changesLeft, List<String> said) {
    String word = best.get(at);
    for (WordGraph.Arc arc : grammar.arcs(state)) {
      if (!arc.word().equals(word) && (anyWord || sounds.alike(word, arc.word()))) {
        step(arc.target(), arc.word(), at + 1, changesLeft, said);
      }
    }
  }

  private void split(int state, int at, int changesLeft, List<String> said) {
    String word = best.get(at);
    for (WordGraph.Arc first : grammar.arcs(state)) {
      if (!sounds.beginAlike(word, first.word())) {
        continue;
      }
      for (WordGraph.Arc second : grammar.arcs(first.target())) {
        if (sounds.alike(word, first.word(), second.word())) {
          said.add(first.word());
          step(second.target(), second.word(), at + 1, changesLeft, said);
          said.remove(said.size() - 1);
        }
      }
    }
  }

  private void join(int state, int at, int changesLeft, List<String> said) {
    for (WordGraph.Arc arc : grammar.arcs(state)) {
      if (sounds.alike(arc.word(), best.get(at), best.get(at + 1))) {
        step(arc.target(), arc.word(), at + 2, changesLeft, said);
      }
    }
  }

  private void leaveOut(int state, int at, int changesLeft, List<String> said) {
    if (sounds.isShort(best.get(at))) {
      explore(state, at + 1, changesLeft, said);
    }
  }

  private void putIn(int state, int at, int changesLeft, List<String> said) {
    for (WordGraph.Arc arc : grammar.arcs(state)) {
      if (sounds.isShort(arc.word())) {
        step(arc.target(), arc.word(), at, changesLeft, said);
      }
    }
  }

  private void step(int target, String word, int at, int changesLeft, List<String> said) {
    if (target >= 0) {
      said.add(word);
      explore(target, at, changesLeft, said);
      said.remove(said.size() - 1);
    }
  }
}
