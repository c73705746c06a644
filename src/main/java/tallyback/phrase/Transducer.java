package tallyback.phrase;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * The grammar as a finite-state transducer, words in, pieces out, without arcs that say nothing:
 * each arc takes one word and gives any number of pieces, and a final state may give some more at
 * the end.
 *
 * <p>Every state can be reached and can reach an end. Ways part only where words or pieces differ
 * and meet as soon as what may follow is the same, which is what keeps many contexts of one list of
 * names small.
 *
 * <p>Thread rule: immutable.
 */
final class Transducer {

  /** More readings of one phrase than help anybody. */
  private static final int MOST_PARSES = 16;

  /** Stands for the word where a phrase ends. */
  private static final int NO_WORD = -1;

  /** One arc: the number of its word, of its output, and its target. */
  record Arc(int word, int output, int target) {}

  private final Arc[][] arcs;
  private final int[][] endOutputs;
  private final Outputs outputs;
  private final Symbols<String> words;
  private final Symbols<Piece> pieces;

  private Transducer(
      Arc[][] arcs,
      int[][] endOutputs,
      Outputs outputs,
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
    return new WordByWord(network).build().reduced();
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
    return outputs.pieces(number);
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
        rests.computeIfAbsent(state, unused -> new LinkedHashSet<>()).add(outputs.pieces(output));
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
            here.add(joined(outputs.pieces(arc.output()), rest));
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

  /**
   * The same with as few states as possible, seen as a deterministic acceptor of pairs of a word
   * and what is given with it: ways part only where words or pieces differ, and meet as soon as
   * what may follow is the same. A phrase may end by a pair of no word and what is given at the
   * end, into one state behind all others.
   */
  private Transducer reduced() {
    int behind = arcs.length;
    Symbols<Long> labels = new Symbols<>();
    Automata.Automaton pairs =
        new Automata.Automaton(new int[behind + 1], new int[behind + 1][], new int[behind + 1][]);
    for (int state = 0; state < behind; state++) {
      IntStream words =
          Arrays.stream(arcs[state])
              .mapToInt(arc -> labels.numberOf(label(arc.word(), arc.output())));
      IntStream ends =
          Arrays.stream(endOutputs[state]).map(output -> labels.numberOf(label(NO_WORD, output)));
      pairs.labels()[state] = IntStream.concat(words, ends).toArray();
      IntStream targets = Arrays.stream(arcs[state]).mapToInt(Arc::target);
      pairs.targets()[state] =
          IntStream.concat(targets, Arrays.stream(endOutputs[state]).map(output -> behind))
              .toArray();
    }
    pairs.labels()[behind] = new int[0];
    pairs.targets()[behind] = new int[0];
    pairs.kinds()[behind] = 1;
    return withoutStateBehind(Automata.minimal(pairs), labels);
  }

  private Transducer withoutStateBehind(Automata.Automaton pairs, Symbols<Long> labels) {
    int[] number = new int[pairs.stateCount()];
    int count = 0;
    for (int state = 0; state < number.length; state++) {
      number[state] = pairs.kinds()[state] == 0 ? count++ : -1;
    }
    List<Arc[]> newArcs = new ArrayList<>();
    List<int[]> newEnds = new ArrayList<>();
    for (int state = 0; state < number.length; state++) {
      if (number[state] >= 0) {
        List<Arc> out = new ArrayList<>();
        List<Integer> ends = new ArrayList<>();
        for (int i = 0; i < pairs.labels()[state].length; i++) {
          long label = labels.get(pairs.labels()[state][i]);
          int word = (int) (label >> Integer.SIZE);
          if (word == NO_WORD) {
            ends.add((int) label);
          } else {
            out.add(new Arc(word, (int) label, number[pairs.targets()[state][i]]));
          }
        }
        newArcs.add(out.toArray(Arc[]::new));
        newEnds.add(ends.stream().mapToInt(Integer::intValue).toArray());
      }
    }
    return new Transducer(
        newArcs.toArray(Arc[][]::new), newEnds.toArray(int[][]::new), outputs, words, pieces);
  }

  private static long label(int word, int output) {
    return ((long) word << Integer.SIZE) | output;
  }

  /** Makes one arc of each way through the network that says exactly one word. */
  private static final class WordByWord {

    private final PhraseNetwork network;
    private final Outputs outputs = new Outputs();
    private final Symbols<Integer> states = new Symbols<>();
    private final List<Arc[]> arcs = new ArrayList<>();
    private final List<int[]> ends = new ArrayList<>();

    /** A state of the network and what was given on the way to it since the last word. */
    private record Way(int at, int output) {}

    private WordByWord(PhraseNetwork network) {
      this.network = network;
    }

    private Transducer build() {
      states.numberOf(network.start());
      for (int state = 0; state < states.size(); state++) {
        follow(states.get(state));
      }
      return new Transducer(
          arcs.toArray(Arc[][]::new),
          ends.toArray(int[][]::new),
          outputs,
          network.words(),
          network.pieces());
    }

    private void follow(int from) {
      Set<Arc> out = new LinkedHashSet<>();
      Set<Integer> endOutputs = new LinkedHashSet<>();
      Symbols<Way> ways = new Symbols<>();
      ways.numberOf(new Way(from, Outputs.NOTHING));
      for (int i = 0; i < ways.size(); i++) {
        Way way = ways.get(i);
        if (way.at() == network.end()) {
          endOutputs.add(way.output());
        }
        for (PhraseNetwork.Arc arc : network.arcs(way.at())) {
          Way next = new Way(arc.target(), with(way.output(), arc));
          if (arc.word() == PhraseNetwork.NONE) {
            ways.numberOf(next);
          } else {
            Way far = asFarAsSure(next);
            out.add(new Arc(arc.word(), far.output(), states.numberOf(far.at())));
          }
        }
      }
      arcs.add(out.toArray(Arc[]::new));
      ends.add(endOutputs.stream().mapToInt(Integer::intValue).toArray());
    }

    private int with(int output, PhraseNetwork.Arc arc) {
      return arc.piece() == PhraseNetwork.NONE ? output : outputs.extended(output, arc.piece());
    }

    /**
     * Goes on without a word while there is only one way to go. So the ends of many words, as those
     * of all names of a list, become one state at once, and tags are given as early as they are
     * certain.
     */
    private Way asFarAsSure(Way from) {
      Way way = from;
      while (way.at() != network.end() && network.arcs(way.at()).size() == 1) {
        PhraseNetwork.Arc only = network.arcs(way.at()).get(0);
        if (only.word() != PhraseNetwork.NONE) {
          return way;
        }
        way = new Way(only.target(), with(way.output(), only));
      }
      return way;
    }
  }
}
