package tallyback.log;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Unit;

/**
 * Entries as JSON, in the shape published as {@code tallyback/schema/entry.schema.json} (JSON
 * Schema draft 2020-12).
 *
 * <p>Fields always come in the same order, without blanks, and null fields are left out, so that
 * equal entries give equal text. Reading is strict: unknown fields, missing fields, other types and
 * duplicate keys are refused, all of them in one message, and a newer schema number is refused as
 * such. Independent of locale and time zone. Stateless; safe for any thread.
 */
public final class EntryJson {

  /** The schema number written. Raised when a reader of the old shape would misread the new one. */
  public static final int SCHEMA = 1;

  /** The most digits an amount may have before and after its point. */
  static final Pattern AMOUNT_VALUE = Pattern.compile("-?(0|[1-9][0-9]{0,14})(\\.[0-9]{1,9})?");

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .build();

  private EntryJson() {}

  /**
   * The JSON name of a statement's kind, such as {@code fluid}; refuses one that can't be noted.
   */
  public static String kind(Statement statement) {
    return StatementKind.nameOf(statement);
  }

  /**
   * The entry as a tree, to be put into other JSON.
   *
   * @throws LogRefused if the statement can't be noted, or an amount has too many digits
   */
  public static ObjectNode tree(Entry entry) {
    ObjectNode node = MAPPER.createObjectNode();
    node.put("schema", SCHEMA);
    node.put("id", entry.id());
    node.put("job", entry.job());
    node.put("seq", entry.seq());
    node.put("happenedAt", FieldReader.timeText(entry.happenedAt()));
    node.put("recordedAt", FieldReader.timeText(entry.recordedAt()));
    node.put("zone", entry.zone().getId());
    node.put("actor", entry.actor());
    node.put("device", entry.device());
    node.put("source", FieldReader.wordOf(entry.source()));
    node.put("certainty", FieldReader.wordOf(entry.certainty()));
    node.put("words", entry.words());
    StatementFields.write(entry.statement(), node);
    if (entry.clip() != null) {
      node.put("clip", entry.clip());
    }
    if (entry.heard() != null) {
      node.set("heard", tree(entry.heard()));
    }
    return node;
  }

  private static ObjectNode tree(HowHeard heard) {
    ObjectNode node = MAPPER.createObjectNode();
    ArrayNode readings = node.putArray("readings");
    heard.readings().forEach(words -> readings.addObject().put("words", words));
    ArrayNode asked = node.putArray("asked");
    for (HowHeard.Asked each : heard.asked()) {
      ObjectNode one = asked.addObject().put("question", each.question());
      if (each.answer() != null) {
        one.put("answer", each.answer());
      }
    }
    return node;
  }

  /** The entry as one line of JSON; see {@link #tree}. */
  public static String text(Entry entry) {
    return textOf(tree(entry));
  }

  /**
   * An amount as a tree: {@code {"value":"2.10","unit":"L"}}, the unit empty when none was said.
   */
  public static ObjectNode tree(Amount amount) {
    String value = amount.value().toPlainString();
    if (!AMOUNT_VALUE.matcher(value).matches()) {
      throw new LogRefused(
          "amount: expected at most 15 digits before and 9 after the point, found "
              + amount.value()
              + "; say it with fewer digits");
    }
    return MAPPER.createObjectNode().put("value", value).put("unit", amount.unit().symbol());
  }

  /**
   * Reads one entry.
   *
   * @throws LogRefused naming every field at fault, with what was expected and found; or the newer
   *     schema number
   */
  public static Entry read(String json) {
    JsonNode node;
    try {
      node = MAPPER.readTree(json);
    } catch (JsonProcessingException e) {
      throw new LogRefused(
          "entry: expected JSON, found a fault at line "
              + e.getLocation().getLineNr()
              + " column "
              + e.getLocation().getColumnNr()
              + ": "
              + e.getOriginalMessage(),
          e);
    }
    if (!(node instanceof ObjectNode object)) {
      throw new LogRefused("entry: expected a JSON object, found " + FieldReader.shown(node));
    }
    refuseNewer(object);
    return entry(object);
  }

