package tallyback.plan;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Unit;

/**
 * One mapping of the file while it is read. It hands out its fields by name, gathering a fault for
 * each that is not as it should be, and {@link #finish} reports the fields nobody asked for: so the
 * fields asked for are the format.
 */
final class Section {

  /** A text and where it stands. */
  record Mention(String text, Spot spot) {}

  /**
   * A caution.
   *
   * @param injury whether people may be injured; null when the plan doesn't say it
   */
  record Caution(String text, @Nullable Boolean injury) {}

  /** Which numbers make sense. */
  enum Sign {
    ABOVE_NOUGHT,
    NOUGHT_OR_MORE,
    ANY
  }

  /** Stands in for an amount that was not right; a plan that holds it is never handed out. */
  static final Amount WRONG = Amount.of("0", Unit.UNSAID);

  private final String path;
  private final Spot spot;
  private final Faults faults;
  private final Map<String, Node> values = new LinkedHashMap<>();
  private final Map<String, Node> keys = new LinkedHashMap<>();
  private final Set<String> asked = new LinkedHashSet<>();

  Section(MappingNode node, String path, Faults faults) {
    this.path = path;
    this.spot = Spot.of(node, path);
    this.faults = faults;
    for (NodeTuple tuple : node.getValue()) {
      add(tuple.getKeyNode(), tuple.getValueNode());
    }
  }

  private void add(Node key, Node value) {
    if (!(key instanceof ScalarNode name)) {
      faults.wrongType(Spot.of(key, path), "a field name", kind(key), "name: coolant pump");
      return;
    }
    Node first = keys.putIfAbsent(name.getValue(), key);
    if (first == null) {
      values.put(name.getValue(), value);
    } else {
      String field = pathOf(name.getValue());
      faults.duplicateField(Spot.of(key, field), Spot.of(first, field).line());
    }
  }

  /** Where the section begins. */
  Spot spot() {
    return spot;
  }

  /** Where the field stands, or the section when it has no such field. */
  Spot spot(String field) {
    Node value = values.get(field);
    return value == null
        ? new Spot(spot.line(), spot.column(), pathOf(field))
        : Spot.of(value, pathOf(field));
  }

  /** The spot at the end of a path of fields and places in lists, as near as the file goes. */
  Spot spotOf(Object... way) {
    Spot nearest = spot;
    StringBuilder field = new StringBuilder(path);
    Node at = null;
    for (Object step : way) {
      if (step instanceof String name) {
        field.append(field.isEmpty() ? "" : ".").append(name);
      }
      at = at == null && step instanceof String name ? values.get(name) : below(at, step);
      nearest = Spot.of(at == null ? nearest : Spot.of(at, ""), field.toString());
      if (at == null) {
        return nearest;
      }
    }
    return nearest;
  }

  private static @Nullable Node below(@Nullable Node node, Object step) {
    if (node instanceof MappingNode mapping) {
      return mapping.getValue().stream()
          .filter(
              each -> each.getKeyNode() instanceof ScalarNode key && key.getValue().equals(step))
          .map(NodeTuple::getValueNode)
          .findFirst()
          .orElse(null);
    }
    if (node instanceof ScalarNode && Integer.valueOf(0).equals(step)) {
      return node; // A single text counts as a list of one.
    }
    return node instanceof SequenceNode list
            && step instanceof Integer index
            && index < list.getValue().size()
        ? list.getValue().get(index)
        : null;
  }

  boolean has(String field) {
    return values.containsKey(field);
  }

  /** The field names in the file, in its order. */
  Set<String> fields() {
    return keys.keySet();
  }

  private String pathOf(String field) {
    return path.isEmpty() ? field : path + "." + field;
  }

  /** Reports what nobody asked for. */
  void finish() {
    for (Map.Entry<String, Node> key : keys.entrySet()) {
      if (!asked.contains(key.getKey())) {
        faults.unknownField(Spot.of(key.getValue(), pathOf(key.getKey())), key.getKey(), asked);
      }
    }
  }

  void missing(String field, String example) {
    faults.missing(spot(field), example);
  }

  /** The value, if the field is there and filled in. */
  private Optional<Node> value(String field) {
    asked.add(field);
    Node value = values.get(field);
    if (value != null && isNothing(value)) {
      faults.emptyField(spot(field));
      return Optional.empty();
    }
    return Optional.ofNullable(value);
  }

  private static boolean isNothing(Node node) {
    return node instanceof ScalarNode scalar
        && (scalar.getTag().equals(Tag.NULL) || scalar.getValue().isBlank());
  }

