package tallyback.phrase;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Numbers between words and exact values. Reads what the number rules of the grammar let through,
 * however it was put: "two point one zero" is 2.10, "nine fifty" 950, "twenty one hundred" 2100,
 * "one five" 15, "three and a half" 3.5.
 *
 * <p>Thread rule: stateless.
 */
final class NumberWords {

  private static final List<String> TO_NINETEEN =
      List.of(
          "zero",
          "one",
          "two",
          "three",
          "four",
          "five",
          "six",
          "seven",
          "eight",
          "nine",
          "ten",
          "eleven",
          "twelve",
          "thirteen",
          "fourteen",
          "fifteen",
          "sixteen",
          "seventeen",
          "eighteen",
          "nineteen");

  private static final Set<String> NOUGHTS = Set.of("zero", "oh", "nought");

  private static final List<String> TENS =
      List.of("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety");

  private static final Map<String, String> PARTS =
      Map.of("a half", "0.5", "a quarter", "0.25", "three quarters", "0.75");

  private static final Set<String> OTHER_VALUE_WORDS =
      Stream.concat(
              Stream.of(
                  "hundred",
                  "thousand",
                  "point",
                  "minus",
                  "half",
                  "quarter",
                  "quarters",
                  "dozen",
                  "couple",
                  "eighths",
                  "sixteenths",
                  "first",
                  "second",
                  "third",
                  "fourth",
                  "both",
                  "sixes"),
              TO_NINETEEN.stream().map(word -> word + "s"))
          .collect(Collectors.toUnmodifiableSet());

  private static final int LARGEST_SPELLED_OUT = 999_999;

  private NumberWords() {}

  /** True for a word that carries a value: of a number, a fraction, a head size, a pass. */
  static boolean isNumberWord(String word) {
    return isDigit(word)
        || TO_NINETEEN.contains(word)
        || TENS.contains(word)
        || OTHER_VALUE_WORDS.contains(word);
  }

  /**
   * The exact value of a number in words, as many decimals as were said.
   *
   * @throws IllegalArgumentException if the words are no number
   */
  static BigDecimal value(List<String> words) {
    if (words.isEmpty()) {
      throw new IllegalArgumentException("expected a number, found nothing");
    }
    if (words.get(0).equals("minus")) {
      return value(words.subList(1, words.size())).negate();
    }
    int point = words.indexOf("point");
    if (point >= 0) {
      String decimals = digits(words.subList(point + 1, words.size()));
      return new BigDecimal((point == 0 ? 0 : whole(words.subList(0, point))) + "." + decimals);
    }
    int and = words.lastIndexOf("and");
    String part =
        and < 0 ? null : PARTS.get(String.join(" ", words.subList(and + 1, words.size())));
    if (part != null) {
      return BigDecimal.valueOf(whole(words.subList(0, and))).add(new BigDecimal(part));
    }
    return BigDecimal.valueOf(whole(words));
  }

  private static long whole(List<String> words) {
    int thousand = words.indexOf("thousand");
    if (thousand >= 0) {
      return 1000 * underThousand(words.subList(0, thousand))
          + underThousand(words.subList(thousand + 1, words.size()));
    }
    return underThousand(words);
  }

  /**
   * Despite its name also "twenty one hundred" and "twenty one fifty": pairs of numbers under a
   * hundred.
   */
  private static long underThousand(List<String> said) {
    List<String> words = said.stream().filter(word -> !word.equals("and")).toList();
    if (words.isEmpty()) {
      return 0;
    }
    int hundred = words.indexOf("hundred");
    if (hundred >= 0) {
      return 100 * underHundred(words.subList(0, hundred))
          + underThousand(words.subList(hundred + 1, words.size()));
    }
    if (words.size() > 1 && words.stream().allMatch(NumberWords::isDigit)) {
      return Long.parseLong(digits(words));
    }
    int firstLength = isTens(words.get(0)) && words.size() > 1 && isOneToNine(words.get(1)) ? 2 : 1;
    long first = underHundred(words.subList(0, firstLength));
    if (firstLength == words.size()) {
      return first;
    }
    return 100 * first + underHundred(words.subList(firstLength, words.size()));
  }

  private static long underHundred(List<String> words) {
    long sum = 0;
    for (String word : words) {
      if (word.equals("a")) {
        sum += 1;
      } else if (isTens(word)) {
        sum += 10L * TENS.indexOf(word);
      } else if (isDigit(word)) {
        sum += digit(word);
      } else if (TO_NINETEEN.contains(word)) {
        sum += TO_NINETEEN.indexOf(word);
      } else {
        throw new IllegalArgumentException("expected a number, found \"" + word + "\"");
      }
    }
    return sum;
  }

