package tallyback.phrase;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * Everything that may be said, as a deterministic, minimal acceptor over words: the compiled
 * grammar that recogniser, typed line and lint share.
 *
 * <p>At each state a word leads to at most one state, every state can be reached from the start and
 * can reach a final state, and no two states accept the same rest. Loops are allowed. Minimal means
 * small: the recogniser's search grows with the number of arcs.
 *
 * <p>Built by subset construction and partition refinement (J. E. Hopcroft, J. D. Ullman,
 * <cite>Introduction to Automata Theory, Languages, and Computation</cite>, 1979, sections 2.3 and
 * 3.4). States are numbered in breadth-first order with arcs in alphabetical order, so equal
 * languages give equal graphs.
 *
 * <p>Thread rule: immutable; share freely. The {@link Builder} belongs to one thread.
 */
public final class WordGraph {

  /**
   * One word from a state to the next.
   *
   * @param word the word, in lower case and without blanks
   * @param target the state it leads to
   */
  public record Arc(String word, int target) {}

  private final List<List<Arc>> arcs;
  private final BitSet finals;
  private final SortedSet<String> words;

  private WordGraph(List<List<Arc>> arcs, BitSet finals) {
    this.arcs = arcs.stream().map(List::copyOf).toList();
    this.finals = finals;
    SortedSet<String> found = new TreeSet<>();
    arcs.forEach(out -> out.forEach(arc -> found.add(arc.word())));
    this.words = Collections.unmodifiableSortedSet(found);
  }

  /**
   * A graph that accepts exactly the given phrases.
   *
   * @param phrases each a list of words
   * @return their graph
   * @throws IllegalArgumentException if there is no phrase, or a word is empty, has a blank, or is
   *     not in lower case
   */
  public static WordGraph ofPhrases(Collection<List<String>> phrases) {
    Builder builder = new Builder();
    for (List<String> phrase : phrases) {
      int state = builder.start();
      for (String word : phrase) {
        int next = builder.newState();
        builder.arc(state, word, next);
        state = next;
      }
      builder.accept(state);
    }
    return builder.build();
  }

  /**
   * Where every phrase begins.
   *
   * @return the start state, always 0
   */
  public int start() {
    return 0;
  }

  /**
   * How many states there are; they are numbered from 0.
   *
   * @return the count
   */
  public int stateCount() {
    return arcs.size();
  }

  /**
   * How many arcs there are in all.
   *
   * @return the count
   */
  public int arcCount() {
    return arcs.stream().mapToInt(List::size).sum();
  }

  /**
   * Whether a phrase may end here.
   *
   * @param state a state
   * @return whether it is final
   */
  public boolean isFinal(int state) {
    return finals.get(state);
  }

  /**
   * The words that may follow at a state.
   *
   * @param state a state
   * @return its arcs in alphabetical order
   */
  public List<Arc> arcs(int state) {
    return arcs.get(state);
  }

  /**
   * All words of the graph.
   *
   * @return the words, in alphabetical order
   */
  public Set<String> words() {
    return words;
  }

