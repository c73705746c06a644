package tallyback.plan;

import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.util.List;

/** A JSON Schema validator that is not ours. */
final class OutsideValidator {

  private OutsideValidator() {}

  static List<String> complaints(JsonNode schema, JsonNode document) {
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
        .getSchema(schema)
        .validate(document)
        .stream()
        .map(error -> error.getInstanceLocation() + ": " + error.getMessage())
        .toList();
  }
}
