package tallyback.speech;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tallyback.phrase.EntryGrammar;

/** In what a rival differs from the better reading: how far it must be behind depends on that. */
public enum Likeness {
  /** It has more words, and has paid for each of them. */
  LONGER,
  /** Only "and" before it all: whether it goes on from the entry before. */
  FOLLOW_ON,
  /** It has an "oh" more, among digits: at their end it is soon swallowed. */
  OH_DROPPED,
  /** "Fifty" was heard, and it has "fifteen": the more dangerous way round, an n is soon lost. */
  TEEN_FOR_TEN,
  /** "Fifteen" was heard, and it has "fifty". */
  TEN_FOR_TEEN,
  /** "Nine" was heard, and it has "nought". */
  NOUGHT_FOR_NINE,
  /** "Four" for "five", "one" for "nine", "five" for "nine": one vowel or one consonant apart. */
  NEAR_DIGIT,
  /** Another word of a number. */
  NUMBER,
  /** An ordinary word. */
  WORD;

  private record Pair(String teen, String ten) {}

  private static final List<Set<String>> NEAR_DIGITS =
      List.of(Set.of("four", "five"), Set.of("one", "nine"), Set.of("five", "nine"));

  private static final List<Pair> PAIRS =
      List.of(
          new Pair("thirteen", "thirty"),
          new Pair("fourteen", "forty"),
          new Pair("fifteen", "fifty"),
          new Pair("sixteen", "sixty"),
          new Pair("seventeen", "seventy"),
          new Pair("eighteen", "eighty"),
          new Pair("nineteen", "ninety"));

  /**
   * Compares two readings.
   *
   * @param best the words of the better reading
   * @param rival the words of the other
   * @return in what they differ; the most dangerous when in several ways
   */
  public static Likeness of(List<String> best, List<String> rival) {
    if (!best.equals(rival) && withoutAnd(best).equals(withoutAnd(rival))) {
      return FOLLOW_ON;
    }
    List<String> heard = without(best, rival);
    List<String> other = without(rival, best);
    if (heard.isEmpty() && other.equals(List.of("oh"))) {
      return OH_DROPPED;
    }
    if (rival.size() > best.size()) {
      return LONGER;
    }
    if (PAIRS.stream().anyMatch(pair -> heard.contains(pair.ten) && other.contains(pair.teen))) {
      return TEEN_FOR_TEN;
    }
    if (PAIRS.stream().anyMatch(pair -> heard.contains(pair.teen) && other.contains(pair.ten))) {
      return TEN_FOR_TEEN;
    }
    if (heard.contains("nine") && other.contains("nought")) {
      return NOUGHT_FOR_NINE;
    }
    if (NEAR_DIGITS.stream().anyMatch(near -> isBetween(near, heard, other))) {
      return NEAR_DIGIT;
    }
    boolean inNumber =
        heard.stream().anyMatch(EntryGrammar::isNumberWord)
            || other.stream().anyMatch(EntryGrammar::isNumberWord);
    return inNumber ? NUMBER : WORD;
  }

  private static boolean isBetween(Set<String> near, List<String> heard, List<String> other) {
    return heard.stream().anyMatch(near::contains) && other.stream().anyMatch(near::contains);
  }

  private static List<String> withoutAnd(List<String> words) {
    return words.get(0).equals("and") ? words.subList(1, words.size()) : words;
  }

  /** The words of one reading that are not in the other, each as often as it is too many. */
  private static List<String> without(List<String> words, List<String> others) {
    List<String> left = new ArrayList<>(words);
    others.forEach(left::remove);
    return left;
  }
}
