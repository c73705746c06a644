package tallyback.plan;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Finds the word somebody probably meant, by edit distance (Damerau 1964, Levenshtein 1966). */
final class Nearest {

  private static final int LONGEST_WORD = 60;

  private Nearest() {}

  /** The closest of {@code known}, if it is close enough to be worth suggesting. */
  static Optional<String> to(String typed, Collection<String> known) {
    if (typed.length() > LONGEST_WORD) {
      return Optional.empty();
    }
    int worthSaying = Math.max(1, typed.length() / 3);
    return known.stream()
        .filter(word -> Math.abs(word.length() - typed.length()) <= worthSaying)
        .filter(word -> distance(typed, word) <= worthSaying)
        .min(
            Comparator.<String>comparingInt(word -> distance(typed, word))
                .thenComparing(word -> word));
  }

  /** Letters to change, add, leave out or swap with their neighbour. */
  static int distance(String from, String to) {
    int[][] cost = new int[from.length() + 1][to.length() + 1];
    for (int i = 0; i <= from.length(); i++) {
      for (int j = 0; j <= to.length(); j++) {
        cost[i][j] = i == 0 || j == 0 ? i + j : cheapest(cost, from, to, i, j);
      }
    }
    return cost[from.length()][to.length()];
  }

  private static int cheapest(int[][] cost, String from, String to, int i, int j) {
    boolean same = from.charAt(i - 1) == to.charAt(j - 1);
    int best =
        Math.min(cost[i - 1][j - 1] + (same ? 0 : 1), 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
    boolean swapped =
        i > 1
            && j > 1
            && from.charAt(i - 1) == to.charAt(j - 2)
            && from.charAt(i - 2) == to.charAt(j - 1);
    return swapped ? Math.min(best, 1 + cost[i - 2][j - 2]) : best;
  }
}
