package tallyback.plan;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Finds the word somebody probably meant, by edit distance (Levenshtein 1966). */
final class Nearest {

  private Nearest() {}

  /** The closest of {@code known}, if it is close enough to be worth suggesting. */
  static Optional<String> to(String typed, Collection<String> known) {
    int worthSaying = Math.max(1, typed.length() / 3);
    return known.stream()
        .filter(word -> distance(typed, word) <= worthSaying)
        .min(
            Comparator.<String>comparingInt(word -> distance(typed, word))
                .thenComparing(word -> word));
  }

  static int distance(String from, String to) {
    int[] previous = new int[to.length() + 1];
    for (int j = 0; j <= to.length(); j++) {
      previous[j] = j;
    }
    for (int i = 1; i <= from.length(); i++) {
      int[] current = new int[to.length() + 1];
      current[0] = i;
      for (int j = 1; j <= to.length(); j++) {
        int change = previous[j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
        current[j] = Math.min(change, 1 + Math.min(previous[j], current[j - 1]));
      }
      previous = current;
    }
    return previous[to.length()];
  }
}
