package tallyback.phrase;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tallyback.model.Amount;
import tallyback.model.Unit;

/**
 * Amounts in words for reading back, in phrases that the grammar itself would take.
 *
 * <p>Thread rule: stateless.
 */
final class UnitWords {

  private static final Map<Unit, String> PLURAL = plurals();

  private static final Map<String, String> INCHES =
      Map.ofEntries(
          Map.entry("0.5", "half inch"),
          Map.entry("0.25", "quarter inch"),
          Map.entry("0.75", "three quarter inch"),
          Map.entry("0.375", "three eighths inch"),
          Map.entry("0.625", "five eighths inch"),
          Map.entry("0.875", "seven eighths inch"),
          Map.entry("0.3125", "five sixteenths inch"),
          Map.entry("0.4375", "seven sixteenths inch"),
          Map.entry("0.5625", "nine sixteenths inch"),
          Map.entry("0.6875", "eleven sixteenths inch"),
          Map.entry("0.8125", "thirteen sixteenths inch"),
          Map.entry("0.9375", "fifteen sixteenths inch"));

  private static final Set<String> UNIT_WORDS =
      Stream.concat(
              PLURAL.values().stream().flatMap(words -> Stream.of(words.split(" ", -1))),
              Stream.of(
                  "mil",
                  "mils",
                  "c",
                  "newtons",
                  "pound",
                  "kilo",
                  "kilos",
                  "feet",
                  "american",
                  "ago"))
          .flatMap(
              word ->
                  word.endsWith("s")
                      ? Stream.of(word, word.substring(0, word.length() - 1))
                      : Stream.of(word))
          .collect(Collectors.toUnmodifiableSet());

  private UnitWords() {}

  private static Map<Unit, String> plurals() {
    Map<Unit, String> words = new EnumMap<>(Unit.class);
    words.put(Unit.LITRE, "litres");
    words.put(Unit.MILLILITRE, "millilitres");
    words.put(Unit.US_FLUID_OUNCE, "u s fluid ounces");
    words.put(Unit.US_PINT, "u s pints");
    words.put(Unit.US_QUART, "u s quarts");
    words.put(Unit.US_GALLON, "u s gallons");
    words.put(Unit.IMPERIAL_FLUID_OUNCE, "imperial fluid ounces");
    words.put(Unit.IMPERIAL_PINT, "imperial pints");
    words.put(Unit.IMPERIAL_QUART, "imperial quarts");
    words.put(Unit.IMPERIAL_GALLON, "imperial gallons");
    words.put(Unit.NEWTON_METRE, "newton metres");
    words.put(Unit.POUND_FOOT, "foot pounds");
    words.put(Unit.POUND_INCH, "inch pounds");
    words.put(Unit.KILOGRAM_METRE, "kilogram metres");
    words.put(Unit.KILOGRAM_CENTIMETRE, "kilogram centimetres");
    words.put(Unit.MILLIMETRE, "millimetres");
    words.put(Unit.INCH, "inches");
    words.put(Unit.THOU, "thou");
    words.put(Unit.GRAM, "grams");
    words.put(Unit.KILOGRAM, "kilograms");
    words.put(Unit.OUNCE, "ounces");
    words.put(Unit.POUND, "pounds");
    words.put(Unit.CELSIUS, "degrees celsius");
    words.put(Unit.FAHRENHEIT, "degrees fahrenheit");
    words.put(Unit.KILOPASCAL, "kilopascals");
    words.put(Unit.BAR, "bar");
    words.put(Unit.PSI, "p s i");
    words.put(Unit.VOLT, "volts");
    words.put(Unit.AMPERE, "amps");
    words.put(Unit.OHM, "ohms");
    words.put(Unit.RPM, "revs");
    words.put(Unit.DEGREE, "degrees");
    words.put(Unit.SECOND, "seconds");
    words.put(Unit.MINUTE, "minutes");
    words.put(Unit.HOUR, "hours");
    words.put(Unit.KILOMETRE, "kilometres");
    words.put(Unit.MILE, "miles");
    words.put(Unit.PERCENT, "percent");
    return words;
  }

  /** A unit by itself: "newton metres". */
  static String unit(Unit unit) {
    return PLURAL.getOrDefault(unit, "");
  }

  /**
   * The value digit by digit where it could be misheard, and its unit: "one nine newton metres".
   */
  static String spoken(Amount amount) {
    return (NumberWords.readBack(amount.value()) + " " + unitOf(amount)).strip();
  }

  /** The value in plain words and its unit: "twenty minutes". */
  static String plain(Amount amount) {
    return (NumberWords.words(amount.value()) + " " + unitOf(amount)).strip();
  }

  /**
   * The value in plain words, once more digit by digit where it could be misheard, and its unit:
   * "nineteen, one nine, newton metres".
   */
  static String answered(Amount amount) {
    String words = NumberWords.words(amount.value());
    String digits = NumberWords.readBack(amount.value());
    String unit = unitOf(amount);
    boolean plain = words.equals(digits);
    return ((plain ? words : words + ", " + digits + (unit.isEmpty() ? "" : ",")) + " " + unit)
        .strip();
  }

  /** True for a word of a unit: exchanging one would change a value. */
  static boolean isUnitWord(String word) {
    return UNIT_WORDS.contains(word);
  }

  private static String unitOf(Amount amount) {
    String unit = unit(amount.unit());
    boolean one = amount.value().compareTo(BigDecimal.ONE) == 0 && amount.value().scale() <= 0;
    if (one && unit.endsWith("s") && !unit.startsWith("degrees")) {
      return unit.substring(0, unit.length() - 1);
    }
    return unit;
  }

  /** A head size: "ten millimetre", "nine sixteenths inch". */
  static String headSize(Amount size) {
    if (size.unit() == Unit.INCH) {
      String words = INCHES.get(size.value().stripTrailingZeros().toPlainString());
      return words == null ? spoken(size) : words;
    }
    return NumberWords.words(size.value()) + " millimetre";
  }
}
