package tallyback.phrase;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Unit;

/**
 * The pieces of one phrase, sorted: tags by their key, and the values that were said. A tag {@code
 * {for:angle}} says what the value after it is about; without one it is the value of the phrase
 * itself.
 *
 * <p>Thread rule: confined to one reading.
 */
final class Said {

  /** The value the phrase itself is about. */
  static final String MAIN = "";

  private static final Map<String, List<Unit>> USUAL_UNITS =
      Map.of(
          "VOLUME",
              List.of(
                  Unit.LITRE,
                  Unit.MILLILITRE,
                  Unit.US_QUART,
                  Unit.IMPERIAL_PINT,
                  Unit.US_FLUID_OUNCE),
          "TORQUE", List.of(Unit.NEWTON_METRE, Unit.POUND_FOOT, Unit.POUND_INCH),
          "TEMPERATURE", List.of(Unit.CELSIUS, Unit.FAHRENHEIT),
          "PRESSURE", List.of(Unit.BAR, Unit.PSI, Unit.KILOPASCAL),
          "LENGTH", List.of(Unit.MILLIMETRE, Unit.THOU, Unit.INCH),
          "DISTANCE", List.of(Unit.KILOMETRE, Unit.MILE),
          "ANY", List.of());

  /** What was said of one value. */
  private static final class Value {
    private @Nullable BigDecimal number;
    private @Nullable Amount size;
    private BigDecimal plus = BigDecimal.ZERO;
    private Unit unit = Unit.UNSAID;
    private List<Unit> choices = List.of();

    private @Nullable Amount amount() {
      if (size != null) {
        return size;
      }
      return number == null ? null : new Amount(number.add(plus), unit);
    }
  }

  private final Map<String, List<String>> tags = new LinkedHashMap<>();
  private final Map<String, Value> values = new LinkedHashMap<>();
  private String about = MAIN;

  Said(List<Piece> pieces) {
    String span = "";
    List<String> words = new ArrayList<>();
    for (Piece piece : pieces) {
      if (piece instanceof Piece.Word word) {
        words.add(word.text());
      } else if (piece instanceof Piece.Tag tag && tag.opensSpan()) {
        span = tag.text().substring(0, tag.text().length() - 1);
        words.clear();
      } else if (piece instanceof Piece.Tag tag && tag.closesSpan()) {
        endSpan(span, words);
      } else if (piece instanceof Piece.Tag tag) {
        tag(tag.text());
      }
    }
  }

  private void endSpan(String span, List<String> words) {
    switch (span) {
      case "value" -> value().number = NumberWords.value(words);
      case "count" -> put("count", NumberWords.value(words).toPlainString());
      default -> put(span, String.join(" ", words));
    }
  }

  private void tag(String text) {
    int colon = text.indexOf(':');
    String key = text.substring(0, colon);
    String content = text.substring(colon + 1);
    switch (key) {
      case "for" -> about = content;
      case "value" -> value().number = new BigDecimal(content);
      case "plus" -> value().plus = new BigDecimal(content);
      case "unit" -> value().unit = Unit.valueOf(content);
      case "units" ->
          value().choices = Arrays.stream(content.split(",", -1)).map(Unit::valueOf).toList();
      case "bare" -> value().choices = USUAL_UNITS.getOrDefault(content, List.of());
      case "size" -> value("size").size = size(content);
      default -> put(key, content);
    }
  }

  private void put(String key, String content) {
    tags.computeIfAbsent(key, unused -> new ArrayList<>()).add(content);
  }

  private Value value() {
    return value(about);
  }

  private Value value(String name) {
    return values.computeIfAbsent(name, unused -> new Value());
  }

  /** {@code "9/16 in"} exactly: every fraction of an inch in use ends within four decimals. */
  private static Amount size(String text) {
    String[] parts = text.split("[ /]", -1);
    Unit unit =
        switch (parts[parts.length - 1]) {
          case "mm" -> Unit.MILLIMETRE;
          case "in" -> Unit.INCH;
          default -> Unit.DEGREE;
        };
    BigDecimal number = new BigDecimal(parts[0]);
    return new Amount(parts.length == 3 ? number.divide(new BigDecimal(parts[1])) : number, unit);
  }

  /** The first content of a tag, or null. */
  @Nullable String get(String key) {
    List<String> all = tags.get(key);
    return all == null ? null : all.get(0);
  }

  /** The content of a tag that the grammar puts in every phrase that comes here. */
  String need(String key) {
    String content = get(key);
    if (content == null) {
      throw new IllegalStateException(
          "the grammar let a phrase through without its tag " + key + ": " + tags);
    }
    return content;
  }

  /** All contents of a tag, in the order said. */
  List<String> all(String key) {
    return tags.getOrDefault(key, List.of());
  }

  boolean has(String key) {
    return tags.containsKey(key);
  }

  @Nullable Integer count() {
    return has("count") ? Integer.valueOf(need("count")) : null;
  }

  <E extends Enum<E>> E constant(String key, Class<E> type) {
    return Enum.valueOf(type, need(key));
  }

  <E extends Enum<E>> @Nullable E constantOrNull(String key, Class<E> type) {
    String content = get(key);
    return content == null ? null : Enum.valueOf(type, content);
  }

  /** The value that was said about something, or null. */
  @Nullable Amount amount(String about) {
    Value value = values.get(about);
    return value == null ? null : value.amount();
  }

  /** A bare unit, said without a number, or null. */
  @Nullable Unit bareUnit() {
    Value value = values.get(MAIN);
    return value == null || value.unit == Unit.UNSAID ? null : value.unit;
  }

  /** The units that may be meant by a value, when its unit was left open. */
  List<Unit> choices(String about) {
    Value value = values.get(about);
    return value == null || value.unit != Unit.UNSAID ? List.of() : value.choices;
  }
}