  /** The text, or null when there is none or it is wrong. */
  @Nullable String text(String field) {
    return value(field)
        .flatMap(
            node -> scalarText(node, pathOf(field), "one line of text", field + ": some words"))
        .orElse(null);
  }

  /** The text; a missing one is a fault and comes back empty. */
  String requiredText(String field, String example) {
    if (!has(field)) {
      missing(field, example);
    }
    return Optional.ofNullable(text(field)).orElse("");
  }

  private Optional<String> scalarText(Node node, String at, String expected, String example) {
    if (!(node instanceof ScalarNode scalar)
        || isNothing(node)
        || scalar.getTag().equals(Tag.BOOL)) {
      faults.wrongType(Spot.of(node, at), expected, kind(node), example);
      return Optional.empty();
    }
    String text = scalar.getValue().strip();
    if (text.chars().anyMatch(Character::isISOControl)) {
      faults.notOneLine(Spot.of(node, at));
      return Optional.empty();
    }
    return Optional.of(text);
  }

  /** The texts of a list; a single text counts as a list of one. */
  List<Mention> texts(String field) {
    String at = pathOf(field);
    Node value = value(field).orElse(null);
    if (value == null) {
      return List.of();
    }
    String example = field + ": [one, another]";
    List<Node> nodes;
    if (value instanceof SequenceNode sequence) {
      nodes = sequence.getValue();
    } else if (value instanceof ScalarNode) {
      nodes = List.of(value);
    } else {
      faults.wrongType(Spot.of(value, at), "a list of texts", kind(value), example);
      return List.of();
    }
    List<Mention> texts = new ArrayList<>();
    for (Node node : nodes) {
      scalarText(node, at, "text in the list", example)
          .ifPresent(text -> texts.add(new Mention(text, Spot.of(node, at))));
    }
    return texts;
  }

  /** Cautions: texts, each alone or with what it is about. */
  List<Caution> cautions(String field) {
    if (!(value(field).orElse(null) instanceof SequenceNode sequence)) {
      return texts(field).stream().map(text -> new Caution(text.text(), null)).toList();
    }
    List<Caution> cautions = new ArrayList<>();
    for (int i = 0; i < sequence.getValue().size(); i++) {
      if (sequence.getValue().get(i) instanceof MappingNode mapping) {
        Section section = new Section(mapping, pathOf(field) + "." + (i + 1), faults);
        String text = section.requiredText("text", "text: Let it cool.");
        boolean injury = section.flag("injury");
        cautions.add(new Caution(text, section.has("injury") ? injury : null));
        section.finish();
      } else {
        scalarText(
                sequence.getValue().get(i),
                pathOf(field),
                "text in the list",
                field + ": [one, another]")
            .ifPresent(text -> cautions.add(new Caution(text, null)));
      }
    }
    return cautions;
  }

