package tallyback.speech;

import java.util.ArrayList;
import java.util.List;
import tallyback.phrase.EntryGrammar;

/** In what a rival differs from the better reading: how far it must be behind depends on that. */
public enum Likeness {
  /** It has more words, and has paid for each of them. */
  LONGER,
  /** Only "and" before it all: whether it goes on from the entry before. */
  FOLLOW_ON,
  /** "Fifty" was heard, and it has "fifteen": the more dangerous way round, an n is soon lost. */
  TEEN_FOR_TEN,
  /** "Fifteen" was heard, and it has "fifty". */
  TEN_FOR_TEEN,
  /** "Nine" was heard, and it has "nought". */
  NOUGHT_FOR_NINE,
  /** Another word of a number. */
  NUMBER,
  /** An ordinary word. */
  WORD;

  private record Pair(String teen, String ten) {}

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
    if (rival.size() > best.size()) {
      return LONGER;
    }
    List<String> heard = without(best, rival);
    List<String> other = without(rival, best);
    if (PAIRS.stream().anyMatch(pair -> heard.contains(pair.ten) && other.contains(pair.teen))) {
      return TEEN_FOR_TEN;
    }
    if (PAIRS.stream().anyMatch(pair -> heard.contains(pair.teen) && other.contains(pair.ten))) {
      return TEN_FOR_TEEN;
    }
    if (heard.contains("nine") && other.contains("nought")) {
      return NOUGHT_FOR_NINE;
    }
    boolean inNumber =
        heard.stream().anyMatch(EntryGrammar::isNumberWord)
            || other.stream().anyMatch(EntryGrammar::isNumberWord);
    return inNumber ? NUMBER : WORD;
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
