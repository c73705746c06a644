package tallyback.plan;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Unit;

/**
 * Reads amounts as people write them: {@code 2.10 L}, {@code 24 Nm}, {@code 18 ft-lb}, {@code 9/16
 * in}, {@code -37 °C}. The value stays as written; only a common fraction becomes the decimal
 * number that equals it exactly.
 */
final class AmountText {

  private static final Pattern SHAPE =
      Pattern.compile("(?<number>[-+\u2212]?\\d[\\d.,]*(?:\\s+\\d+/\\d+|/\\d+)?)\\s*(?<unit>.*)");
  private static final Pattern DECIMAL = Pattern.compile("[-+]?\\d{1,9}(\\.\\d{1,9})?");
  private static final Pattern FRACTION =
      Pattern.compile(
          "(?<sign>[-+]?)(?:(?<whole>\\d{1,9})\\s+)?(?<over>\\d{1,6})/(?<under>\\d{1,6})");

  /** Units as written, without case, spaces, hyphens, points and middle dots. */
  private static final Map<String, Unit> WRITTEN = written();

  /** Units that are two units under one name. */
  private static final Map<String, String> DOUBTFUL =
      Map.ofEntries(
          Map.entry("floz", "US fl oz or imp fl oz"),
          Map.entry("pt", "US pt or imp pt"),
          Map.entry("pint", "US pt or imp pt"),
          Map.entry("pints", "US pt or imp pt"),
          Map.entry("qt", "US qt or imp qt"),
          Map.entry("quart", "US qt or imp qt"),
          Map.entry("quarts", "US qt or imp qt"),
          Map.entry("gal", "US gal or imp gal"),
          Map.entry("gallon", "US gal or imp gal"),
          Map.entry("gallons", "US gal or imp gal"),
          Map.entry("mil", "mm, mL or thou"),
          Map.entry("mils", "mm, mL or thou"));

  private AmountText() {}

  /** The amount, or null with the fault gathered at {@code spot}. */
  static @Nullable Amount read(String text, Spot spot, Faults faults, Set<Dimension> wanted) {
    Matcher shape = SHAPE.matcher(text.strip());
    if (!shape.matches()) {
      faults.notAmount(spot, text, unitsOf(wanted));
      return null;
    }
    BigDecimal value = number(shape.group("number"), text, spot, faults, wanted);
    Unit unit = unit(shape.group("unit"), text, spot, faults, wanted);
    return value == null || unit == null ? null : new Amount(value, unit);
  }

  private static @Nullable BigDecimal number(
      String written, String text, Spot spot, Faults faults, Set<Dimension> wanted) {
    String number = written.replace('\u2212', '-');
    if (number.indexOf(',') >= 0) {
      faults.comma(spot, text);
      return null;
    }
    if (DECIMAL.matcher(number).matches()) {
      return new BigDecimal(number);
    }
    Matcher fraction = FRACTION.matcher(number);
    if (fraction.matches()) {
      return fraction(fraction, text, spot, faults);
    }
    faults.notAmount(spot, text, unitsOf(wanted));
    return null;
  }

  private static @Nullable BigDecimal fraction(
      Matcher fraction, String text, Spot spot, Faults faults) {
    BigInteger over = new BigInteger(fraction.group("over"));
    BigInteger under = new BigInteger(fraction.group("under"));
    try {
      BigDecimal value = new BigDecimal(over).divide(new BigDecimal(under));
      String whole = fraction.group("whole");
      BigDecimal size = whole == null ? value : value.add(new BigDecimal(whole));
      return fraction.group("sign").equals("-") ? size.negate() : size;
    } catch (ArithmeticException endlessOrOverNought) {
      faults.notDecimal(spot, text);
      return null;
    }
  }

