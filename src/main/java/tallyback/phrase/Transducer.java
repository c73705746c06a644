package tallyback.phrase;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The grammar as a finite-state transducer, words in, pieces out, without arcs that say nothing:
 * each arc takes one word and gives any number of pieces, and a final state may give some more at
 * the end.
 *
 * <p>Every state can be reached and can reach an end, and states that read the same rests in the
 * same way are one (bisimilarity), which is what keeps many contexts of one list of names small.
 *
 * <p>Thread rule: immutable.
 */
final class Transducer {

  /** More readings of one phrase than help anybody. */
  private static final int MOST_PARSES = 16;

  /** One arc: the number of its word, of its output, and its target. */
  record Arc(int word, int output, int target) {}

  private final Arc[][] arcs;
  private final int[][] endOutputs;
  private final Symbols<List<Integer>> outputs;
  private final Symbols<String> words;
  private final Symbols<Piece> pieces;

  private Transducer(
      Arc[][] arcs,
      int[][] endOutputs,
      Symbols<List<Integer>> outputs,
      Symbols<String> words,
      Symbols<Piece> pieces) {
    this.arcs = arcs;
    this.endOutputs = endOutputs;
    this.outputs = outputs;
    this.words = words;
    this.pieces = pieces;
    for (Arc[] out : arcs) {
      Arrays.sort(
          out,
          Comparator.comparingInt(Arc::word)
              .thenComparingInt(Arc::target)
              .thenComparingInt(Arc::output));
    }
  }

  static Transducer of(PhraseNetwork network) {
    return new WordByWord(network).build().trimmed().reduced();
  }

  int stateCount() {
    return arcs.length;
  }

  int arcCount() {
    return Arrays.stream(arcs).mapToInt(out -> out.length).sum();
  }

  int start() {
    return 0;
  }

  /** The arcs of a state, sorted by word. */
  Arc[] arcs(int state) {
    return arcs[state];
  }

  boolean isFinal(int state) {
    return endOutputs[state].length > 0;
  }

  /** The outputs with which a phrase may end at a state; none if it may not. */
  int[] endOutputs(int state) {
    return endOutputs[state];
  }

  /** The numbers of the pieces of an output. */
  List<Integer> output(int number) {
    return outputs.get(number);
  }

  Symbols<String> words() {
    return words;
  }

  Piece piece(int number) {
    return pieces.get(number);
  }

  /**
   * All different ways to read a phrase, at most sixteen. Takes time in proportion to the words
   * times the states that share them.
   */
  List<Parse> parse(List<String> phrase) {
    int[] said = phrase.stream().mapToInt(words::find).toArray();
    List<Set<Integer>> reached = reach(said);
    if (reached.size() <= said.length) {
      return List.of();
    }
    Map<Integer, Set<List<Integer>>> rests = endings(reached.get(said.length));
    for (int at = said.length - 1; at >= 0; at--) {
      rests = lengthened(reached.get(at), said[at], rests);
    }
    return rests.getOrDefault(start(), Set.of()).stream()
        .map(numbers -> new Parse(numbers.stream().map(pieces::get).toList()))
        .toList();
  }

  /** The states after each number of words; ends early when a word may not follow. */
  private List<Set<Integer>> reach(int[] said) {
    List<Set<Integer>> reached = new ArrayList<>();
    Set<Integer> here = Set.of(start());
    reached.add(here);
    for (int word : said) {
      Set<Integer> next = new LinkedHashSet<>();
      for (int state : here) {
        for (int i = firstArc(state, word);
            i < arcs[state].length && arcs[state][i].word() == word;
            i++) {
          next.add(arcs[state][i].target());
        }
      }
      if (next.isEmpty()) {
        return reached;
      }
      reached.add(next);
      here = next;
    }
    return reached;
  }

