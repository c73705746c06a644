package tallyback.report.owner;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Unit;
import tallyback.report.owner.Form.Units;

/**
 * Amounts in the units that the owner knows. What was said in another unit is converted exactly,
 * rounded no coarser than it was said, and stays in brackets behind. Amounts that are compared are
 * rounded alike, and finely enough that two that differ never look the same.
 *
 * <p>Thread rule: immutable.
 */
final class PlainAmounts {

  /** What differs by less than this many decimals of a converted unit is the same to anybody. */
  private static final int MOST_DECIMALS = 6;

  private static final BigDecimal SMALL_TORQUE_NM = new BigDecimal("15");
  private static final Rational SMALL_VOLUME_LITRES = Rational.parse("1/4");
  private static final Rational SPOONFUL_LITRES = Rational.parse("1/10");

  /** Signs that are words too: "2 in" may be two that are in. Inches need a decimal point. */
  private static final Set<String> UNSAFE = Set.of("", Unit.DEGREE.symbol(), Unit.INCH.symbol());

  private static final Pattern AMOUNT =
      Pattern.compile(
          "(?<![\\w.])((?:[-\u2212])?\\d+(?:\\.\\d+)?) ("
              + Stream.of(Unit.values())
                  .map(Unit::symbol)
                  .filter(symbol -> !UNSAFE.contains(symbol))
                  .sorted(Comparator.comparingInt(String::length).reversed())
                  .map(Pattern::quote)
                  .collect(Collectors.joining("|"))
              + "|(?<=\\.\\d{1,4} )in(?= to |[,;.)]|$))(?![\\p{L}\\d\u00b7])");

  private static final Pattern PLUS_MINUS = Pattern.compile(" ?\u00b1 ?(?=\\d)");
  private static final Pattern IS_A_SPAN_BEFORE = Pattern.compile("(?:\u00b1 ?|give or take )$");
  private static final Pattern IS_A_SPAN_AFTER =
      Pattern.compile("^ (?:above|below|outside|less|more|off|beyond|further)\\b");
  private static final String SAID_BESIDE = ", which is ";
  private static final String HEADS = "heads ";

  private final Units units;

  PlainAmounts(Units units) {
    this.units = units;
  }

  /** One amount. */
  String of(Amount amount) {
    return shown(amount, List.of(amount), List.of(), "", "");
  }

  /** "16 to 20 N·m", both in one unit. */
  String range(Amount from, Amount to) {
    return range(from, to, List.of());
  }

  /** The same, rounded alike with what it is compared with. */
  String range(Amount from, Amount to, List<Amount> beside) {
    List<Amount> all = new ArrayList<>(beside);
    all.add(from);
    all.add(to);
    Unit unit = target(from.unit(), all);
    if (unit == from.unit() && unit == to.unit()) {
      return minus(plain(from.value())) + " to " + written(to.value(), unit);
    }
    int decimals = decimals(all, unit);
    return minus(plain(from.shownIn(unit, decimals).value()))
        + " to "
        + written(to.shownIn(unit, decimals).value(), unit)
        + " ("
        + minus(from.unit() == to.unit() ? plain(from.value()) : from.toString())
        + " to "
        + minus(to.toString())
        + ")";
  }

  private static String minus(String number) {
    return number.startsWith("-") ? "\u2212" + number.substring(1) : number;
  }

  private static String plain(BigDecimal value) {
    return value.toPlainString();
  }

  /** A text with every amount in it so. */
  String inText(String text) {
    return inText(text, List.of());
  }

  /**
   * The same, rounded alike with what it is compared with.
   *
   * @param text the text
   * @param beside texts that stand beside it to be compared
   */
  String inText(String text, List<String> beside) {
    List<Amount> compared = new ArrayList<>();
    beside.forEach(each -> compared.addAll(amounts(each)));
    List<Amount> inUnits = new ArrayList<>(amounts(text));
    inUnits.addAll(compared);
    Matcher matcher = AMOUNT.matcher(text);
    StringBuilder shown = new StringBuilder();
    int from = 0;
    while (matcher.find()) {
      shown.append(text, from, matcher.start());
      String before = text.substring(0, matcher.start());
      String after = text.substring(matcher.end());
      shown.append(shown(amount(matcher), inUnits, compared, before, after));
      from = matcher.end();
    }
    return PLUS_MINUS
        .matcher(shown.append(text.substring(from)).toString())
        .replaceAll(", give or take ");
  }

  private static List<Amount> amounts(String text) {
    return AMOUNT.matcher(text).results().map(PlainAmounts::amount).toList();
  }

  private String shown(
      Amount amount, List<Amount> inUnits, List<Amount> compared, String before, String after) {
    Unit unit = target(amount.unit(), alike(amount, inUnits));
    boolean saidAnyway =
        after.startsWith(SAID_BESIDE) || before.endsWith(SAID_BESIDE) || before.endsWith(HEADS);
    if (unit == amount.unit() || saidAnyway) {
      return written(amount.value(), amount.unit());
    }
    if (isSpan(before, after) && unit.dimension() == Dimension.TEMPERATURE) {
      return span(amount, unit);
    }
    List<Amount> rounded = new ArrayList<>(alike(amount, compared));
    rounded.add(amount);
    return written(amount.shownIn(unit, decimals(rounded, unit)).value(), unit)
        + " ("
        + minus(amount.toString())
        + ")";
  }

