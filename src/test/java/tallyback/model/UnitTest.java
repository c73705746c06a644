package tallyback.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import tech.units.indriya.unit.Units;

class UnitTest {

  private static Unit unit(String symbol) {
    return Unit.ofSymbol(symbol).orElseThrow();
  }

  static Stream<List<String>> units() {
    return ReferenceRows.of("units.csv");
  }

  static Stream<List<String>> temperatures() {
    return ReferenceRows.of("temperature.csv");
  }

  // Against the published definitions

  @ParameterizedTest
  @MethodSource("units")
  void convertsExactlyAsDefined(List<String> row) {
    Rational one = Amount.of("1", unit(row.get(0))).in(unit(row.get(1)));

    assertEquals(Rational.parse(row.get(3)), one);
    assertTrue(
        one.minus(Rational.parse(row.get(2)))
                .abs()
                .compareTo(Rational.parse("1/10000000000000000000000000000"))
            < 0,
        "decimal column");
  }

  @Test
  void everyUnitWithAFactorOfItsOwnHasAPublishedRow() {
    Set<Unit> published = EnumSet.noneOf(Unit.class);
    units().forEach(row -> published.add(unit(row.get(0))));
    Set<Unit> decimalOrTime =
        EnumSet.of(Unit.MILLILITRE, Unit.GRAM, Unit.MINUTE, Unit.HOUR, Unit.FAHRENHEIT);

    for (Unit unit : Unit.values()) {
      boolean base = unit.factor().equals(Rational.parse("1"));
      assertTrue(base || published.contains(unit) || decimalOrTime.contains(unit), unit.symbol());
    }
  }

  @ParameterizedTest
  @MethodSource("temperatures")
  void temperaturesAsDefined(List<String> row) {
    Rational celsius = Amount.of(row.get(0), unit(row.get(1))).in(Unit.CELSIUS);

    assertEquals(
        0,
        new BigDecimal(row.get(2))
            .compareTo(celsius.toBigDecimal().setScale(10, RoundingMode.HALF_UP)));
  }

  @Test
  void aDifferenceOfOneDegreeFahrenheitIsFiveNinthsOfACelsiusDegree() {
    Rational warmer = Amount.of("87", Unit.FAHRENHEIT).in(Unit.CELSIUS);
    Rational cooler = Amount.of("86", Unit.FAHRENHEIT).in(Unit.CELSIUS);

    assertEquals(Rational.of(5, 9), warmer.minus(cooler));
  }

  @Test
  void metricPrefixesAndClock() {
    assertEquals(Rational.of(1, 2), Amount.of("500", Unit.MILLILITRE).in(Unit.LITRE));
    assertEquals(Rational.of(1, 4), Amount.of("250", Unit.GRAM).in(Unit.KILOGRAM));
    assertEquals(Rational.of(90, 1), Amount.of("1.5", Unit.HOUR).in(Unit.MINUTE));
    assertEquals(Rational.of(120, 1), Amount.of("2", Unit.MINUTE).in(Unit.SECOND));
  }

  // A second opinion: the same units, put together by Indriya from the metre, kilogram and second.
  // Its converters end in a
  // double, so the two agree to about fifteen digits.

  private static final javax.measure.Unit<?> INCH = Units.METRE.multiply(254).divide(10_000);
  private static final javax.measure.Unit<?> FOOT = INCH.multiply(12);
  private static final javax.measure.Unit<?> MILLIMETRE = Units.METRE.divide(1000);
  private static final javax.measure.Unit<?> POUND =
      Units.KILOGRAM.multiply(45_359_237).divide(100_000_000);
  private static final javax.measure.Unit<?> GRAVITY =
      Units.METRE_PER_SQUARE_SECOND.multiply(980_665).divide(100_000);
  private static final javax.measure.Unit<?> POUND_FORCE = POUND.multiply(GRAVITY);
  private static final javax.measure.Unit<?> KILOGRAM_FORCE = Units.KILOGRAM.multiply(GRAVITY);
  private static final javax.measure.Unit<?> NEWTON_METRE = Units.NEWTON.multiply(Units.METRE);
  private static final javax.measure.Unit<?> CUBIC_DECIMETRE = Units.METRE.divide(10).pow(3);
  private static final javax.measure.Unit<?> US_GALLON = INCH.pow(3).multiply(231);
  private static final javax.measure.Unit<?> IMPERIAL_GALLON =
      CUBIC_DECIMETRE.multiply(454_609).divide(100_000);
  private static final javax.measure.Unit<?> KILOPASCAL = Units.PASCAL.multiply(1000);
  private static final javax.measure.Unit<?> FAHRENHEIT =
      Units.KELVIN.multiply(5).divide(9).shift(new BigDecimal("459.67"));

  private record Opinion(javax.measure.Unit<?> unit, javax.measure.Unit<?> base) {}

  private static final Map<Unit, Opinion> OPINIONS = new EnumMap<>(Unit.class);