  /** True or false; false when the field is not there. */
  boolean flag(String field) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return false;
    }
    if (value instanceof ScalarNode scalar && scalar.getTag().equals(Tag.BOOL)) {
      return scalar.getValue().toLowerCase(Locale.ROOT).equals("true");
    }
    faults.wrongType(spot(field), "true or false", kind(value), field + ": true");
    return false;
  }

  /** A whole number between min and max, or null. */
  @Nullable Integer whole(String field, int min, int max) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return null;
    }
    Optional<BigInteger> number = wholeNumber(value);
    if (number.isEmpty()
        || number.get().compareTo(BigInteger.valueOf(min)) < 0
        || number.get().compareTo(BigInteger.valueOf(max)) > 0) {
      faults.notWhole(spot(field), min, max, kind(value));
      return null;
    }
    return number.get().intValue();
  }

  /** How many; 1 when the field is not there. */
  int count(String field, int max) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return 1;
    }
    Optional<BigInteger> number = wholeNumber(value);
    if (number.isPresent() && number.get().compareTo(BigInteger.valueOf(max)) > 0) {
      faults.countTooLarge(spot(field), max, kind(value));
      return 1;
    }
    return Optional.ofNullable(whole(field, 1, max)).orElse(1);
  }

  private static Optional<BigInteger> wholeNumber(Node node) {
    return node instanceof ScalarNode scalar
            && scalar.getTag().equals(Tag.INT)
            && scalar.getValue().matches("-?[0-9]{1,18}")
        ? Optional.of(new BigInteger(scalar.getValue()))
        : Optional.empty();
  }

  /** One of the words of an enum, written in lower case with hyphens, or null. */
  <E extends Enum<E>> @Nullable E choice(String field, Class<E> type) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return null;
    }
    List<String> known = words(type);
    Mention said =
        scalarText(
                value,
                pathOf(field),
                "one of " + String.join(", ", known),
                field + ": " + known.get(0))
            .map(text -> new Mention(text, spot(field)))
            .orElse(null);
    return said == null ? null : oneOf(said, type);
  }

  /** Several words of an enum. */
  <E extends Enum<E>> List<E> choices(String field, Class<E> type) {
    List<E> chosen = new ArrayList<>();
    for (Mention said : texts(field)) {
      E one = oneOf(said, type);
      if (one != null) {
        chosen.add(one);
      }
    }
    return chosen;
  }

  private <E extends Enum<E>> @Nullable E oneOf(Mention said, Class<E> type) {
    for (E one : EnumSet.allOf(type)) {
      if (word(one).equals(said.text())) {
        return one;
      }
    }
    faults.notOneOf(said.spot(), said.text(), words(type));
    return null;
  }

  /** How an enum constant is written in a plan: {@code BATTERY_OFF} as {@code battery-off}. */
  static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  static <E extends Enum<E>> List<String> words(Class<E> type) {
    return Stream.of(type.getEnumConstants()).map(Section::word).toList();
  }

  /** An amount, or null when there is none or it is wrong. */
  @Nullable Amount amount(String field, Sign sign, Set<Dimension> wanted) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return null;
    }
    String units = AmountText.unitsOf(wanted);
    String text =
        scalarText(value, pathOf(field), "an amount in " + units, field + ": a number and its unit")
            .orElse(null);
    return text == null ? null : checkedAmount(text, spot(field), sign, wanted);
  }

  /** The amount; a missing or wrong one is a fault and comes back as {@link #WRONG}. */
  Amount requiredAmount(String field, String example, Sign sign, Set<Dimension> wanted) {
    if (!has(field)) {
      missing(field, example);
    }
    Amount amount = amount(field, sign, wanted);
    return amount == null ? WRONG : amount;
  }

  /** Reads an amount out of {@code text} that stands at {@code at}. */
  @Nullable Amount checkedAmount(String text, Spot at, Sign sign, Set<Dimension> wanted) {
    Amount amount = AmountText.read(text, at, faults, wanted);
    if (amount == null) {
      return null;
    }
    if (sign == Sign.ABOVE_NOUGHT && amount.value().signum() <= 0) {
      faults.notPositive(at, text);
      return null;
    }
    if (sign == Sign.NOUGHT_OR_MORE && amount.value().signum() < 0) {
      faults.negative(at, text);
      return null;
    }
    return amount;
  }

  /** True when the field holds a list with nothing in it. */
  boolean isEmptyList(String field) {
    return values.get(field) instanceof SequenceNode sequence && sequence.getValue().isEmpty();
  }

  /** True when the field holds a mapping, so that it can be read by {@link #section}. */
  boolean isSection(String field) {
    return values.get(field) instanceof MappingNode;
  }

  /** The mapping under a field, or null. */
  @Nullable Section section(String field, String example) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return null;
    }
    if (value instanceof MappingNode mapping) {
      return new Section(mapping, pathOf(field), faults);
    }
    faults.wrongType(spot(field), "fields of its own", kind(value), example);
    return null;
  }

  /** The mappings of a list; each is called by its id or its place in the list. */
  List<Section> sections(String field) {
    Node value = value(field).orElse(null);
    if (value == null) {
      return List.of();
    }
    if (!(value instanceof SequenceNode sequence)) {
      faults.wrongType(spot(field), "a list", kind(value), "lines that begin with \"- \"");
      return List.of();
    }
    List<Section> sections = new ArrayList<>();
    for (int i = 0; i < sequence.getValue().size(); i++) {
      Node node = sequence.getValue().get(i);
      if (node instanceof MappingNode mapping) {
        sections.add(new Section(mapping, pathOf(field) + "." + nameOf(mapping, i), faults));
      } else {
        faults.wrongType(
            Spot.of(node, pathOf(field)),
            "fields in each entry of the list",
            kind(node),
            "- say: [a name]");
      }
    }
    return sections;
  }

  private static String nameOf(MappingNode mapping, int index) {
    for (NodeTuple tuple : mapping.getValue()) {
      if (tuple.getKeyNode() instanceof ScalarNode key
          && key.getValue().equals("id")
          && tuple.getValueNode() instanceof ScalarNode id
          && Naming.ID.matcher(id.getValue()).matches()) {
        return id.getValue();
      }
    }
    return String.valueOf(index + 1);
  }

  /** What a node is, in words. */
  private static String kind(Node node) {
    if (node instanceof MappingNode) {
      return "fields of its own";
    }
    if (node instanceof SequenceNode) {
      return "a list";
    }
    String text = node instanceof ScalarNode scalar ? scalar.getValue() : "";
    return text.isBlank() ? "nothing" : Faults.quote(text);
  }
}
