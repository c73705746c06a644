package tallyback.model;

import java.util.Optional;

/**
 * A unit with its exact factor to the base unit of its dimension.
 *
 * <p>Factors are the exact definitions behind NIST Special Publication 811 (2008), Appendix B: the
 * inch is 25.4 mm, the avoirdupois pound 0.45359237 kg, standard gravity 9.80665 m/s2, the US
 * gallon 231 cubic inches, the imperial gallon 4.54609 L.
 */
public enum Unit {
  /** Litre. */
  LITRE("L", Dimension.VOLUME, "1"),
  /** Millilitre. */
  MILLILITRE("mL", Dimension.VOLUME, "1/1000"),
  /** US fluid ounce. */
  US_FLUID_OUNCE("US fl oz", Dimension.VOLUME, "473176473/16000000000"),
  /** US liquid pint. */
  US_PINT("US pt", Dimension.VOLUME, "473176473/1000000000"),
  /** US liquid quart. */
  US_QUART("US qt", Dimension.VOLUME, "473176473/500000000"),
  /** US gallon. */
  US_GALLON("US gal", Dimension.VOLUME, "473176473/125000000"),
  /** Imperial fluid ounce. */
  IMPERIAL_FLUID_OUNCE("imp fl oz", Dimension.VOLUME, "454609/16000000"),
  /** Imperial pint. */
  IMPERIAL_PINT("imp pt", Dimension.VOLUME, "454609/800000"),
  /** Imperial quart. */
  IMPERIAL_QUART("imp qt", Dimension.VOLUME, "454609/400000"),
  /** Imperial gallon. */
  IMPERIAL_GALLON("imp gal", Dimension.VOLUME, "454609/100000"),
  /** Newton metre. */
  NEWTON_METRE("N·m", Dimension.TORQUE, "1"),
  /** Pound-force foot. */
  POUND_FOOT("lbf·ft", Dimension.TORQUE, "3389544870828501/2500000000000000"),
  /** Pound-force inch. */
  POUND_INCH("lbf·in", Dimension.TORQUE, "1129848290276167/10000000000000000"),
  /** Kilogram-force metre. */
  KILOGRAM_METRE("kgf·m", Dimension.TORQUE, "196133/20000"),
  /** Kilogram-force centimetre. */
  KILOGRAM_CENTIMETRE("kgf·cm", Dimension.TORQUE, "196133/2000000"),
  /** Millimetre. */
  MILLIMETRE("mm", Dimension.LENGTH, "1"),
  /** Inch. */
  INCH("in", Dimension.LENGTH, "127/5"),
  /** Thousandth of an inch. */
  THOU("thou", Dimension.LENGTH, "127/5000"),
  /** Gram. */
  GRAM("g", Dimension.MASS, "1/1000"),
  /** Kilogram. */
  KILOGRAM("kg", Dimension.MASS, "1"),
  /** Avoirdupois ounce. */
  OUNCE("oz", Dimension.MASS, "45359237/1600000000"),
  /** Avoirdupois pound. */
  POUND("lb", Dimension.MASS, "45359237/100000000"),
  /** Degree Celsius. */
  CELSIUS("°C", Dimension.TEMPERATURE, "1"),
  /** Degree Fahrenheit. */
  FAHRENHEIT("°F", Dimension.TEMPERATURE, "5/9", "-160/9"),
  /** Kilopascal. */
  KILOPASCAL("kPa", Dimension.PRESSURE, "1"),
  /** Bar. */
  BAR("bar", Dimension.PRESSURE, "100"),
  /** Pound-force per square inch. */
  PSI("psi", Dimension.PRESSURE, "8896443230521/1290320000000"),
  /** Volt. */
  VOLT("V", Dimension.VOLTAGE, "1"),
  /** Ampere. */
  AMPERE("A", Dimension.CURRENT, "1"),
  /** Ohm. */
  OHM("Ω", Dimension.RESISTANCE, "1"),
  /** Revolutions per minute. */
  RPM("rpm", Dimension.SPEED, "1"),
  /** Degree of angle. */
  DEGREE("°", Dimension.ANGLE, "1"),
  /** Second. */
  SECOND("s", Dimension.TIME, "1"),
  /** Minute. */
  MINUTE("min", Dimension.TIME, "60"),
  /** Hour; also what an hour meter shows. */
  HOUR("h", Dimension.TIME, "3600"),
  /** Kilometre. */
  KILOMETRE("km", Dimension.DISTANCE, "1"),
  /** Statute mile. */
  MILE("mi", Dimension.DISTANCE, "25146/15625"),
  /** Percent. */
  PERCENT("%", Dimension.SHARE, "1"),
  /** No unit was said; such an amount is never compared with anything. */
  UNSAID("", Dimension.UNSAID, "1");

  private final String symbol;
  private final Dimension dimension;
  private final Rational factor;
  private final Rational offset;

  Unit(String symbol, Dimension dimension, String factor) {
    this(symbol, dimension, factor, "0");
  }

  Unit(String symbol, Dimension dimension, String factor, String offset) {
    this.symbol = symbol;
    this.dimension = dimension;
    this.factor = Rational.parse(factor);
    this.offset = Rational.parse(offset);
  }

  /** How it is written: SI style, or {@code lbf·ft}, {@code US qt} and the like. */
  public String symbol() {
    return symbol;
  }

  /** What it measures. */
  public Dimension dimension() {
    return dimension;
  }

  /** Exact factor to the dimension's base unit. */
  public Rational factor() {
    return factor;
  }

  /** The exact value in the base unit of {@link #dimension()}. */
  public Rational toBase(Rational value) {
    return value.times(factor).plus(offset);
  }

  /**
   * The exact value in this unit of {@code base}, given in the base unit of {@link #dimension()}.
   */
  public Rational fromBase(Rational base) {
    return base.minus(offset).dividedBy(factor);
  }

  /** The unit written so, if there is one. */
  public static Optional<Unit> ofSymbol(String symbol) {
    for (Unit unit : values()) {
      if (unit != UNSAID && unit.symbol.equals(symbol)) {
        return Optional.of(unit);
      }
    }
    return Optional.empty();
  }
}
