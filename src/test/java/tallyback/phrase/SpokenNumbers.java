package tallyback.phrase;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;

/**
 * Says numbers in one of the ways people do, chosen at random; written apart from the code under
 * test.
 */
final class SpokenNumbers {

  private static final String[] SMALL = {
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
    "nineteen"
  };
  private static final String[] TENS = {
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"
  };

  private final RandomGenerator random;

  SpokenNumbers(RandomGenerator random) {
    this.random = random;
  }

  String toNinetyNine(int number) {
    if (number < 20) {
      return SMALL[number];
    }
    return number % 10 == 0 ? TENS[number / 10] : TENS[number / 10] + " " + SMALL[number % 10];
  }

  /** A whole number from 1 to 9999. */
  String whole(int number) {
    List<String> ways = new ArrayList<>();
    if (number < 100) {
      ways.add(toNinetyNine(number));
    } else {
      ways.add(inFull(number, " "));
      ways.add(inFull(number, " and "));
      boolean pair = number < 1000 || number / 100 == 20 || number / 100 % 10 != 0;
      if (number % 100 >= 10 && pair) {
        ways.add(toNinetyNine(number / 100) + " " + toNinetyNine(number % 100));
      }
      if (number >= 1100 && number / 100 % 10 != 0) {
        ways.add(
            (toNinetyNine(number / 100)
                    + " hundred "
                    + (number % 100 == 0 ? "" : toNinetyNine(number % 100)))
                .strip());
      }
    }
    if (number >= 10) {
      ways.add(digits(Integer.toString(number)));
    }
    return ways.get(random.nextInt(ways.size()));
  }

  private String inFull(int number, String join) {
    StringBuilder words = new StringBuilder();
    if (number >= 1000) {
      words.append(SMALL[number / 1000]).append(" thousand");
    }
    if (number / 100 % 10 > 0) {
      words.append(' ').append(SMALL[number / 100 % 10]).append(" hundred");
    }
    if (number % 100 > 0) {
      words.append(join).append(toNinetyNine(number % 100));
    }
    return words.toString().strip();
  }

  /** Two noughts in a row are "zero zero". */
  private String digits(String digits) {
    String nought = digits.contains("00") || random.nextBoolean() ? "zero" : "oh";
    StringBuilder words = new StringBuilder();
    for (int at = 0; at < digits.length(); at++) {
      char digit = digits.charAt(at);
      words.append(digit == '0' ? nought : SMALL[digit - '0']).append(' ');
    }
    return words.toString().strip();
  }

  /** A value up to 99 with up to three decimals. */
  String small(BigDecimal value) {
    String text = value.toPlainString();
    int point = text.indexOf('.');
    if (point < 0) {
      return toNinetyNine(value.intValueExact());
    }
    String whole = text.substring(0, point);
    String decimals = text.substring(point + 1);
    if (decimals.equals("5") && !whole.equals("0") && random.nextBoolean()) {
      return toNinetyNine(Integer.parseInt(whole)) + " and a half";
    }
    if (decimals.equals("25") && !whole.equals("0") && random.nextBoolean()) {
      return toNinetyNine(Integer.parseInt(whole)) + " and a quarter";
    }
    String before =
        whole.equals("0")
            ? List.of("", "zero ", "oh ", "nought ").get(random.nextInt(4))
            : toNinetyNine(Integer.parseInt(whole)) + " ";
    return before + "point " + digits(decimals);
  }
}
