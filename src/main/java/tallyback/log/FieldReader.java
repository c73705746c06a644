package tallyback.log;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Takes the fields of one JSON object, strictly: each taker returns null and leaves a fault behind
 * when the field is missing or not as expected, so that all faults of an object come to light at
 * once. For one thread.
 */
final class FieldReader {

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withResolverStyle(ResolverStyle.STRICT)
          .withZone(ZoneOffset.UTC);

  private static final Pattern HASH = Pattern.compile("[0-9a-f]{64}");

  /** Longer values are cut in messages. */
  private static final int SHOWN_CHARACTERS = 40;

  private final ObjectNode object;
  private final String path;
  private final List<String> faults;
  private final Set<String> taken = new HashSet<>();

  FieldReader(ObjectNode object, String path, List<String> faults) {
    this.object = object;
    this.path = path;
    this.faults = faults;
  }

  static String timeText(Instant time) {
    return TIME.format(time);
  }

  /** The JSON word of an enum value: lower case, with hyphens, whatever the locale. */
  static String wordOf(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  static String shown(JsonNode node) {
    String text = node.toString();
    return text.length() <= SHOWN_CHARACTERS ? text : text.substring(0, SHOWN_CHARACTERS) + "...";
  }

  boolean has(String field) {
    return object.has(field);
  }

  int faultCount() {
    return faults.size();
  }

  void fault(String field, String expected, String found) {
    faults.add(path + field + ": expected " + expected + ", found " + found);
  }

  /** A reader for the object in a field, or null when there is none. */
  @Nullable FieldReader object(String field) {
    JsonNode node = take(field, "an object", JsonNode::isObject);
    return node instanceof ObjectNode inner
        ? new FieldReader(inner, path + field + ".", faults)
        : null;
  }

  /** A reader for each object of a list; none when it isn't one. */
  List<FieldReader> objects(String field, int most) {
    JsonNode node =
        take(
            field,
            "a list of at most " + most + " objects",
            each ->
                each.isArray()
                    && each.size() <= most
                    && each.valueStream().allMatch(JsonNode::isObject));
    List<FieldReader> readers = new ArrayList<>();
    if (node != null) {
      for (JsonNode each : node) {
        String within = path + field + "[" + readers.size() + "].";
        readers.add(new FieldReader((ObjectNode) each, within, faults));
      }
    }
    return readers;
  }

  /** One line of text. */
  @Nullable String textUpTo(String field, int most) {
    JsonNode node =
        take(
            field,
            "one line of at most " + most + " characters",
            each ->
                each.isTextual()
                    && each.textValue().codePoints().count() <= most
                    && each.textValue().codePoints().noneMatch(Character::isISOControl));
    return node == null ? null : node.textValue();
  }

  @Nullable String text(String field) {
    JsonNode node = take(field, "text", JsonNode::isTextual);
    return node == null ? null : node.textValue();
  }

  @Nullable String textLike(String field, Pattern pattern, String expected) {
    JsonNode node =
        take(
            field,
            expected,
            each -> each.isTextual() && pattern.matcher(each.textValue()).matches());
    return node == null ? null : node.textValue();
  }

  @Nullable String hash(String field) {
    return textLike(field, HASH, "64 hex digits");
  }

  @Nullable Boolean yesOrNo(String field) {
    JsonNode node = take(field, "true or false", JsonNode::isBoolean);
    return node == null ? null : node.booleanValue();
  }

  @Nullable Long wholeNumber(String field, long least, long most) {
    String expected =
        "a whole number from " + least + (most == Long.MAX_VALUE ? "" : " to " + most);
    JsonNode node =
        take(
            field,
            expected,
            each ->
                each.isIntegralNumber()
                    && each.canConvertToLong()
                    && each.longValue() >= least
                    && each.longValue() <= most);
    return node == null ? null : node.longValue();
  }

  @Nullable Instant time(String field) {
    String text = text(field);
    if (text == null) {
      return null;
    }
    try {
      return TIME.parse(text, Instant::from);
    } catch (DateTimeException e) {
      fault(field, "a UTC time like 2026-03-02T08:15:00.000Z", "\"" + text + "\"");
      return null;
    }
  }

  @Nullable LocalDate day(String field) {
    String text = text(field);
    if (text == null) {
      return null;
    }
    try {
      return LocalDate.parse(text);
    } catch (DateTimeException e) {
      fault(field, "a day like 2026-03-02", "\"" + text + "\"");
      return null;
    }
  }

  @Nullable ZoneId zone(String field) {
    String text = text(field);
    if (text == null) {
      return null;
    }
    try {
      return ZoneId.of(text);
    } catch (DateTimeException e) {
      fault(field, "the name of a time zone", "\"" + text + "\"");
      return null;
    }
  }

  <E extends Enum<E>> @Nullable E word(String field, Class<E> type) {
    String text = text(field);
    if (text == null) {
      return null;
    }
    for (E value : type.getEnumConstants()) {
      if (wordOf(value).equals(text)) {
        return value;
      }
    }
    String words =
        Arrays.stream(type.getEnumConstants())
            .map(FieldReader::wordOf)
            .collect(Collectors.joining(", "));
    fault(field, "one of " + words, "\"" + text + "\"");
    return null;
  }

  /** Leaves a fault for each field that nobody took. */
  void refuseTheRest() {
    object
        .fieldNames()
        .forEachRemaining(
            name -> {
              if (taken.add(name)) {
                fault(name, "no such field", shown(object.path(name)));
              }
            });
  }

  /** Takes all fields, known or not: for an object whose kind is unknown. */
  void ignoreTheRest() {
    object.fieldNames().forEachRemaining(taken::add);
  }

  private @Nullable JsonNode take(String field, String expected, Predicate<JsonNode> right) {
    taken.add(field);
    JsonNode node = object.get(field);
    if (node == null) {
      fault(field, expected, "nothing");
      return null;
    }
    if (!right.test(node)) {
      fault(field, expected, shown(node));
      return null;
    }
    return node;
  }
}
