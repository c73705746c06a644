package tallyback.phrase;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Numbers for things that are compared often: the first thing met is 0, the next new one 1, and so
 * on.
 *
 * <p>Thread rule: filled by one thread, then only read.
 */
final class Symbols<T> {

  private final Map<T, Integer> numbers = new HashMap<>();
  private final List<T> things = new ArrayList<>();

  /** The number of a thing, a new one if it was never met. */
  int numberOf(T thing) {
    Integer known = numbers.putIfAbsent(thing, things.size());
    if (known == null) {
      things.add(thing);
      return things.size() - 1;
    }
    return known;
  }

  /** The number of a thing, or -1 if it was never met. */
  int find(T thing) {
    return numbers.getOrDefault(thing, -1);
  }

  T get(int number) {
    return things.get(number);
  }

  int size() {
    return things.size();
  }
}
