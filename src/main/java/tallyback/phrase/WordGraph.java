package tallyback.phrase;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Everything that may be said, as a deterministic, minimal acceptor over words: the compiled
 * grammar that recogniser, typed line and lint share.
 *
 * <p>At each state a word leads to at most one state, every state can be reached from the start and
 * can reach a final state, and no two states accept the same rest. Loops are allowed. Minimal means
 * small: the recogniser's search grows with the number of arcs.
 *
 * <p>Built by subset construction and Moore's partition refinement (J. E. Hopcroft, J. D. Ullman,
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
   * Collects states and arcs in any shape, with empty arcs and choices, and makes the minimal
   * deterministic graph of them.
   */
  public static final class Builder {

    private final List<SortedMap<String, BitSet>> wordArcs = new ArrayList<>();
    private final List<BitSet> emptyArcs = new ArrayList<>();
    private final BitSet accepting = new BitSet();

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
      wordArcs.add(new TreeMap<>());
      emptyArcs.add(new BitSet());
      return wordArcs.size() - 1;
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
      wordArcs.get(from).computeIfAbsent(word, unused -> new BitSet()).set(to);
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
     */
    public WordGraph build() {
      return minimal(trimmed(deterministic()));
    }

    private Draft deterministic() {
      Draft draft = new Draft();
      Map<BitSet, Integer> known = new HashMap<>();
      ArrayDeque<BitSet> open = new ArrayDeque<>();
      BitSet first = new BitSet();
      first.set(start());
      closeOverEmptyArcs(first);
      known.put(first, draft.add(first.intersects(accepting)));
      open.add(first);
      while (!open.isEmpty()) {
        BitSet members = open.remove();
        int from = known.getOrDefault(members, -1);
        for (Map.Entry<String, BitSet> arc : wordArcsOf(members).entrySet()) {
          BitSet targets = arc.getValue();
          closeOverEmptyArcs(targets);
          Integer to = known.get(targets);
          if (to == null) {
            to = draft.add(targets.intersects(accepting));
            known.put(targets, to);
            open.add(targets);
          }
          draft.arcs.get(from).put(arc.getKey(), to);
        }
      }
      return draft;
    }

    private SortedMap<String, BitSet> wordArcsOf(BitSet members) {
      SortedMap<String, BitSet> out = new TreeMap<>();
      members.stream()
          .forEach(
              state ->
                  wordArcs
                      .get(state)
                      .forEach(
                          (word, targets) ->
                              out.computeIfAbsent(word, unused -> new BitSet()).or(targets)));
      return out;
    }

    private void closeOverEmptyArcs(BitSet members) {
      ArrayDeque<Integer> open = new ArrayDeque<>();
      members.stream().forEach(open::add);
      while (!open.isEmpty()) {
        emptyArcs.get(open.remove()).stream()
            .filter(to -> !members.get(to))
            .forEach(
                to -> {
                  members.set(to);
                  open.add(to);
                });
      }
    }

    /** Removes states from which no phrase can end: a search that enters one is lost. */
    private static Draft trimmed(Draft draft) {
      BitSet alive = (BitSet) draft.finals.clone();
      boolean grown = true;
      while (grown) {
        grown = false;
        for (int state = draft.arcs.size() - 1; state >= 0; state--) {
          if (!alive.get(state) && draft.arcs.get(state).values().stream().anyMatch(alive::get)) {
            alive.set(state);
            grown = true;
          }
        }
      }
      if (!alive.get(0)) {
        throw new IllegalArgumentException(
            "grammar: expected at least one phrase that can end, found none; mark where one ends");
      }
      draft.arcs.forEach(out -> out.values().removeIf(to -> !alive.get(to)));
      return draft;
    }

    private static WordGraph minimal(Draft draft) {
      int[] block = new int[draft.arcs.size()];
      int blocks = 0;
      int before;
      do {
        before = blocks;
        blocks = refine(draft, block);
      } while (blocks > before);
      return numbered(draft, block);
    }

    /**
     * One round of Moore's refinement: states stay together while block, finality and the blocks of
     * all arcs agree.
     */
    private static int refine(Draft draft, int[] block) {
      record Signature(int block, boolean isFinal, Map<String, Integer> targets) {}
      Map<Signature, Integer> known = new HashMap<>();
      int[] refined = new int[block.length];
      for (int state = 0; state < block.length; state++) {
        Map<String, Integer> targets = new HashMap<>();
        draft.arcs.get(state).forEach((word, to) -> targets.put(word, block[to]));
        Signature signature = new Signature(block[state], draft.finals.get(state), targets);
        refined[state] = known.computeIfAbsent(signature, unused -> known.size());
      }
      System.arraycopy(refined, 0, block, 0, block.length);
      return known.size();
    }

    private static WordGraph numbered(Draft draft, int[] block) {
      Map<Integer, Integer> numberOfBlock = new HashMap<>();
      List<Integer> representatives = new ArrayList<>();
      numberOfBlock.put(block[0], 0);
      representatives.add(0);
      List<List<Arc>> arcs = new ArrayList<>();
      BitSet finals = new BitSet();
      for (int number = 0; number < representatives.size(); number++) {
        int state = representatives.get(number);
        finals.set(number, draft.finals.get(state));
        List<Arc> out = new ArrayList<>();
        draft
            .arcs
            .get(state)
            .forEach(
                (word, to) -> {
                  Integer target = numberOfBlock.get(block[to]);
                  if (target == null) {
                    target = representatives.size();
                    numberOfBlock.put(block[to], target);
                    representatives.add(to);
                  }
                  out.add(new Arc(word, target));
                });
        arcs.add(out);
      }
      return new WordGraph(arcs, finals);
    }

    /** A deterministic graph under construction. */
    private static final class Draft {
      private final List<SortedMap<String, Integer>> arcs = new ArrayList<>();
      private final BitSet finals = new BitSet();

      private int add(boolean isFinal) {
        arcs.add(new TreeMap<>());
        finals.set(arcs.size() - 1, isFinal);
        return arcs.size() - 1;
      }
    }
  }
}
