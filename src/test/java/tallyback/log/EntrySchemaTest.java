package tallyback.log;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Unit;

/**
 * The published schema against what is written, judged by an independent validator of JSON Schema
 * draft 2020-12.
 */
final class EntrySchemaTest {

  private static final String BASE = "https://tallyback.invalid/schema/1/";
  private static final String DRAFT = "https://json-schema.org/draft/2020-12/schema";

  private final SchemaRegistry registry =
      SchemaRegistry.withDefaultDialect(
          SpecificationVersion.DRAFT_2020_12,
          builder ->
              builder.schemas(
                  Map.of(
                      BASE + "entry.schema.json", resource("entry.schema.json"),
                      BASE + "amount.schema.json", resource("amount.schema.json"))));
  private final Schema schema = registry.getSchema(SchemaLocation.of(BASE + "entry.schema.json"));

  private static String resource(String name) {
    try (InputStream in = EntrySchemaTest.class.getResourceAsStream("/tallyback/schema/" + name)) {
      return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static JsonNode published(String name) throws IOException {
    return new ObjectMapper().readTree(resource(name));
  }

  private boolean valid(JsonNode entry) {
    return schema.validate(entry).isEmpty();
  }

  @Test
  void bothSchemasKeepToTheDraft() throws IOException {
    Schema meta = registry.getSchema(SchemaLocation.of(DRAFT));
    assertEquals(List.of(), meta.validate(published("entry.schema.json")));
    assertEquals(List.of(), meta.validate(published("amount.schema.json")));
  }

  @Test
  void everyExampleIsValid() {
    for (Statement statement : Examples.statements()) {
      var tree = EntryJson.tree(Examples.entry(1, statement, "0f".repeat(32)));
      assertEquals(List.of(), schema.validate(tree), tree.toString());
    }
  }

  @Test
  void randomStatementsAreValid() {
    RandomStatements random = RandomStatements.seeded(77L);
    for (int i = 1; i <= 500; i++) {
      var tree = EntryJson.tree(Examples.entry(i, random.next(), null));
      assertEquals(List.of(), schema.validate(tree), random + " " + tree);
    }
  }

  @Test
  void anUnknownFieldIsInvalidInEveryKind() {
    for (Statement statement : Examples.statements()) {
      ObjectNode tree = EntryJson.tree(Examples.entry(1, statement, null));
      tree.put("mood", "good");
      assertFalse(valid(tree), tree.toString());
    }
  }

  @Test
  void validatorAndReaderAgreeWhichFieldsMustBeThere() {
    for (Statement statement : Examples.statements()) {
      ObjectNode whole = EntryJson.tree(Examples.entry(1, statement, null));
      List<String> names = new ArrayList<>();
      whole.fieldNames().forEachRemaining(names::add);
      for (String name : names) {
        ObjectNode without = whole.deepCopy();
        without.remove(name);
        assertEquals(readable(without), valid(without), name + " taken out of " + whole);
      }
    }
  }

  private static boolean readable(JsonNode entry) {
    try {
      EntryJson.read(entry.toString());
      return true;
    } catch (LogRefused e) {
      return false;
    }
  }

  @Test
  void aFieldOfAnotherKindIsInvalid() {
    ObjectNode tree = EntryJson.tree(Examples.entry(1, new Statement.Memo(), null));
    tree.put("step", "drain");
    assertFalse(valid(tree));
    assertFalse(readable(tree));
  }

  @Test
  void wordsAndAmountsOutsideTheirListsAreInvalid() {
    ObjectNode tree = EntryJson.tree(Examples.entry(1, Examples.statements().get(1), null));
    assertTrue(valid(tree));
    assertFalse(valid(tree.deepCopy().put("move", "OUT")));
    assertFalse(valid(tree.deepCopy().put("source", "guessed")));
    assertFalse(valid(tree.deepCopy().put("happenedAt", "2026-03-02T08:15:00Z")));
    ObjectNode number = tree.deepCopy();
    number.withObject("/amount").put("value", 2.1);
    assertFalse(valid(number));
    ObjectNode unit = tree.deepCopy();
    unit.withObject("/amount").put("unit", "pints");
    assertFalse(valid(unit));
  }

  @Test
  void theSchemaListsEveryUnit() throws IOException {
    List<String> listed = new ArrayList<>();
    published("amount.schema.json")
        .at("/properties/unit/enum")
        .forEach(each -> listed.add(each.textValue()));
    assertEquals(Arrays.stream(Unit.values()).map(Unit::symbol).toList(), listed);
  }

  @Test
  void theSchemaHasEveryKindWithItsFieldsAndWords() throws IOException {
    JsonNode kinds = published("entry.schema.json").path("$defs");
    StatementKind.types()
        .forEach(
            (kind, type) -> {
              JsonNode properties = kinds.path(kind).path("properties");
              List<String> expected = new ArrayList<>(List.of("kind"));
              for (RecordComponent component : type.getRecordComponents()) {
                String field = StatementFields.fieldName(component);
                expected.add(field);
                assertEquals(
                    words(component.getType()), enumOf(properties.path(field)), kind + "." + field);
                assertEquals(
                    component.getType() == Amount.class ? "amount.schema.json" : "",
                    properties.path(field).path("$ref").asText("").replaceAll("^#.*", ""),
                    kind + "." + field);
              }
              List<String> found = new ArrayList<>();
              properties.fieldNames().forEachRemaining(found::add);
              assertEquals(expected, found, kind);
            });
  }

  private static List<String> words(Class<?> type) {
    return type.isEnum()
        ? Arrays.stream(type.getEnumConstants())
            .map(each -> FieldReader.wordOf((Enum<?>) each))
            .toList()
        : List.of();
  }

  private static List<String> enumOf(JsonNode property) {
    List<String> words = new ArrayList<>();
    property.path("enum").forEach(each -> words.add(each.textValue()));
    return words;
  }
}
