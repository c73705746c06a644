package tallyback.speech.adapt;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;

/**
 * A taught voice as the text of a file: JSON of schema 1.
 *
 * <p>Thread rule: stateless.
 */
public final class VoiceFile {

  private static final int SCHEMA = 1;
  private static final JsonMapper JSON = JsonMapper.builder().build();

  private VoiceFile() {}

  /** The text. */
  public static String write(TaughtVoice voice) {
    ObjectNode root =
        JsonNodeFactory.instance
            .objectNode()
            .put("schema", SCHEMA)
            .put("taughtAt", voice.taughtAt().toString());
    root.set("before", json(voice.before()));
    root.set("after", json(voice.after()));
    root.put("model", voice.profile().model());
    ArrayNode maps = root.putArray("maps");
    for (MeanMap map : voice.profile().maps()) {
      ArrayNode rows = maps.addArray();
      for (List<Double> row : map.rows()) {
        ArrayNode numbers = rows.addArray();
        row.forEach(numbers::add);
      }
    }
    ArrayNode shifts = root.putArray("shifts");
    voice.profile().shifts().forEach(each -> shifts.add(each.encoded()));
    return root + "\n";
  }

  private static ObjectNode json(Measured measured) {
    return JsonNodeFactory.instance
        .objectNode()
        .put("lines", measured.lines())
        .put("noted", measured.noted())
        .put("right", measured.right())
        .put("wrong", measured.wrong())
        .put("fit", measured.fit());
  }

  /**
   * The voice of a text.
   *
   * @throws VoiceFileDamaged if it is not what {@link #write} writes
   */
  public static TaughtVoice read(String text) throws VoiceFileDamaged {
    try {
      JsonNode root = JSON.readTree(text);
      if (root.path("schema").asInt() > SCHEMA) {
        throw new VoiceFileDamaged("it is from a newer version");
      }
      if (root.path("schema").asInt() != SCHEMA) {
        throw new VoiceFileDamaged("expected schema " + SCHEMA);
      }
      List<MeanMap> maps = new ArrayList<>();
      for (JsonNode map : root.path("maps")) {
        maps.add(map(map));
      }
      List<MeanShifts> shifts = new ArrayList<>();
      for (JsonNode each : root.path("shifts")) {
        shifts.add(MeanShifts.decoded(each.asText()));
      }
      return new TaughtVoice(
          Instant.parse(root.path("taughtAt").asText()),
          measured(root.path("before")),
          measured(root.path("after")),
          new VoiceProfile(root.path("model").asText(), maps, shifts));
    } catch (JsonProcessingException e) {
      throw new VoiceFileDamaged("it is no JSON: " + e.getOriginalMessage());
    } catch (DateTimeParseException | IllegalArgumentException e) {
      throw new VoiceFileDamaged(String.valueOf(e.getMessage()));
    }
  }

  private static MeanMap map(JsonNode node) {
    List<List<Double>> rows = new ArrayList<>();
    for (JsonNode row : node) {
      List<Double> numbers = new ArrayList<>();
      row.forEach(each -> numbers.add(number(each)));
      rows.add(numbers);
    }
    return new MeanMap(rows);
  }

  private static Measured measured(JsonNode node) {
    return new Measured(
        count(node, "lines"),
        count(node, "noted"),
        count(node, "right"),
        count(node, "wrong"),
        number(node.path("fit")));
  }

  private static int count(JsonNode node, String name) {
    if (!node.path(name).canConvertToInt()) {
      throw new IllegalArgumentException("expected a number of " + name);
    }
    return node.path(name).asInt();
  }

  private static double number(JsonNode node) {
    if (!node.isNumber()) {
      throw new IllegalArgumentException("expected a number, found " + node);
    }
    return node.asDouble();
  }
}
