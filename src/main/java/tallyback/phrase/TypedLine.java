package tallyback.phrase;

import java.math.BigDecimal;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A typed line turned into the words it would be said in: "2.10 L" becomes "two point one zero
 * litres", "9/16" nine sixteenths, "N·m" newton metres. Words that were heard come through
 * unchanged.
 *
 * <p>Thread rule: stateless.
 */
final class TypedLine {

  /** A sign of a unit and how it is said; tried in this order, so the longer ones come first. */
  private record UnitSign(Pattern sign, String words) {
    static UnitSign of(String sign, String words) {
      return new UnitSign(
          Pattern.compile("(?<![\\p{L}])(?:" + sign + ")(?![\\p{L}'])", Pattern.CASE_INSENSITIVE),
          words);
    }

    /** Only before a further word, which stays as it is. */
    static UnitSign before(String sign, String next, String words) {
      return new UnitSign(
          Pattern.compile(
              "(?<![\\p{L}])" + sign + "\\s+(?=" + next + ")", Pattern.CASE_INSENSITIVE),
          words);
    }

    /** Only right behind a number; for signs that are words or letters elsewhere. */
    static UnitSign afterNumber(String sign, String words) {
      return new UnitSign(Pattern.compile("(?<=\\d)\\s*(?:" + sign + ")(?![\\p{L}'])"), words);
    }
  }

  private static final List<UnitSign> UNIT_SIGNS =
      List.of(
          UnitSign.of("newton[ -]?met(?:re|er)s?", "newton metres"),
          UnitSign.of("kilogram[ -]met(?:re|er)s?", "kilogram metres"),
          UnitSign.of("kgf?\\s?[·*.-]\\s?cm|kgf\\s?cm", "kilogram centimetres"),
          UnitSign.of("kgf?\\s?[·*.-]\\s?m|kgf\\s?m|kgm", "kilogram metres"),
          UnitSign.of("(?:in|inch)[\\s·*.-]?lbs?f?|lbs?f?\\s?[·*.-]?\\s?in", "inch pounds"),
          UnitSign.of("(?:ft|foot)[\\s·*.-]?lbs?f?|lbs?f?\\s?[·*.-]?\\s?ft", "foot pounds"),
          UnitSign.of("n\\s?[·*.-]\\s?m|nm", "newton metres"),
          UnitSign.afterNumber("[nN]\\s?m", "newton metres"),
          UnitSign.of("us fl\\.? ?oz", "u s fluid ounces"),
          UnitSign.of("imp fl\\.? ?oz", "imperial fluid ounces"),
          UnitSign.of("fl\\.? ?oz", "fluid ounces"),
          UnitSign.before("us", "(?:qt|pt|gal|quart|pint|gallon|fluid|ounce|oz)", "u s"),
          UnitSign.before("imp", "(?:qt|pt|gal|quart|pint|gallon|fluid|ounce)", "imperial"),
          UnitSign.afterNumber("(?<=/\\d{1,2})in(?:\\.|ch)?", "inch"),
          UnitSign.afterNumber("(?<=/\\d{1,2} )in(?:\\.|ch)?", "inch"),
          UnitSign.of("qts?", "quarts"),
          UnitSign.of("pts?", "pints"),
          UnitSign.of("gals?", "gallons"),
          UnitSign.of("psi", "p s i"),
          UnitSign.of("rpm", "r p m"),
          UnitSign.of("kpa", "kilopascals"),
          UnitSign.of("ml", "millilitres"),
          UnitSign.of("ccs?", "mils"),
          UnitSign.of("mm", "millimetres"),
          UnitSign.of("km", "kilometres"),
          UnitSign.of("kgs?", "kilograms"),
          UnitSign.of("lbs?", "pounds"),
          UnitSign.of("oz", "ounces"),
          UnitSign.of("degs?\\.? ?c|°\\s?c", "degrees celsius"),
          UnitSign.of("degs?\\.? ?f|°\\s?f", "degrees fahrenheit"),
          UnitSign.of("degs?|°", "degrees"),
          UnitSign.afterNumber("[lL]", "litres"),
          UnitSign.afterNumber("[gG]", "grams"),
          UnitSign.afterNumber("[cC]", "celsius"),
          UnitSign.afterNumber("[fF]", "fahrenheit"),
          UnitSign.afterNumber("[vV]", "volts"),
          UnitSign.afterNumber("A", "amps"),
          UnitSign.afterNumber("(?:h|hrs?)", "hours"),
          UnitSign.afterNumber("mins?", "minutes"),
          UnitSign.afterNumber("mi", "miles"),
          UnitSign.afterNumber("[\"\u2033]", "inch"),
          UnitSign.of("[Ω\u2126]", "ohms"),
          UnitSign.of("%", "percent"));