  private static void refuseNewer(ObjectNode object) {
    JsonNode schema = object.path("schema");
    if (schema.isIntegralNumber()
        && schema.bigIntegerValue().compareTo(BigInteger.valueOf(SCHEMA)) > 0) {
      throw new LogRefused(
          "entry: written by a newer version of Tallyback (schema "
              + schema
              + ", this version reads up to "
              + SCHEMA
              + "); use the newer version");
    }
  }

  private static Entry entry(ObjectNode object) {
    List<String> faults = new ArrayList<>();
    FieldReader fields = new FieldReader(object, "", faults);
    Long schema = fields.wholeNumber("schema", 1, SCHEMA);
    String id = fields.text("id");
    String job = fields.text("job");
    Long seq = fields.wholeNumber("seq", 1, Long.MAX_VALUE);
    Instant happenedAt = fields.time("happenedAt");
    Instant recordedAt = fields.time("recordedAt");
    ZoneId zone = fields.zone("zone");
    String actor = fields.text("actor");
    String device = fields.text("device");
    Source source = fields.word("source", Source.class);
    Certainty certainty = fields.word("certainty", Certainty.class);
    String words = fields.text("words");
    String clip = fields.has("clip") ? fields.hash("clip") : null;
    Statement statement = StatementFields.read(fields);
    HowHeard heard = fields.has("heard") ? heard(fields.object("heard")) : null;
    fields.refuseTheRest();
    if (!faults.isEmpty() || schema == null) {
      throw new LogRefused("entry: " + String.join("; ", faults));
    }
    return new Entry(
        sure(id),
        sure(job),
        sure(seq),
        sure(happenedAt),
        sure(recordedAt),
        sure(zone),
        sure(actor),
        sure(device),
        sure(source),
        sure(certainty),
        sure(words),
        clip,
        sure(statement),
        heard);
  }

  private static @Nullable HowHeard heard(@Nullable FieldReader fields) {
    if (fields == null) {
      return null;
    }
    int before = fields.faultCount();
    List<@Nullable String> readings = new ArrayList<>();
    for (FieldReader each : fields.objects("readings", HowHeard.MOST)) {
      readings.add(each.textUpTo("words", HowHeard.LONGEST));
      each.refuseTheRest();
    }
    List<HowHeard.@Nullable Asked> asked = new ArrayList<>();
    for (FieldReader each : fields.objects("asked", HowHeard.MOST)) {
      String question = each.textUpTo("question", HowHeard.LONGEST);
      String answer = each.has("answer") ? each.textUpTo("answer", HowHeard.LONGEST) : null;
      asked.add(question == null ? null : new HowHeard.Asked(question, answer));
      each.refuseTheRest();
    }
    fields.refuseTheRest();
    return fields.faultCount() > before
        ? null
        : new HowHeard(
            readings.stream().map(EntryJson::sure).toList(),
            asked.stream().map(EntryJson::sure).toList());
  }

  /** What is null here left a fault behind, and the faults were thrown before. */
  private static <T> T sure(@Nullable T value) {
    return Objects.requireNonNull(value);
  }

  private static String textOf(ObjectNode node) {
    try {
      return MAPPER.writeValueAsString(node);
    } catch (JsonProcessingException e) {
      throw new AssertionError("a tree of texts and numbers can always be written", e);
    }
  }

  /** An empty object of the same mapper. */
  static ObjectNode emptyObject() {
    return MAPPER.createObjectNode();
  }

  /** Reads an amount out of its object, or leaves faults behind and returns null. */
  static @Nullable Amount amount(FieldReader fields) {
    int before = fields.faultCount();
    String value = fields.textLike("value", AMOUNT_VALUE, "a decimal number as text");
    String symbol = fields.text("unit");
    Unit unit = symbol == null ? null : unit(symbol);
    if (symbol != null && unit == null) {
      fields.fault("unit", "the symbol of a unit", "\"" + symbol + "\"");
    }
    fields.refuseTheRest();
    return fields.faultCount() == before
        ? new Amount(new BigDecimal(sure(value)), sure(unit))
        : null;
  }

  private static @Nullable Unit unit(String symbol) {
    return symbol.isEmpty() ? Unit.UNSAID : Unit.ofSymbol(symbol).orElse(null);
  }
}
