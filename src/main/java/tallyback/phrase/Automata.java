package tallyback.phrase;

import java.nio.LongBuffer;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

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
      Map<LongBuffer, List<Integer>> parts = new HashMap<>();
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

    private LongBuffer signature(int state) {
      long[] steps = new long[labels[state].length];
      for (int i = 0; i < steps.length; i++) {
        steps[i] = ((long) labels[state][i] << Integer.SIZE) | block[targets[state][i]];
      }
      Arrays.sort(steps);
      int distinct = 0;
      for (int i = 0; i < steps.length; i++) {
        if (i == 0 || steps[i] != steps[i - 1]) {
          steps[distinct++] = steps[i];
        }
      }
      return LongBuffer.wrap(steps, 0, distinct);
    }
  }
}