  private static final Pattern DECIMAL_COMMA = Pattern.compile("\\d,\\d");
  private static final Pattern WORD_OR_NUMBER =
      Pattern.compile(
          "-?\\d+/\\d+|-?\\d*\\.\\d+|-?\\d+(?:s|st|nd|rd|th)?(?![\\p{L}\\d])|-?\\d+|[\\p{L}][\\p{L}']*");
  private static final Pattern MIXED_NUMBER = Pattern.compile("(\\d+)\\s+(1/2|1/4|3/4)");
  private static final Pattern PARTS_OF_AN_INCH = Pattern.compile("\\d+/\\d+");
  private static final Pattern SIGN_OF_MINUS =
      Pattern.compile("(?<=[\\p{L}\\d])-(?=\\p{L})|(?<=\\p{L})-(?=\\d)");

  /**
   * Single words that are quick to type and too short to be heard for sure; said in full they are
   * phrases of the grammar.
   */
  private static final Map<String, String> TYPED_SHORT =
      Map.of(
          "undo", "scratch that",
          "memo", "voice memo",
          "pause", "pause the job",
          "resume", "carry on",
          "leak", "there's a leak",
          "photo", "photo taken");

  private static final Set<String> TWO_WORD_UNITS =
      Set.of("foot pound", "inch pound", "kilogram centimetre");

  private static final Set<String> SINGLE_UNITS =
      Set.of(
          "litre",
          "millilitre",
          "pint",
          "quart",
          "gallon",
          "ounce",
          "gram",
          "kilogram",
          "kilo",
          "newton",
          "volt",
          "amp",
          "ohm",
          "mile",
          "kilometre",
          "minute",
          "hour");

  private static final Map<String, String> PLURALS = Map.of("six", "sixes");

  private TypedLine() {}

  /** What is wrong with the line before any grammar looks at it, as a remedy in words; or null. */
  static @Nullable String misprint(String line) {
    Matcher comma = DECIMAL_COMMA.matcher(line);
    if (comma.find()) {
      return "a comma inside a number can mean two things: write 2.1 for two point one, and 1200 without a comma";
    }
    return null;
  }

  /** The line in words as the grammar spells them. */
  static List<String> words(String line) {
    String text = Normalizer.normalize(line, Normalizer.Form.NFC).strip();
    text =
        text.replace('’', '\'')
            .replace('−', '-')
            .replace("½", " 1/2")
            .replace("¼", " 1/4")
            .replace("¾", " 3/4");
    for (UnitSign unit : UNIT_SIGNS) {
      text = unit.sign().matcher(text).replaceAll(" " + unit.words() + " ");
    }
    text =
        MIXED_NUMBER
            .matcher(text)
            .replaceAll(
                mixed ->
                    NumberWords.cardinal(small(mixed.group(1))) + " and " + part(mixed.group(2)));
    text = SIGN_OF_MINUS.matcher(text).replaceAll(" ");
    List<String> tokens = new ArrayList<>();
    Matcher token = WORD_OR_NUMBER.matcher(text);
    while (token.find()) {
      tokens.add(token.group().toLowerCase(Locale.ROOT));
    }
    List<String> words = new ArrayList<>();
    for (int at = 0; at < tokens.size(); at++) {
      String next = at + 1 < tokens.size() ? tokens.get(at + 1) : "";
      words.addAll(Arrays.asList(spoken(tokens.get(at), next).split(" ", -1)));
    }
    String whole = String.join(" ", words);
    return List.of(TYPED_SHORT.getOrDefault(whole, whole).split(" ", -1));
  }