  static {
    OPINIONS.put(Unit.MILLILITRE, new Opinion(CUBIC_DECIMETRE.divide(1000), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.US_FLUID_OUNCE, new Opinion(US_GALLON.divide(128), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.US_PINT, new Opinion(US_GALLON.divide(8), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.US_QUART, new Opinion(US_GALLON.divide(4), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.US_GALLON, new Opinion(US_GALLON, CUBIC_DECIMETRE));
    OPINIONS.put(
        Unit.IMPERIAL_FLUID_OUNCE, new Opinion(IMPERIAL_GALLON.divide(160), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.IMPERIAL_PINT, new Opinion(IMPERIAL_GALLON.divide(8), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.IMPERIAL_QUART, new Opinion(IMPERIAL_GALLON.divide(4), CUBIC_DECIMETRE));
    OPINIONS.put(Unit.IMPERIAL_GALLON, new Opinion(IMPERIAL_GALLON, CUBIC_DECIMETRE));
    OPINIONS.put(Unit.POUND_FOOT, new Opinion(POUND_FORCE.multiply(FOOT), NEWTON_METRE));
    OPINIONS.put(Unit.POUND_INCH, new Opinion(POUND_FORCE.multiply(INCH), NEWTON_METRE));
    OPINIONS.put(
        Unit.KILOGRAM_METRE, new Opinion(KILOGRAM_FORCE.multiply(Units.METRE), NEWTON_METRE));
    OPINIONS.put(
        Unit.KILOGRAM_CENTIMETRE,
        new Opinion(KILOGRAM_FORCE.multiply(Units.METRE).divide(100), NEWTON_METRE));
    OPINIONS.put(Unit.INCH, new Opinion(INCH, MILLIMETRE));
    OPINIONS.put(Unit.THOU, new Opinion(INCH.divide(1000), MILLIMETRE));
    OPINIONS.put(Unit.GRAM, new Opinion(Units.GRAM, Units.KILOGRAM));
    OPINIONS.put(Unit.POUND, new Opinion(POUND, Units.KILOGRAM));
    OPINIONS.put(Unit.OUNCE, new Opinion(POUND.divide(16), Units.KILOGRAM));
    OPINIONS.put(Unit.FAHRENHEIT, new Opinion(FAHRENHEIT, Units.CELSIUS));
    OPINIONS.put(Unit.BAR, new Opinion(Units.PASCAL.multiply(100_000), KILOPASCAL));
    OPINIONS.put(Unit.PSI, new Opinion(POUND_FORCE.divide(INCH.pow(2)), KILOPASCAL));
    OPINIONS.put(Unit.MINUTE, new Opinion(Units.MINUTE, Units.SECOND));
    OPINIONS.put(Unit.HOUR, new Opinion(Units.HOUR, Units.SECOND));
    OPINIONS.put(Unit.MILE, new Opinion(FOOT.multiply(5280), Units.METRE.multiply(1000)));
  }

  @Test
  void everyFactorHasASecondOpinion() {
    for (Unit unit : Unit.values()) {
      assertTrue(
          unit.factor().equals(Rational.parse("1")) || OPINIONS.containsKey(unit), unit.symbol());
    }
  }

  static Set<Unit> unitsWithOpinion() {
    return OPINIONS.keySet();
  }

  @ParameterizedTest
  @MethodSource("unitsWithOpinion")
  void indriyaAgrees(Unit unit) throws javax.measure.IncommensurableException {
    Opinion opinion = Objects.requireNonNull(OPINIONS.get(unit));
    for (String value : List.of("1", "0.1", "21.37", "480", "-40")) {
      double theirs =
          opinion.unit().getConverterToAny(opinion.base()).convert(Double.parseDouble(value));
      double ours = Amount.of(value, unit).base().toDouble();

      assertEquals(ours, theirs, 1e-12 * Math.max(1, Math.abs(ours)), value + " " + unit.symbol());
    }
  }

  // Laws

  @Test
  void thereAndBackIsExactBetweenAllUnitsOfADimension() {
    long seed = 811;
    Random random = new Random(seed);
    for (Unit from : Unit.values()) {
      for (Unit to : Unit.values()) {
        if (from.dimension() != to.dimension()) {
          continue;
        }
        for (int i = 0; i < 50; i++) {
          Rational value =
              Rational.of(
                  BigDecimal.valueOf(random.nextInt(2_000_000) - 1_000_000, random.nextInt(6)));
          Rational there = to.fromBase(from.toBase(value));
          assertEquals(
              value, from.fromBase(to.toBase(there)), "seed " + seed + " " + from + " " + to);
        }
      }
    }
  }

  @ParameterizedTest
  @EnumSource(names = "UNSAID", mode = EnumSource.Mode.EXCLUDE)
  void aSymbolFindsItsUnit(Unit unit) {
    assertEquals(Optional.of(unit), Unit.ofSymbol(unit.symbol()));
  }

  @Test
  void symbolsAreDifferent() {
    Set<String> symbols = new HashSet<>();
    for (Unit unit : Unit.values()) {
      assertTrue(symbols.add(unit.symbol()), unit.symbol());
    }
  }

  @Test
  void nothingIsNoUnit() {
    assertEquals(Optional.empty(), Unit.ofSymbol(""));
    assertEquals(Optional.empty(), Unit.ofSymbol("furlong"));
  }
}