  private static @Nullable Unit unit(
      String written, String text, Spot spot, Faults faults, Set<Dimension> wanted) {
    if (written.isBlank()) {
      faults.noUnit(spot, text, unitsOf(wanted));
      return null;
    }
    String doubtful = DOUBTFUL.get(key(written));
    if (doubtful != null || (key(written).equals("oz") && wanted.contains(Dimension.VOLUME))) {
      faults.doubtfulUnit(
          spot, text, Optional.ofNullable(doubtful).orElse("US fl oz or imp fl oz"));
      return null;
    }
    Unit unit = WRITTEN.get(key(written));
    if (unit == null) {
      faults.unknownUnit(spot, text, unitsOf(wanted));
      return null;
    }
    if (!wanted.contains(unit.dimension())) {
      faults.wrongDimension(spot, text, unitsOf(wanted));
      return null;
    }
    return unit;
  }

  /** The symbols of all units that measure one of {@code dimensions}. */
  static String unitsOf(Set<Dimension> dimensions) {
    return Arrays.stream(Unit.values())
        .filter(unit -> dimensions.contains(unit.dimension()))
        .map(Unit::symbol)
        .collect(Collectors.joining(", "));
  }

  /** Every dimension that has a unit. */
  static Set<Dimension> anyDimension() {
    return EnumSet.complementOf(EnumSet.of(Dimension.UNSAID));
  }

  private static String key(String written) {
    return written
        .toLowerCase(Locale.ROOT)
        .replaceAll("[\\s.*\u00b7\u22c5\u2022\u2010-\u2012-]", "");
  }

  private static Map<String, Unit> written() {
    Map<String, Unit> map = new HashMap<>();
    for (Unit unit : Unit.values()) {
      if (unit != Unit.UNSAID) {
        map.put(key(unit.symbol()), unit);
      }
    }
    also(map, Unit.LITRE, "litre", "litres", "liter", "liters", "ltr");
    also(
        map,
        Unit.MILLILITRE,
        "millilitre",
        "millilitres",
        "milliliter",
        "milliliters",
        "cc",
        "cm3");
    for (String pounds : new String[] {"lb", "lbs", "lbf"}) {
      also(map, Unit.POUND_FOOT, pounds + "ft", "ft" + pounds);
      also(map, Unit.POUND_INCH, pounds + "in", "in" + pounds);
    }
    also(map, Unit.KILOGRAM_METRE, "kgm");
    also(map, Unit.KILOGRAM_CENTIMETRE, "kgcm");
    also(map, Unit.INCH, "inch", "inches", "\"", "\u2033");
    also(map, Unit.POUND, "lbs");
    also(map, Unit.CELSIUS, "c", "degc");
    also(map, Unit.FAHRENHEIT, "f", "degf");
    also(map, Unit.OHM, "ohm", "ohms", "\u2126");
    also(map, Unit.DEGREE, "deg", "degree", "degrees");
    also(map, Unit.SECOND, "sec", "second", "seconds");
    also(map, Unit.MINUTE, "minute", "minutes");
    also(map, Unit.HOUR, "hour", "hours");
    also(map, Unit.MILE, "mile", "miles");
    also(map, Unit.PERCENT, "percent");
    for (String side : new String[] {"us", "imp", "imperial"}) {
      boolean us = side.equals("us");
      also(map, us ? Unit.US_FLUID_OUNCE : Unit.IMPERIAL_FLUID_OUNCE, side + "floz");
      also(map, us ? Unit.US_PINT : Unit.IMPERIAL_PINT, side + "pt", side + "pint", side + "pints");
      also(
          map,
          us ? Unit.US_QUART : Unit.IMPERIAL_QUART,
          side + "qt",
          side + "quart",
          side + "quarts");
      also(
          map,
          us ? Unit.US_GALLON : Unit.IMPERIAL_GALLON,
          side + "gal",
          side + "gallon",
          side + "gallons");
    }
    return Map.copyOf(map);
  }

  private static void also(Map<String, Unit> map, Unit unit, String... ways) {
    for (String way : ways) {
      Unit other = map.put(key(way), unit);
      if (other != null && other != unit) {
        throw new IllegalStateException(way + " stands for two units");
      }
    }
  }
}
