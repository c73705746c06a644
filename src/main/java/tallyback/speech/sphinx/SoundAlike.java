package tallyback.speech.sphinx;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tallyback.phrase.Lexicon;
import tallyback.phrase.PhoneDistance;

/**
 * Tells which words are easily mistaken for one another, from how they are said.
 *
 * <p>Thread rule: belongs to its recogniser's owner; it remembers what it has worked out.
 */
final class SoundAlike {

  /** How far apart two words may sound; see {@link #distance}. */
  static final double NEAR = 0.5;

  /** Likewise for one word against two: less, because any long word resembles some pair. */
  private static final double NEAR_PAIR = 0.25;

  private static final int SHORT_WORD_PHONES = 3;

  /**
   * Words mistaken for one another although their phones differ, seen in recordings of real people
   * and of synthetic voices; the bench's ConfusionTable counts them.
   */
  private static final List<Set<String>> KNOWN_CONFUSIONS =
      List.of(
          Set.of("two", "ten"),
          Set.of("eight", "ten"),
          Set.of("five", "nine"),
          Set.of("seven", "seventy"),
          Set.of("six", "sixty"),
          Set.of("eight", "eighty"),
          Set.of("nine", "ninety"),
          Set.of("four", "forty"),
          Set.of("hundred", "thousand"),
          Set.of("oh", "zero"),
          Set.of("oh", "four"),
          Set.of("five", "fifty"),
          Set.of("one", "nine"),
          Set.of("seven", "eleven"),
          Set.of("two", "three"),
          Set.of("three", "ten"),
          Set.of("two", "eleven"),
          Set.of("six", "eight"),
          Set.of("point", "five"),
          Set.of("at", "above"),
          Set.of("a", "two"),
          Set.of("the", "two"),
          Set.of("a", "ten"),
          Set.of("some", "ten"));

  private final Lexicon lexicon;
  private final Map<String, List<List<String>>> phones = new HashMap<>();
  // By the first word and then the other: this is asked a hundred thousand times an entry.
  private final Map<String, Map<String, Boolean>> alike = new HashMap<>();
  private final Map<String, Map<String, Boolean>> alikePairs = new HashMap<>();
  private final Map<String, String> firstPhones = new HashMap<>();

  SoundAlike(Lexicon lexicon) {
    this.lexicon = lexicon;
  }

  /** Words of a few phones are easily put in or left out: oh, and, a, the. */
  boolean isShort(String word) {
    return phones(word).stream().anyMatch(saying -> saying.size() <= SHORT_WORD_PHONES);
  }

  /** Whether one word is easily mistaken for another. */
  boolean alike(String one, String other) {
    Map<String, Boolean> known = alike.computeIfAbsent(one, unused -> new HashMap<>());
    Boolean answer = known.get(other);
    if (answer == null) {
      answer =
          KNOWN_CONFUSIONS.stream().anyMatch(pair -> pair.contains(one) && pair.contains(other))
              || distance(one, other) <= NEAR;
      known.put(other, answer);
    }
    return answer;
  }

  /** Whether two words begin with the same phone: a quick look before {@link #alike}. */
  boolean beginAlike(String one, String other) {
    return firstPhone(one).equals(firstPhone(other));
  }

  private String firstPhone(String word) {
    return firstPhones.computeIfAbsent(word, unused -> phones(word).get(0).get(0));
  }

  /** Whether one word is easily mistaken for two others in a row: forty, four two. */
  boolean alike(String word, String first, String second) {
    return beginAlike(word, first)
        && alikePairs
            .computeIfAbsent(word, unused -> new HashMap<>())
            .computeIfAbsent(
                first + " " + second, unused -> pairDistance(word, first, second) <= NEAR_PAIR);
  }

  /**
   * How far apart two words sound: the least edits between any of their pronunciations (V. I.
   * Levenshtein, 1966), a vowel for a vowel or a consonant for a consonant counting half, divided
   * by the phones of the longer one. 0 is the same sound, 1 nothing in common.
   */
  double distance(String one, String other) {
    double least = 1;
    for (List<String> left : phones(one)) {
      for (List<String> right : phones(other)) {
        least = Math.min(least, distance(left, right));
      }
    }
    return least;
  }

  private double pairDistance(String word, String first, String second) {
    double least = 1;
    for (List<String> left : phones(word)) {
      for (List<String> begin : phones(first)) {
        for (List<String> end : phones(second)) {
          List<String> both = new ArrayList<>(begin);
          both.addAll(end);
          least = Math.min(least, distance(left, both));
        }
      }
    }
    return least;
  }

  private List<List<String>> phones(String word) {
    return phones.computeIfAbsent(
        word,
        unused ->
            lexicon.pronunciations(word).stream()
                .map(saying -> List.of(saying.split(" ")))
                .toList());
  }

  private static double distance(List<String> one, List<String> other) {
    return PhoneDistance.between(one, other, PhoneDistance::broad);
  }
}