  /** The index of the first arc of a state that takes a word, or of the first beyond it. */
  int firstArc(int state, int word) {
    Arc[] out = arcs[state];
    int low = 0;
    int high = out.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (out[middle].word() < word) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private Map<Integer, Set<List<Integer>>> endings(Set<Integer> states) {
    Map<Integer, Set<List<Integer>>> rests = new HashMap<>();
    for (int state : states) {
      for (int output : endOutputs[state]) {
        rests.computeIfAbsent(state, unused -> new LinkedHashSet<>()).add(outputs.get(output));
      }
    }
    return rests;
  }

  /** For each state the outputs from there to the end, from those of the states one word later. */
  private Map<Integer, Set<List<Integer>>> lengthened(
      Set<Integer> states, int word, Map<Integer, Set<List<Integer>>> laterRests) {
    Map<Integer, Set<List<Integer>>> rests = new HashMap<>();
    for (int state : states) {
      for (int i = firstArc(state, word);
          i < arcs[state].length && arcs[state][i].word() == word;
          i++) {
        Arc arc = arcs[state][i];
        for (List<Integer> rest : laterRests.getOrDefault(arc.target(), Set.of())) {
          Set<List<Integer>> here = rests.computeIfAbsent(state, unused -> new LinkedHashSet<>());
          if (here.size() < MOST_PARSES) {
            here.add(joined(outputs.get(arc.output()), rest));
          }
        }
      }
    }
    return rests;
  }

  static List<Integer> joined(List<Integer> first, List<Integer> second) {
    if (first.isEmpty()) {
      return second;
    }
    List<Integer> both = new ArrayList<>(first.size() + second.size());
    both.addAll(first);
    both.addAll(second);
    return both;
  }

  /** Without states from which no phrase can end. */
  private Transducer trimmed() {
    boolean[] alive = Automata.leadingToAnEnd(acceptor());
    int[] number = new int[arcs.length];
    int count = 0;
    for (int state = 0; state < arcs.length; state++) {
      number[state] = alive[state] ? count++ : -1;
    }
    if (!alive[start()]) {
      throw new IllegalStateException(
          "the grammar matches nothing; the faults of the book were not looked at");
    }
    return renumbered(number, count);
  }

  /** The same without outputs; it may have several arcs of one word at a state. */
  Automata.Automaton acceptor() {
    int[][] labels =
        Arrays.stream(arcs)
            .map(out -> Arrays.stream(out).mapToInt(Arc::word).toArray())
            .toArray(int[][]::new);
    return new Automata.Automaton(
        Arrays.stream(endOutputs).mapToInt(ends -> ends.length).toArray(), labels, targets());
  }

  private int[][] targets() {
    return Arrays.stream(arcs)
        .map(out -> Arrays.stream(out).mapToInt(Arc::target).toArray())
        .toArray(int[][]::new);
  }

  /** One state for all that read the same rests in the same way. */
  private Transducer reduced() {
    Symbols<List<Integer>> labels = new Symbols<>();
    int[][] labelsOfState =
        Arrays.stream(arcs)
            .map(
                out ->
                    Arrays.stream(out)
                        .mapToInt(arc -> labels.numberOf(List.of(arc.word(), arc.output())))
                        .toArray())
            .toArray(int[][]::new);
    Symbols<Set<Integer>> endings = new Symbols<>();
    int[] kinds =
        Arrays.stream(endOutputs).mapToInt(ends -> endings.numberOf(setOf(ends))).toArray();
    int[] block = Automata.coarsestPartition(kinds, labelsOfState, targets());
    return renumbered(block, Arrays.stream(block).max().orElse(0) + 1);
  }

  private static Set<Integer> setOf(int[] numbers) {
    Set<Integer> set = new HashSet<>();
    Arrays.stream(numbers).forEach(set::add);
    return set;
  }

  /**
   * The same with each state under a new number; states with the same number become one, those with
   * -1 go.
   */
  private Transducer renumbered(int[] number, int count) {
    Automata.startFirst(number);
    Arc[][] newArcs = new Arc[count][];
    int[][] newEnds = new int[count][];
    for (int state = 0; state < arcs.length; state++) {
      int from = number[state];
      if (from >= 0 && newArcs[from] == null) {
        newArcs[from] =
            Arrays.stream(arcs[state])
                .filter(arc -> number[arc.target()] >= 0)
                .map(arc -> new Arc(arc.word(), arc.output(), number[arc.target()]))
                .distinct()
                .toArray(Arc[]::new);
        newEnds[from] = endOutputs[state];
      }
    }
    return new Transducer(newArcs, newEnds, outputs, words, pieces);
  }

  /** Makes one arc of each way through the network that says exactly one word. */
  private static final class WordByWord {

    private static final List<Integer> NO_PIECES = List.of();

    private final PhraseNetwork network;
    private final Symbols<List<Integer>> outputs = new Symbols<>();
    private final Symbols<Integer> states = new Symbols<>();

    private WordByWord(PhraseNetwork network) {
      this.network = network;
    }

    private record Way(int at, List<Integer> pieces) {}

    private Transducer build() {
      states.numberOf(network.start());
      List<Arc[]> arcs = new ArrayList<>();
      List<int[]> ends = new ArrayList<>();
      for (int state = 0; state < states.size(); state++) {
        Set<Arc> out = new LinkedHashSet<>();
        Set<Integer> endOutputs = new LinkedHashSet<>();
        follow(states.get(state), out, endOutputs);
        arcs.add(out.toArray(Arc[]::new));
        ends.add(endOutputs.stream().mapToInt(Integer::intValue).toArray());
      }
      return new Transducer(
          arcs.toArray(Arc[][]::new),
          ends.toArray(int[][]::new),
          outputs,
          network.words(),
          network.pieces());
    }

    private void follow(int from, Set<Arc> out, Set<Integer> endOutputs) {
      Set<Way> seen = new HashSet<>();
      List<Way> open = new ArrayList<>();
      Way here = new Way(from, NO_PIECES);
      seen.add(here);
      open.add(here);
      while (!open.isEmpty()) {
        Way way = open.remove(open.size() - 1);
        if (way.at() == network.end()) {
          endOutputs.add(outputs.numberOf(way.pieces()));
        }
        for (PhraseNetwork.Arc arc : network.arcs(way.at())) {
          List<Integer> pieces =
              arc.piece() == PhraseNetwork.NONE
                  ? way.pieces()
                  : joined(way.pieces(), List.of(arc.piece()));
          if (arc.word() != PhraseNetwork.NONE) {
            out.add(new Arc(arc.word(), outputs.numberOf(pieces), states.numberOf(arc.target())));
          } else {
            Way next = new Way(arc.target(), pieces);
            if (seen.add(next)) {
              open.add(next);
            }
          }
        }
      }
    }
  }
}
