package tallyback.reconcile;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Unit;

/**
 * A job in a compact test text, one entry a line:
 *
 * <pre>
 * 09:05 items-moved move=off item=pump-bolts count=6
 * 09:20 tightened state=torqued item=pump-bolts torque="24 N·m" ? "torqued the pump bolts"
 * 09:30 corrected target=e2 now: tightened state=torqued item=pump-bolts torque="26 N·m"
 * 09:40&lt;10:00 step-marked step=drain mark=done
 * </pre>
 *
 * Ids are e1, e2 and so on. A question mark makes an entry unconfirmed, text in quotes at the end
 * is its words, and a second time is when it was noted. Lines that begin with # are left out.
 */
final class JobText {

  private static final Pattern LINE =
      Pattern.compile("(\\d\\d:\\d\\d)(?:<(\\d\\d:\\d\\d))? +([^\"?]\\S*)(.*)");
  private static final Pattern VALUE = Pattern.compile("([a-zA-Z]+)=(\"[^\"]*\"|\\S+)");
  private static final Pattern WORDS = Pattern.compile(" \"([^\"]*)\"$");

  private JobText() {}

  static List<Entry> read(String text) {
    List<Entry> entries = new ArrayList<>();
    for (String line : text.lines().toList()) {
      if (!line.isBlank() && !line.startsWith("#")) {
        entries.add(entry(line.strip(), entries.size() + 1));
      }
    }
    return entries;
  }

  private static Entry entry(String line, int seq) {
    Matcher matcher = LINE.matcher(line);
    if (!matcher.matches()) {
      throw new IllegalArgumentException("not an entry: " + line);
    }
    String rest = matcher.group(4);
    String words = matcher.group(3).replace('-', ' ');
    Matcher said = WORDS.matcher(rest);
    if (said.find()) {
      words = said.group(1);
      rest = rest.substring(0, said.start());
    }
    boolean unconfirmed = rest.endsWith(" ?");
    String noted = matcher.group(2) == null ? matcher.group(1) : matcher.group(2);
    return new Entry(
        "e" + seq,
        "job",
        seq,
        at(matcher.group(1)),
        at(noted),
        ZoneOffset.UTC,
        "anna",
        "bench",
        Source.TYPED,
        unconfirmed ? Certainty.UNCONFIRMED : Certainty.CONFIRMED,
        words,
        null,
        statement(matcher.group(3), rest));
  }

  private static Instant at(String time) {
    return Instant.parse("2026-03-02T" + time + ":00Z");
  }

  private static Statement statement(String kind, String rest) {
    int now = rest.indexOf(" now: ");
    Statement nested = null;
    String own = rest;
    if (now >= 0) {
      String[] parts = rest.substring(now + 6).strip().split(" ", 2);
      nested = statement(parts[0], parts.length > 1 ? " " + parts[1] : "");
      own = rest.substring(0, now);
    }
    Map<String, String> values = new LinkedHashMap<>();
    Matcher value = VALUE.matcher(own);
    while (value.find()) {
      values.put(value.group(1), value.group(2).replace("\"", ""));
    }
    return build(recordNamed(kind), values, nested);
  }

  private static Class<?> recordNamed(String kind) {
    for (Class<?> each : Statement.class.getPermittedSubclasses()) {
      if (each.getSimpleName().equalsIgnoreCase(kind.replace("-", ""))) {
        return each;
      }
    }
    throw new IllegalArgumentException("no such statement: " + kind);
  }

  private static Statement build(
      Class<?> type, Map<String, String> values, @Nullable Statement nested) {
    RecordComponent[] components = type.getRecordComponents();
    Class<?>[] types = new Class<?>[components.length];
    @Nullable Object[] arguments = new @Nullable Object[components.length];
    for (int index = 0; index < components.length; index++) {
      types[index] = components[index].getType();
      String text = values.remove(components[index].getName());
      arguments[index] = types[index] == Statement.class ? nested : value(types[index], text);
    }
    if (!values.isEmpty()) {
      throw new IllegalArgumentException(type.getSimpleName() + " has no " + values.keySet());
    }
    try {
      return (Statement) type.getDeclaredConstructor(types).newInstance(arguments);
    } catch (ReflectiveOperationException e) {
      throw new IllegalArgumentException(type + " " + values, e);
    }
  }

  private static @Nullable Object value(Class<?> type, @Nullable String text) {
    if (type == boolean.class) {
      return text != null && text.equals("true");
    }
    if (text == null) {
      return null;
    }
    if (type == Integer.class) {
      return Integer.valueOf(text);
    }
    if (type == Amount.class) {
      return amount(text);
    }
    if (type == Instant.class) {
      return at(text);
    }
    if (type.isEnum()) {
      return constant(type, text);
    }
    return text;
  }

  private static Object constant(Class<?> type, String text) {
    for (Object constant : type.getEnumConstants()) {
      if (constant.toString().equals(text.toUpperCase(Locale.ROOT).replace('-', '_'))) {
        return constant;
      }
    }
    throw new IllegalArgumentException(type.getSimpleName() + " has no " + text);
  }

  /** For example "24 N·m" or "30°"; a bare number has no unit. */
  static Amount amount(String text) {
    if (text.endsWith("°")) {
      return new Amount(new BigDecimal(text.substring(0, text.length() - 1)), Unit.DEGREE);
    }
    String[] parts = text.split(" ", 2);
    Unit unit = parts.length == 1 ? Unit.UNSAID : Unit.ofSymbol(parts[1]).orElseThrow();
    return new Amount(new BigDecimal(parts[0]), unit);
  }
}
