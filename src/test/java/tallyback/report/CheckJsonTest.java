package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CheckJsonTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @Test
  void isTheObjectAsAgreed() throws JsonProcessingException {
    String line = CheckJson.line("2026-03-02-row31", OrchardJob.record().outcome());
    assertEquals(1, line.lines().count());
    Golden.assertSame(
        "check.json", MAPPER.readTree(line).toPrettyString().replace("\r\n", "\n") + "\n");
  }

  @Test
  void isTheSameInAnotherLanguageAndZone() {
    assertEquals(
        CheckJson.line("j", OrchardJob.record().outcome()),
        HtmlRecordTest.Elsewhere.call(() -> CheckJson.line("j", OrchardJob.record().outcome())));
  }

  /** The validator is not ours: networknt's, for draft 2020-12. */
  @Test
  void followsItsPublishedSchema() throws IOException {
    assertEquals(
        List.of(),
        schema().validate(CheckJson.line("j", OrchardJob.record().outcome()), InputFormat.JSON));
  }

  @Test
  void hostileTextComesBackAsItWas() throws IOException {
    long seed = 20260305;
    System.out.println("CheckJsonTest.hostileText seed " + seed);
    Random random = new Random(seed);
    Schema schema = schema();
    for (int round = 0; round < 100; round++) {
      String hostile = HostileText.from(random).replace("\uD800", "");
      String line = CheckJson.line(hostile, OrchardJob.named(hostile).outcome());
      assertEquals(List.of(), schema.validate(line, InputFormat.JSON));
      JsonNode check = MAPPER.readTree(line);
      assertEquals(hostile, check.get("job").asText());
      assertEquals(hostile, check.get("findings").get(0).get("remedy").asText());
      assertEquals(hostile, check.get("balances").get(0).get("label").asText());
    }
  }

  @Test
  void theSchemaRefusesAWordThatIsNoAnswer() throws IOException {
    ObjectNode check = check();
    ((ObjectNode) check.get("verdict")).put("work", "yes");
    assertRefused(check);
  }

  @Test
  void theSchemaRefusesAMemberNobodyPublished() throws IOException {
    assertRefused(check().put("extra", 1));
  }

  @Test
  void theSchemaRefusesAMissingRemedy() throws IOException {
    ObjectNode check = check();
    ((ObjectNode) check.get("findings").get(0)).remove("remedy");
    assertRefused(check);
  }

  @Test
  void theSchemaRefusesAnAmountAsANumber() throws IOException {
    ObjectNode check = check();
    ((ObjectNode) check.get("balances").get(10).get("lines").get(0).get("amount"))
        .put("value", 0.8);
    assertRefused(check);
  }

  @Test
  void theSchemaRefusesANewerNumber() throws IOException {
    assertRefused(check().put("schema", 2));
  }

  private static void assertRefused(ObjectNode check) throws IOException {
    assertFalse(schema().validate(check.toString(), InputFormat.JSON).isEmpty());
  }

  private static ObjectNode check() throws JsonProcessingException {
    return (ObjectNode) MAPPER.readTree(CheckJson.line("j", OrchardJob.record().outcome()));
  }

  private static Schema schema() throws IOException {
    try (InputStream text =
        CheckJson.class.getResourceAsStream("/tallyback/schema/check.schema.json")) {
      assertNotNull(text);
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(text);
    }
  }
}