  private static List<Amount> alike(Amount amount, List<Amount> amounts) {
    return amounts.stream()
        .filter(each -> each.unit().dimension() == amount.unit().dimension())
        .toList();
  }

  private static boolean isSpan(String before, String after) {
    return IS_A_SPAN_BEFORE.matcher(before).find() || IS_A_SPAN_AFTER.matcher(after).find();
  }

  /** A difference of temperatures has no nought that is moved. */
  private static String span(Amount amount, Unit unit) {
    Rational there =
        Rational.of(amount.value()).times(amount.unit().factor()).dividedBy(unit.factor());
    BigDecimal value = there.toBigDecimal().setScale(1, RoundingMode.HALF_UP);
    return written(value, unit) + " (" + amount + ")";
  }

  private static Amount amount(MatchResult match) {
    return Amount.of(
        match.group(1).replace('\u2212', '-'),
        Unit.ofSymbol(match.group(2)).orElseThrow(() -> new IllegalStateException(match.group())));
  }

  /** As people write it; a true minus sign, since a hyphen is overlooked. */
  private static String written(BigDecimal value, Unit unit) {
    boolean one = value.compareTo(BigDecimal.ONE) == 0;
    return minus(plain(value))
        + " "
        + switch (unit) {
          case LITRE -> one ? "litre" : "litres";
          case US_QUART -> one ? "US quart" : "US quarts";
          case US_FLUID_OUNCE -> "US fl oz";
          case HOUR -> one ? "hour" : "hours";
          case MILE -> one ? "mile" : "miles";
          case INCH -> one ? "inch" : "inches";
          default -> unit.symbol();
        };
  }

  /**
   * So many decimals that nothing is coarser than it was said and nothing different looks alike.
   */
  private static int decimals(List<Amount> amounts, Unit unit) {
    int decimals = 0;
    for (Amount amount : amounts) {
      decimals = Math.max(decimals, decimals(amount, unit));
    }
    while (decimals < MOST_DECIMALS && looksAlike(amounts, unit, decimals)) {
      decimals++;
    }
    return decimals;
  }

  private static int decimals(Amount amount, Unit unit) {
    if (unit == amount.unit()) {
      return Math.max(0, amount.value().scale());
    }
    Rational step =
        Rational.of(BigDecimal.ONE.movePointLeft(Math.max(0, amount.value().scale())))
            .times(amount.unit().factor())
            .dividedBy(unit.factor());
    int decimals = 0;
    while (decimals < MOST_DECIMALS
        && Rational.of(BigDecimal.ONE.movePointLeft(decimals)).compareTo(step) > 0) {
      decimals++;
    }
    return decimals;
  }

  private static boolean looksAlike(List<Amount> amounts, Unit unit, int decimals) {
    long exact = amounts.stream().map(Amount::base).distinct().count();
    long shown =
        amounts.stream().map(each -> each.shownIn(unit, decimals).value()).distinct().count();
    return shown < exact;
  }

  /** The unit that the owner knows; of amounts that are compared the largest decides. */
  private Unit target(Unit said, List<Amount> amounts) {
    return switch (units) {
      case METRIC -> metric(said, amounts);
      case US -> us(said, amounts);
    };
  }

  private static Unit metric(Unit said, List<Amount> amounts) {
    return switch (said) {
      case US_FLUID_OUNCE,
          US_PINT,
          US_QUART,
          US_GALLON,
          IMPERIAL_FLUID_OUNCE,
          IMPERIAL_PINT,
          IMPERIAL_QUART,
          IMPERIAL_GALLON ->
          most(amounts).compareTo(SPOONFUL_LITRES) < 0 ? Unit.MILLILITRE : Unit.LITRE;
      case POUND_FOOT, POUND_INCH, KILOGRAM_METRE, KILOGRAM_CENTIMETRE -> Unit.NEWTON_METRE;
      case INCH, THOU -> Unit.MILLIMETRE;
      case OUNCE -> Unit.GRAM;
      case POUND -> Unit.KILOGRAM;
      case FAHRENHEIT -> Unit.CELSIUS;
      case PSI -> Unit.KILOPASCAL;
      case MILE -> Unit.KILOMETRE;
      default -> said;
    };
  }

  private static Unit us(Unit said, List<Amount> amounts) {
    return switch (said) {
      case LITRE,
          MILLILITRE,
          IMPERIAL_FLUID_OUNCE,
          IMPERIAL_PINT,
          IMPERIAL_QUART,
          IMPERIAL_GALLON ->
          most(amounts).compareTo(SMALL_VOLUME_LITRES) < 0 ? Unit.US_FLUID_OUNCE : Unit.US_QUART;
      case NEWTON_METRE, KILOGRAM_METRE, KILOGRAM_CENTIMETRE ->
          most(amounts).compareTo(Rational.of(SMALL_TORQUE_NM)) < 0
              ? Unit.POUND_INCH
              : Unit.POUND_FOOT;
      case MILLIMETRE -> Unit.INCH;
      case GRAM -> Unit.OUNCE;
      case KILOGRAM -> Unit.POUND;
      case CELSIUS -> Unit.FAHRENHEIT;
      case KILOPASCAL, BAR -> Unit.PSI;
      case KILOMETRE -> Unit.MILE;
      default -> said;
    };
  }

  private static Rational most(List<Amount> amounts) {
    return amounts.stream().map(Amount::base).max(Comparator.naturalOrder()).orElseThrow();
  }
}