  /**
   * The same with "two litre" as "two litres"; "a litre", "one litre" and "half a litre" stay as
   * they are.
   */
  static List<String> manyAfterNumbers(List<String> line) {
    List<String> words = new ArrayList<>(line);
    for (int at = 0; at < words.size(); at++) {
      boolean two = at > 0 && TWO_WORD_UNITS.contains(words.get(at - 1) + " " + words.get(at));
      if (two
          || (at > 0
              && SINGLE_UNITS.contains(words.get(at))
              && !isFirstOfTwo(words, at)
              && manyBefore(words, at - 1))) {
        words.set(at, words.get(at) + "s");
      }
    }
    return List.copyOf(words);
  }

  private static boolean isFirstOfTwo(List<String> words, int at) {
    return at + 1 < words.size() && Set.of("metres", "centimetres").contains(words.get(at + 1));
  }

  private static boolean manyBefore(List<String> words, int at) {
    boolean number =
        NumberWords.isNumberWord(words.get(at))
            && !words.get(at).equals("half")
            && !words.get(at).equals("quarter");
    boolean alone = at == 0 || !NumberWords.isNumberWord(words.get(at - 1));
    return number && !(words.get(at).equals("one") && alone);
  }

  private static int small(String digits) {
    return digits.length() > 6 ? 999_999 : Integer.parseInt(digits);
  }

  private static String part(String fraction) {
    return switch (fraction) {
      case "1/2" -> "a half";
      case "1/4" -> "a quarter";
      default -> "three quarters";
    };
  }

  private static String spoken(String token, String next) {
    if (!Character.isDigit(token.charAt(token.length() - 1))
        && Character.isLetter(token.charAt(0))) {
      return Spelling.of(token);
    }
    if (PARTS_OF_AN_INCH.matcher(token).matches()) {
      return fraction(token, next);
    }
    if (token.endsWith("th")
        || token.endsWith("st")
        || token.endsWith("nd")
        || token.endsWith("rd")) {
      return ordinal(token.substring(0, token.length() - 2));
    }
    if (token.endsWith("s")) {
      return plural(NumberWords.words(new BigDecimal(token.substring(0, token.length() - 1))));
    }
    return NumberWords.words(new BigDecimal(token));
  }

  private static String ordinal(String digits) {
    return switch (digits) {
      case "1" -> "first";
      case "2" -> "second";
      case "3" -> "third";
      case "4" -> "fourth";
      default -> NumberWords.words(new BigDecimal(digits));
    };
  }

  /** "ten" to "tens", "twenty one" to "twenty ones". */
  static String plural(String number) {
    int last = number.lastIndexOf(' ') + 1;
    String word = number.substring(last);
    String plural =
        word.endsWith("y")
            ? word.substring(0, word.length() - 1) + "ies"
            : PLURALS.getOrDefault(word, word + "s");
    return number.substring(0, last) + plural;
  }

  private static String fraction(String token, String next) {
    String[] parts = token.split("/", -1);
    String many = NumberWords.words(new BigDecimal(parts[0]));
    boolean amount =
        next.equals("litre")
            || next.equals("litres")
            || next.startsWith("quart")
            || next.startsWith("pint");
    return switch (parts[1]) {
      case "2" -> "half";
      case "4" -> quarters(parts[0], many, amount);
      case "8" -> many + " eighths";
      case "16" -> many + " sixteenths";
      default -> many + " over " + NumberWords.words(new BigDecimal(parts[1]));
    };
  }

  private static String quarters(String count, String many, boolean amount) {
    if (count.equals("1")) {
      return amount ? "a quarter" : "quarter";
    }
    return amount ? many + " quarters of a" : many + " quarters";
  }
}