  /**
   * The state a word leads to.
   *
   * @param state a state
   * @param word the next word
   * @return the target, or -1 when the word may not follow here
   */
  public int next(int state, String word) {
    List<Arc> out = arcs.get(state);
    int low = 0;
    int high = out.size() - 1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      int order = out.get(middle).word().compareTo(word);
      if (order == 0) {
        return out.get(middle).target();
      }
      if (order < 0) {
        low = middle + 1;
      } else {
        high = middle - 1;
      }
    }
    return -1;
  }

  /**
   * Whether the whole phrase may be said.
   *
   * @param phrase its words
   * @return whether the graph accepts it
   */
  public boolean accepts(List<String> phrase) {
    int state = start();
    for (String word : phrase) {
      state = next(state, word);
      if (state < 0) {
        return false;
      }
    }
    return isFinal(state);
  }

  @Override
  public String toString() {
    return "WordGraph["
        + stateCount()
        + " states, "
        + arcCount()
        + " arcs, "
        + words.size()
        + " words]";
  }

  /**
   * The minimal deterministic graph of an automaton of any shape but without empty arcs.
   *
   * @param words the words behind the labels
   * @param automaton the automaton
   * @throws IllegalArgumentException if no phrase can ever end
   * @throws UnusableGrammarException if the graph would be too large to listen for
   */
  static WordGraph of(Symbols<String> words, Automata.Automaton automaton) {
    Automata.Automaton small = Automata.minimal(automaton);
    List<List<Arc>> arcs = new ArrayList<>();
    Symbols<Integer> numbers = new Symbols<>();
    BitSet finals = new BitSet();
    numbers.numberOf(0);
    for (int number = 0; number < numbers.size(); number++) {
      int state = numbers.get(number);
      finals.set(number, small.kinds()[state] > 0);
      List<Arc> out = new ArrayList<>();
      for (int i = 0; i < small.labels()[state].length; i++) {
        out.add(new Arc(words.get(small.labels()[state][i]), small.targets()[state][i]));
      }
      out.sort(Comparator.comparing(Arc::word));
      out.replaceAll(arc -> new Arc(arc.word(), numbers.numberOf(arc.target())));
      arcs.add(out);
    }
    return new WordGraph(arcs, finals);
  }

  /**
   * Collects states and arcs in any shape, with empty arcs and choices, and makes the minimal
   * deterministic graph of them.
   */
  public static final class Builder {

    private final Symbols<String> words = new Symbols<>();
    private final List<Set<Step>> steps = new ArrayList<>();
    private final List<BitSet> emptyArcs = new ArrayList<>();
    private final BitSet accepting = new BitSet();

    private record Step(int word, int target) {}

    /** Begins with a start state and nothing else. */
    public Builder() {
      newState();
    }

    /**
     * The state where every phrase begins.
     *
     * @return the start state
     */
    public int start() {
      return 0;
    }

    /**
     * Adds a state.
     *
     * @return the new state
     */
    public int newState() {
      steps.add(new LinkedHashSet<>());
      emptyArcs.add(new BitSet());
      return steps.size() - 1;
    }

    /**
     * Adds a word between two states.
     *
     * @param from where it may be said
     * @param word the word, in lower case and without blanks
     * @param to where it leads
     * @return this builder
     * @throws IllegalArgumentException if the word is empty, has a blank, or is not in lower case
     */
    public Builder arc(int from, String word, int to) {
      if (word.isEmpty()
          || word.chars().anyMatch(c -> Character.isWhitespace(c) || Character.isUpperCase(c))) {
        throw new IllegalArgumentException(
            "word \""
                + word
                + "\": expected one word in lower case without blanks; split or rewrite it");
      }
      steps.get(from).add(new Step(words.numberOf(word), to));
      return this;
    }

    /**
     * Lets a phrase go on from one state to another without a word.
     *
     * @param from a state
     * @param to another state
     * @return this builder
     */
    public Builder emptyArc(int from, int to) {
      emptyArcs.get(from).set(to);
      return this;
    }

    /**
     * Lets a phrase end at a state.
     *
     * @param state the state
     * @return this builder
     */
    public Builder accept(int state) {
      accepting.set(state);
      return this;
    }

    /**
     * Makes the graph.
     *
     * @return the minimal deterministic graph
     * @throws IllegalArgumentException if no phrase can ever end
     * @throws UnusableGrammarException if the graph would be too large to listen for
     */
    public WordGraph build() {
      int[] kinds = new int[steps.size()];
      int[][] labels = new int[steps.size()][];
      int[][] targets = new int[steps.size()][];
      for (int state = 0; state < steps.size(); state++) {
        BitSet around = reachedWithoutWord(state);
        Set<Step> out = new LinkedHashSet<>();
        around.stream().forEach(member -> out.addAll(steps.get(member)));
        kinds[state] = around.intersects(accepting) ? 1 : 0;
        labels[state] = out.stream().mapToInt(Step::word).toArray();
        targets[state] = out.stream().mapToInt(Step::target).toArray();
      }
      return WordGraph.of(words, new Automata.Automaton(kinds, labels, targets));
    }

    private BitSet reachedWithoutWord(int from) {
      BitSet reached = new BitSet();
      reached.set(from);
      ArrayDeque<Integer> open = new ArrayDeque<>(List.of(from));
      while (!open.isEmpty()) {
        emptyArcs.get(open.remove()).stream()
            .filter(to -> !reached.get(to))
            .forEach(
                to -> {
                  reached.set(to);
                  open.add(to);
                });
      }
      return reached;
    }
  }
}
