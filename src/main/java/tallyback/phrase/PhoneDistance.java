package tallyback.phrase;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/**
 * How far apart two rows of phones sound: the least edits between them (V. I. Levenshtein, 1966),
 * where an exchange costs less than a phone too many.
 *
 * <p>Thread rule: stateless.
 */
public final class PhoneDistance {

  /** What it costs to hear one phone for another: 0 the same, 1 as much as a phone too many. */
  @FunctionalInterface
  public interface Exchange {
    /** The cost; symmetric. */
    double cost(String one, String other);
  }

  private static final Set<String> VOWELS =
      Set.of(
          "AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW");

  /**
   * Phones that differ in one thing only: voice, or place, or a step of the tongue. Common
   * phonetics (place and manner of articulation), with no figures of a source behind the costs.
   */
  private static final List<Set<String>> FAMILIES =
      List.of(
          Set.of("P", "B"),
          Set.of("T", "D"),
          Set.of("K", "G"),
          Set.of("P", "T", "K"),
          Set.of("B", "D", "G"),
          Set.of("F", "V", "B"),
          Set.of("F", "TH", "S"),
          Set.of("V", "DH", "Z"),
          Set.of("S", "Z"),
          Set.of("SH", "ZH", "CH", "JH"),
          Set.of("M", "N", "NG"),
          Set.of("L", "R", "W"),
          Set.of("IY", "IH"),
          Set.of("IH", "EH", "AH"),
          Set.of("EH", "AE"),
          Set.of("AE", "AH", "AA"),
          Set.of("AA", "AO", "OW"),
          Set.of("UH", "UW"),
          Set.of("UH", "AH", "ER"),
          Set.of("EY", "EH", "AY"));

  private static final List<String> PHONES =
      List.of(
          "AA", "AE", "AH", "AO", "AW", "AY", "B", "CH", "D", "DH", "EH", "ER", "EY", "F", "G",
          "HH", "IH", "IY", "JH", "K", "L", "M", "N", "NG", "OW", "OY", "P", "R", "S", "SH", "T",
          "TH", "UH", "UW", "V", "W", "Y", "Z", "ZH");

  private static final Map<String, Integer> NUMBERS = numbers();

  /** Worked out once: thousands of pairs of names are held against each other. */
  private static final double[][] FINE = allFine();

  private PhoneDistance() {}

  private static Map<String, Integer> numbers() {
    Map<String, Integer> numbers = new HashMap<>();
    PHONES.forEach(phone -> numbers.put(phone, numbers.size()));
    return Map.copyOf(numbers);
  }

  private static double[][] allFine() {
    double[][] all = new double[PHONES.size()][PHONES.size()];
    for (int one = 0; one < all.length; one++) {
      for (int other = 0; other < all.length; other++) {
        all[one][other] = fine(PHONES.get(one), PHONES.get(other));
      }
    }
    return all;
  }

  /** A vowel for a vowel or a consonant for a consonant counts half. */
  public static double broad(String one, String other) {
    if (one.equals(other)) {
      return 0;
    }
    return VOWELS.contains(one) == VOWELS.contains(other) ? 0.5 : 1;
  }

  /** Of one family a quarter, other vowels or consonants among themselves three quarters. */
  private static double fine(String one, String other) {
    if (one.equals(other)) {
      return 0;
    }
    if (FAMILIES.stream().anyMatch(each -> each.contains(one) && each.contains(other))) {
      return 0.25;
    }
    return VOWELS.contains(one) == VOWELS.contains(other) ? 0.75 : 1;
  }

  /**
   * The distance.
   *
   * @param one phones
   * @param other phones
   * @param exchange what an exchange costs
   * @return the cost of the edits divided by the phones of the longer one: 0 is the same sound, 1
   *     nothing in common; 0 for two empty rows
   */
  public static double between(List<String> one, List<String> other, Exchange exchange) {
    double[] row = new double[other.size() + 1];
    Arrays.setAll(row, i -> i);
    for (String left : one) {
      double diagonal = row[0];
      row[0]++;
      for (int j = 1; j <= other.size(); j++) {
        double above = row[j];
        row[j] =
            Math.min(
                diagonal + exchange.cost(left, other.get(j - 1)), 1 + Math.min(above, row[j - 1]));
        diagonal = above;
      }
    }
    return row[other.size()] / Math.max(1, Math.max(one.size(), other.size()));
  }

  /**
   * Phones by number, for {@link #fineEdits}.
   *
   * @param phones ARPAbet phones without stress marks, separated by blanks
   * @return a number for each; what is no phone is left out
   */
  public static int[] numbered(String phones) {
    return Arrays.stream(phones.strip().split(" +", -1))
        .map(NUMBERS::get)
        .filter(Objects::nonNull)
        .mapToInt(Integer::intValue)
        .toArray();
  }

  /**
   * The cost of the edits between two rows of phones where those of one family (voiced or not, one
   * place on, one step of the tongue) cost a quarter, other vowels or consonants among themselves
   * three quarters.
   *
   * @param one phones of {@link #numbered}
   * @param other phones of {@link #numbered}
   * @param most from where on it does not matter: then anything from there on may come back
   */
  public static double fineEdits(int[] one, int[] other, double most) {
    double[] row = new double[other.length + 1];
    Arrays.setAll(row, i -> i);
    for (int left : one) {
      double[] costs = FINE[left];
      double diagonal = row[0];
      row[0]++;
      double least = row[0];
      for (int j = 1; j <= other.length; j++) {
        double above = row[j];
        row[j] = Math.min(diagonal + costs[other[j - 1]], 1 + Math.min(above, row[j - 1]));
        diagonal = above;
        least = Math.min(least, row[j]);
      }
      if (least >= most) {
        return least;
      }
    }
    return row[other.length];
  }
}
