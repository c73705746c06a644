package tallyback.phrase;

import java.nio.IntBuffer;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * What all automata here need, on plain numbers: reversing arcs, and the coarsest partition of
 * states that do the same.
 */
final class Automata {

  private Automata() {}

  /** For each state the states that have an arc to it, once for each such arc. */
  static int[][] reversed(int[][] targets) {
    int[] count = new int[targets.length];
    for (int[] out : targets) {
      for (int target : out) {
        count[target]++;
      }
    }
    int[][] sources = new int[targets.length][];
    for (int state = 0; state < targets.length; state++) {
      sources[state] = new int[count[state]];
    }
    for (int state = 0; state < targets.length; state++) {
      for (int target : targets[state]) {
        count[target]--;
        sources[target][count[target]] = state;
      }
    }
    return sources;
  }

  /**
   * Puts states into blocks so that two share a block exactly if they are of one kind and have arcs
   * of the same labels into the same blocks: on a deterministic automaton the minimal one, on any
   * other its bisimilarity classes.
   *
   * <p>Blocks are split until nothing changes; after a split the largest part keeps its number, so
   * that only arcs into the smaller parts are looked at again (the idea of J. Hopcroft, <cite>An n
   * log n algorithm for minimizing states in a finite automaton</cite>, 1971).
   *
   * @param kinds the kind of each state
   * @param labels the labels of the arcs of each state
   * @param targets the targets of the same arcs
   * @return the block of each state, numbered from 0 without gaps
   */
  static int[] coarsestPartition(int[] kinds, int[][] labels, int[][] targets) {
    return new Refinement(kinds, labels, targets).run();
  }

  /**
   * An automaton on plain numbers; state 0 is the start.
   *
   * @param kinds the kind of each state: 0 where no phrase may end
   * @param labels the labels of the arcs of each state
   * @param targets the targets of the same arcs
   */
  @SuppressWarnings(
      "ArrayRecordComponent") // Handed from one step to the next inside this package, and never
  // compared.
  record Automaton(int[] kinds, int[][] labels, int[][] targets) {
    int stateCount() {
      return kinds.length;
    }
  }

  /**
   * The smallest deterministic automaton that accepts the same; its kinds are 1 where a phrase may
   * end and 0 elsewhere. Each of its states can be reached and leads to an end.
   *
   * @throws IllegalArgumentException if nothing is accepted
   * @throws UnusableGrammarException if it has too many states on the way
   */
  static Automaton minimal(Automaton automaton) {
    Automaton deterministic = new SubsetConstruction(automaton).run();
    boolean[] alive = leadingToAnEnd(deterministic);
    if (!alive[0]) {
      throw new IllegalArgumentException(
          "grammar: expected at least one phrase that can end, found none; mark where one ends");
    }
    int[] number = new int[alive.length];
    int count = 0;
    for (int state = 0; state < alive.length; state++) {
      number[state] = alive[state] ? count++ : -1;
    }
    Automaton trimmed = merged(deterministic, number, count);
    int[] block = coarsestPartition(trimmed.kinds(), trimmed.labels(), trimmed.targets());
    return merged(trimmed, startFirst(block), Arrays.stream(block).max().orElse(0) + 1);
  }

  /** For each state, whether an end can be reached from it. */
  static boolean[] leadingToAnEnd(Automaton automaton) {
    int[][] sources = reversed(automaton.targets());
    boolean[] alive = new boolean[automaton.stateCount()];
    int[] open = new int[alive.length];
    int size = 0;
    for (int state = 0; state < alive.length; state++) {
      if (automaton.kinds()[state] != 0) {
        alive[state] = true;
        open[size++] = state;
      }
    }
    while (size > 0) {
      for (int source : sources[open[--size]]) {
        if (!alive[source]) {
          alive[source] = true;
          open[size++] = source;
        }
      }
    }
    return alive;
  }

  /** Exchanges two numbers in place so that the first state, the start, has number 0. */
  static int[] startFirst(int[] number) {
    int first = number[0];
    for (int state = 0; state < number.length; state++) {
      if (number[state] == first) {
        number[state] = 0;
      } else if (number[state] == 0) {
        number[state] = first;
      }
    }
    return number;
  }

  /** One state for all under one number, with the arcs of the first of them; those under -1 go. */
  private static Automaton merged(Automaton automaton, int[] number, int count) {
    Automaton out = new Automaton(new int[count], new int[count][], new int[count][]);
    for (int state = 0; state < number.length; state++) {
      int to = number[state];
      if (to >= 0 && out.labels()[to] == null) {
        int[] labels = automaton.labels()[state];
        int[] targets = automaton.targets()[state];
        int[] kept =
            IntStream.range(0, targets.length).filter(arc -> number[targets[arc]] >= 0).toArray();
        out.kinds()[to] = automaton.kinds()[state];
        out.labels()[to] = Arrays.stream(kept).map(arc -> labels[arc]).toArray();
        out.targets()[to] = Arrays.stream(kept).map(arc -> number[targets[arc]]).toArray();
      }
    }
    return out;
  }

  /** Makes one state of each set of states that the same words lead to. */
  private static final class SubsetConstruction {

    /**
     * Far beyond what can be listened for; some small grammars with repeats would grow to more than
     * memory holds.
     */
    private static final int MOST_STATES = 200_000;

    private final Automaton automaton;
    private final Symbols<IntBuffer> sets = new Symbols<>();

    private SubsetConstruction(Automaton automaton) {
      this.automaton = automaton;
    }