  private static boolean isTens(String word) {
    return TENS.indexOf(word) >= 2;
  }

  private static boolean isOneToNine(String word) {
    int value = TO_NINETEEN.indexOf(word);
    return value >= 1 && value <= 9;
  }

  private static boolean isDigit(String word) {
    return word.equals("oh") || word.equals("nought") || isOneToNine(word) || word.equals("zero");
  }

  private static int digit(String word) {
    return word.equals("oh") || word.equals("nought") ? 0 : TO_NINETEEN.indexOf(word);
  }

  private static String digits(List<String> words) {
    return words.stream()
        .map(
            word -> {
              if (!isDigit(word)) {
                throw new IllegalArgumentException("expected a digit, found \"" + word + "\"");
              }
              return Integer.toString(digit(word));
            })
        .collect(Collectors.joining());
  }

  /** The number in plain words, decimals digit by digit: 2.10 is "two point one zero". */
  static String words(BigDecimal value) {
    if (value.signum() < 0) {
      return "minus " + words(value.negate());
    }
    String text = value.toPlainString();
    int point = text.indexOf('.');
    String whole = point < 0 ? text : text.substring(0, point);
    String words = wholeWords(whole);
    return point < 0 ? words : words + " point " + digitWords(text.substring(point + 1));
  }

  private static String wholeWords(String digits) {
    boolean leadingNought = digits.length() > 1 && digits.startsWith("0");
    if (leadingNought || digits.length() > 6 || Integer.parseInt(digits) > LARGEST_SPELLED_OUT) {
      return digitWords(digits);
    }
    return cardinal(Integer.parseInt(digits));
  }

  /** A whole number from 0 to 999,999 in words, without "and". */
  static String cardinal(int number) {
    if (number < 20) {
      return TO_NINETEEN.get(number);
    }
    List<String> words = new ArrayList<>();
    if (number >= 1000) {
      words.add(cardinal(number / 1000));
      words.add("thousand");
    }
    int hundreds = number % 1000 / 100;
    if (hundreds > 0) {
      words.add(cardinal(hundreds));
      words.add("hundred");
    }
    int rest = number % 100;
    if (rest >= 20) {
      words.add(TENS.get(rest / 10));
      rest %= 10;
    }
    if (rest > 0) {
      words.add(TO_NINETEEN.get(rest));
    }
    return String.join(" ", words);
  }

  /** Each digit by itself: "15" is "one five". */
  static String digitWords(String digits) {
    return digits
        .chars()
        .mapToObj(each -> TO_NINETEEN.get(Character.digit(each, 10)))
        .collect(Collectors.joining(" "));
  }

  /**
   * The number as it is read back: digit by digit where a teen could be taken for a ten or the
   * other way round (thirteen and thirty, fifteen and fifty), else in plain words.
   */
  static String readBack(BigDecimal value) {
    if (value.signum() < 0) {
      return "minus " + readBack(value.negate());
    }
    String text = value.toPlainString();
    int point = text.indexOf('.');
    String whole = point < 0 ? text : text.substring(0, point);
    boolean confusable =
        Arrays.stream(wholeWords(whole).split(" ", -1)).anyMatch(NumberWords::teenOrTen);
    if (!confusable || whole.length() > 4) {
      return words(value);
    }
    return digitWords(whole) + (point < 0 ? "" : " point " + digitWords(text.substring(point + 1)));
  }

  private static boolean teenOrTen(String word) {
    return isTens(word) || TO_NINETEEN.indexOf(word) >= 13;
  }

  /**
   * The same words without noughts at the end of decimals, of which the first is kept: "two point
   * one oh" becomes "two point one", "two point oh oh" "two point oh". They say how finely somebody
   * read, not how much.
   */
  static List<String> withoutTrailingNoughts(List<String> words) {
    List<String> kept = new ArrayList<>();
    int firstDecimal = -1;
    for (String word : words) {
      if (firstDecimal >= 0 && !isDigit(word)) {
        dropNoughts(kept, firstDecimal);
        firstDecimal = -1;
      }
      kept.add(word);
      if (word.equals("point")) {
        firstDecimal = kept.size();
      }
    }
    if (firstDecimal >= 0) {
      dropNoughts(kept, firstDecimal);
    }
    return kept;
  }

  private static void dropNoughts(List<String> words, int firstDecimal) {
    while (words.size() > firstDecimal + 1 && NOUGHTS.contains(words.get(words.size() - 1))) {
      words.remove(words.size() - 1);
    }
  }
}
