package tallyback.phrase;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import org.jspecify.annotations.Nullable;

/**
 * Finds the phrases of a graph that are nearest to a line, by the fewest words left out, put in or
 * exchanged: a shortest-path search over pairs of graph state and place in the line. A word of a
 * number or unit is never put in, left out or exchanged, so no suggestion ever carries another
 * value than the line.
 *
 * <p>Thread rule: immutable; share freely.
 */
final class NearestPhrases {

  private static final int EXCHANGED = 10;
  private static final int LEFT_OUT = 10;
  private static final int PUT_IN = 9;
  private static final int NEARLY_SPELLED = 4;
  private static final int FARTHEST = 38;

  /** Enough for three good suggestions in the largest plans, and soon done when there are none. */
  private static final int MOST_STEPS = 150_000;

  private final WordGraph graph;

  NearestPhrases(WordGraph graph) {
    this.graph = graph;
  }

  private record Node(
      int cost, int order, int state, int at, @Nullable Node from, @Nullable String word) {}

  /** Up to {@code most} phrases, the nearest first; empty when none is near. */
  List<String> near(List<String> line, int most) {
    PriorityQueue<Node> open =
        new PriorityQueue<>(Comparator.comparingInt(Node::cost).thenComparingInt(Node::order));
    Map<Long, Integer> visits = new HashMap<>();
    List<String> found = new ArrayList<>();
    open.add(new Node(0, 0, graph.start(), 0, null, null));
    for (int steps = 0; steps < MOST_STEPS && !open.isEmpty() && found.size() < most; steps++) {
      Node node = open.remove();
      if (visits.merge(((long) node.state() << 32) | node.at(), 1, Integer::sum) > most) {
        continue;
      }
      if (node.at() == line.size() && graph.isFinal(node.state())) {
        String phrase = phrase(node);
        if (!found.contains(phrase)) {
          found.add(phrase);
        }
      }
      expand(node, line, open, steps);
    }
    return found;
  }

  private void expand(Node node, List<String> line, PriorityQueue<Node> open, int steps) {
    String typed = node.at() < line.size() ? line.get(node.at()) : null;
    if (typed != null && !carriesValue(typed)) {
      add(open, new Node(node.cost() + LEFT_OUT, steps, node.state(), node.at() + 1, node, null));
    }
    for (WordGraph.Arc arc : graph.arcs(node.state())) {
      if (arc.word().equals(typed)) {
        add(open, new Node(node.cost(), steps, arc.target(), node.at() + 1, node, arc.word()));
      } else if (!carriesValue(arc.word())) {
        add(open, new Node(node.cost() + PUT_IN, steps, arc.target(), node.at(), node, arc.word()));
        if (typed != null && !carriesValue(typed)) {
          int cost = nearlySpelled(typed, arc.word()) ? NEARLY_SPELLED : EXCHANGED;
          add(
              open,
              new Node(node.cost() + cost, steps, arc.target(), node.at() + 1, node, arc.word()));
        }
      }
    }
  }

  private static boolean carriesValue(String word) {
    return NumberWords.isNumberWord(word) || UnitWords.isUnitWord(word);
  }

  private static void add(PriorityQueue<Node> open, Node node) {
    if (node.cost() <= FARTHEST) {
      open.add(node);
    }
  }

  private static String phrase(Node last) {
    List<String> words = new ArrayList<>();
    for (Node node = last; node != null; node = node.from()) {
      if (node.word() != null) {
        words.add(0, node.word());
      }
    }
    return String.join(" ", words);
  }

  /** One letter in three may differ (Levenshtein distance). */
  private static boolean nearlySpelled(String typed, String word) {
    int longest = Math.max(typed.length(), word.length());
    return longest > 2
        && Math.abs(typed.length() - word.length()) <= longest / 3
        && distance(typed, word) <= longest / 3;
  }

  private static int distance(String first, String second) {
    int[] row = new int[second.length() + 1];
    for (int column = 0; column < row.length; column++) {
      row[column] = column;
    }
    for (int line = 1; line <= first.length(); line++) {
      int corner = row[0];
      row[0] = line;
      for (int column = 1; column < row.length; column++) {
        int change = first.charAt(line - 1) == second.charAt(column - 1) ? corner : corner + 1;
        corner = row[column];
        row[column] = Math.min(change, 1 + Math.min(row[column], row[column - 1]));
      }
    }
    return row[second.length()];
  }
}