    private Automaton run() {
      List<Integer> kinds = new ArrayList<>();
      List<int[]> labels = new ArrayList<>();
      List<int[]> targets = new ArrayList<>();
      sets.numberOf(IntBuffer.wrap(new int[] {0}));
      for (int set = 0; set < sets.size(); set++) {
        if (set > MOST_STATES) {
          throw new UnusableGrammarException(
              List.of(
                  new GrammarFault(
                      "the grammar",
                      1,
                      "a graph of at most " + MOST_STATES + " states",
                      "more",
                      "Make repeats and options differ in their first words.")));
        }
        int[] members = sets.get(set).array();
        long[] steps = sortedSteps(members);
        kinds.add(
            Arrays.stream(members).anyMatch(member -> automaton.kinds()[member] != 0) ? 1 : 0);
        labels.add(
            Arrays.stream(steps)
                .mapToInt(step -> (int) (step >> Integer.SIZE))
                .distinct()
                .toArray());
        targets.add(targetSets(steps));
      }
      return new Automaton(
          kinds.stream().mapToInt(Integer::intValue).toArray(),
          labels.toArray(int[][]::new),
          targets.toArray(int[][]::new));
    }

    /** Label and target of all arcs of some states, sorted, each once. */
    private long[] sortedSteps(int[] members) {
      return Arrays.stream(members)
          .boxed()
          .flatMapToLong(
              member -> {
                int[] labels = automaton.labels()[member];
                int[] targets = automaton.targets()[member];
                return IntStream.range(0, labels.length)
                    .mapToLong(arc -> step(labels[arc], targets[arc]));
              })
          .sorted()
          .distinct()
          .toArray();
    }

    private int[] targetSets(long[] steps) {
      int[] numbers = new int[steps.length];
      int count = 0;
      int from = 0;
      for (int to = 1; to <= steps.length; to++) {
        if (to == steps.length || steps[to] >> Integer.SIZE != steps[from] >> Integer.SIZE) {
          int[] set = new int[to - from];
          for (int i = from; i < to; i++) {
            set[i - from] = (int) steps[i];
          }
          numbers[count++] = sets.numberOf(IntBuffer.wrap(set));
          from = to;
        }
      }
      return Arrays.copyOf(numbers, count);
    }
  }

  private static long step(int label, int target) {
    return ((long) label << Integer.SIZE) | target;
  }

  private static final class Refinement {
    private final int[][] labels;
    private final int[][] targets;
    private final int[][] sources;
    private final int[] block;
    private final List<List<Integer>> members = new ArrayList<>();
    private final ArrayDeque<Integer> unsettled = new ArrayDeque<>();
    private final List<Boolean> isUnsettled = new ArrayList<>();

    private Refinement(int[] kinds, int[][] labels, int[][] targets) {
      this.labels = labels;
      this.targets = targets;
      this.sources = reversed(targets);
      this.block = new int[kinds.length];
      Symbols<Integer> found = new Symbols<>();
      for (int state = 0; state < kinds.length; state++) {
        int number = found.numberOf(kinds[state]);
        if (number == members.size()) {
          newBlock(new ArrayList<>());
        }
        members.get(number).add(state);
        block[state] = number;
      }
    }

    private int newBlock(List<Integer> states) {
      members.add(states);
      isUnsettled.add(false);
      int number = members.size() - 1;
      unsettle(number);
      return number;
    }

    private void unsettle(int number) {
      if (!isUnsettled.get(number)) {
        isUnsettled.set(number, true);
        unsettled.add(number);
      }
    }

    private int[] run() {
      while (!unsettled.isEmpty()) {
        int number = unsettled.remove();
        isUnsettled.set(number, false);
        if (members.get(number).size() > 1) {
          split(number);
        }
      }
      return block;
    }

    private void split(int number) {
      Map<Signature, List<Integer>> parts = new LinkedHashMap<>();
      for (int state : members.get(number)) {
        parts.computeIfAbsent(signature(state), unused -> new ArrayList<>()).add(state);
      }
      if (parts.size() == 1) {
        return;
      }
      List<Integer> largest = List.of();
      for (List<Integer> part : parts.values()) {
        largest = part.size() > largest.size() ? part : largest;
      }
      members.set(number, largest);
      for (List<Integer> part : parts.values()) {
        if (part != largest) {
          moveToNewBlock(part);
        }
      }
    }

    private void moveToNewBlock(List<Integer> part) {
      int number = newBlock(part);
      part.forEach(state -> block[state] = number);
      for (int state : part) {
        for (int source : sources[state]) {
          unsettle(block[source]);
        }
      }
    }

    /**
     * What a state does: label and block of each of its arcs. Its hash takes in both halves, unlike
     * that of a buffer.
     */
    private static final class Signature {
      private final long[] steps;

      private Signature(long[] steps) {
        this.steps = steps;
      }

      @Override
      public boolean equals(@Nullable Object other) {
        return other instanceof Signature signature && Arrays.equals(steps, signature.steps);
      }

      @Override
      public int hashCode() {
        return Arrays.hashCode(steps);
      }
    }

    private Signature signature(int state) {
      long[] steps = new long[labels[state].length];
      for (int i = 0; i < steps.length; i++) {
        steps[i] = step(labels[state][i], block[targets[state][i]]);
      }
      Arrays.sort(steps);
      int distinct = 0;
      for (int i = 0; i < steps.length; i++) {
        if (i == 0 || steps[i] != steps[i - 1]) {
          steps[distinct++] = steps[i];
        }
      }
      return new Signature(Arrays.copyOf(steps, distinct));
    }
  }
}
