package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.voice.Voice;
import tallyback.voice.freetts.FreeTtsVoice;

/**
 * What the commands really print against the published schemas, judged by an independent validator
 * (networknt's) of JSON Schema draft 2020-12.
 */
class PrintedJsonTest {

  private static final String BASE = "https://tallyback.invalid/schema/1/";
  private static final List<String> PUBLISHED = List.of("hear", "check", "entry", "amount", "jobs");
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path PLAN = Path.of("demo-data/plan.yaml");
  private static final Path AUDIO = Path.of("demo-data/audio");

  @TempDir private Path folder;

  private static Schema schema(String name) {
    Map<String, String> texts = new HashMap<>();
    PUBLISHED.forEach(each -> texts.put(BASE + each + ".schema.json", text(each)));
    return SchemaRegistry.withDefaultDialect(
            SpecificationVersion.DRAFT_2020_12, builder -> builder.schemas(texts))
        .getSchema(SchemaLocation.of(BASE + name + ".schema.json"));
  }

  private static String text(String name) {
    String resource = "/tallyback/schema/" + name + ".schema.json";
    try (InputStream in = PrintedJsonTest.class.getResourceAsStream(resource)) {
      return new String(
          Objects.requireNonNull(in, resource).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void theSchemasKeepToTheDraft() throws IOException {
    Schema draft =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    for (String each : PUBLISHED) {
      assertEquals(List.of(), draft.validate(text(each), InputFormat.JSON), each);
    }
  }

  @Test
  void whatHearAndCheckPrintOfNotedAskedAndRejectedSpeechIsValid() throws IOException {
    Path data = folder.resolve("job.tallyback");
    Ran heard =
        Ran.command(
            "hear",
            clip("004-"), // an entry
            clip("025-"), // talk that is none
            clip("023-"), // "about two hundred mils"
            clip("091-"), // in noise
            "--plan",
            PLAN,
            "--data",
            data,
            "--at",
            "2026-03-02T09:00:00Z",
            "--json");
    Schema hear = schema("hear");
    Set<String> statuses = new TreeSet<>();
    for (String line : heard.outLines()) {
      assertEquals(List.of(), hear.validate(line, InputFormat.JSON), line);
      statuses.add(JSON.readTree(line).get("status").asText());
    }
    assertTrue(statuses.containsAll(Set.of("noted", "rejected")), heard.out());
    Ran checked = Ran.command("check", "--data", data, "--json");
    assertEquals(List.of(), schema("check").validate(checked.out(), InputFormat.JSON));
  }

  @Test
  void whatHearPrintsOfSoundKeptAsNotUnderstoodIsValid() throws IOException {
    String printed =
        Ran.command(
                "hear",
                "src/test/resources/attention/babble.wav",
                "--plan",
                PLAN,
                "--attention",
                "toolmaker",
                "--json")
            .out();
    ObjectNode line = (ObjectNode) JSON.readTree(printed);
    assertEquals("rejected", line.get("status").asText());
    assertEquals("not-understood", line.get("entry").get("kind").asText());
    assertValid(line);
    assertRefused(line.deepCopy().put("status", "asked"));
    ObjectNode other = line.deepCopy();
    ((ObjectNode) other.get("entry")).put("kind", "memo").remove("snrDb");
    assertRefused(other);
  }

  @Test
  void whatExportWritesAsLinesOfJsonIsValidLineByLine() throws IOException {
    Path data = folder.resolve("job.tallyback");
    for (String line :
        List.of(
            "five tens off the belly pan",
            "scratch that",
            "spilled about 200 mils",
            "make that 300 mils",
            "camera mark",
            "look again at the level in two weeks",
            "memo <script> \"quoted\"")) {
      assertEquals(0, Ran.command("enter", "--plan", PLAN, "--data", data, line).code(), line);
    }
    Path out = folder.resolve("job.jsonl");
    assertEquals(0, Ran.command("export", "--data", data, "--out", out).code());
    Schema entry = schema("entry");
    String text = Files.readString(out);
    assertTrue(text.endsWith("}\n"));
    String[] written = text.substring(0, text.length() - 1).split("\n", -1);
    assertEquals(8, written.length, text);
    Set<String> kinds = new TreeSet<>();
    for (int i = 0; i < written.length; i++) {
      assertEquals(List.of(), entry.validate(written[i], InputFormat.JSON), written[i]);
      JsonNode line = JSON.readTree(written[i]);
      assertEquals(i + 1, line.get("seq").asInt());
      kinds.add(line.get("kind").asText());
    }
    assertTrue(
        kinds.containsAll(Set.of("undo", "correction", "film-mark", "look-again", "job-opened")),
        kinds::toString);
    assertFalse(
        entry.validate(written[5].replace("film-mark", "film"), InputFormat.JSON).isEmpty());
  }

  /** The form knows noted, asked and rejected; a question that was answered is no entry. */
  @Test
  void whatHearPrintsOfAQuestionIsValid() throws IOException {
    Path asked = folder.resolve("asked.wav");
    try (Voice voice = FreeTtsVoice.open()) {
      short[] speech = voice.speak("what is left to do").samples();
      short[] padded = new short[speech.length + 2 * Clip.SAMPLE_RATE_HZ];
      System.arraycopy(speech, 0, padded, Clip.SAMPLE_RATE_HZ, speech.length);
      Files.write(asked, WavWriter.toBytes(new Clip(padded, 0)));
    }
    Ran heard = Ran.command("hear", asked, "--plan", PLAN, "--json");
    JsonNode line = JSON.readTree(heard.out());
    assertEquals("rejected", line.get("status").asText());
    assertEquals("what is left to do", line.get("words").asText());
    assertTrue(line.get("entry").isNull());
    assertValid(line);
    String shown = Ran.command("hear", asked, "--plan", PLAN).out();
    assertTrue(shown.contains("answered  left:\n  20 steps: make safe, strip covers"), shown);
  }

  private static Path clip(String start) throws IOException {
    try (var files = java.nio.file.Files.list(AUDIO)) {
      return files
          .filter(each -> String.valueOf(each.getFileName()).startsWith(start))
          .findFirst()
          .orElseThrow();
    }
  }

  @Test
  void whatCheckPrintsOfTypedEntriesIsValid() {
    Path data = folder.resolve("job.tallyback");
    for (String line :
        List.of(
            "six splash guard bolts off",
            "drained two point nine litres from the radiator drain into the big jug",
            "torqued the elbow nuts to eighteen foot pounds",
            "old outlet gasket back on",
            "locking pin in")) {
      assertEquals(0, Ran.command("enter", "--plan", PLAN, "--data", data, line).code(), line);
    }
    Ran checked = Ran.command("check", "--data", data, "--json");
    assertEquals(1, checked.code());
    assertEquals(List.of(), schema("check").validate(checked.out(), InputFormat.JSON));
  }

  @Test
  void theHearSchemaRefusesWhatIsNotSo() throws IOException {
    String noted = Ran.command("hear", clip("004-"), "--plan", PLAN, "--json").out();
    ObjectNode line = (ObjectNode) JSON.readTree(noted);
    assertEquals("noted", line.get("status").asText());
    assertValid(line);
    assertRefused(line.deepCopy().put("status", "heard"));
    assertRefused(line.deepCopy().put("status", "asked"));
    assertRefused(line.deepCopy().putNull("entry"));
    assertRefused(line.deepCopy().put("words", ""));
    assertRefused(line.deepCopy().put("startMs", -1));
    assertRefused(line.deepCopy().put("schema", 2));
    assertRefused(line.deepCopy().put("mood", "good"));
    ObjectNode without = line.deepCopy();
    without.remove("snrDb");
    assertRefused(without);
    ObjectNode damaged = line.deepCopy();
    ((ObjectNode) damaged.get("entry")).put("certainty", "perhaps");
    assertRefused(damaged);
  }

  private static void assertValid(JsonNode line) {
    assertEquals(List.of(), schema("hear").validate(line.toString(), InputFormat.JSON));
  }

  private static void assertRefused(JsonNode line) {
    assertFalse(
        schema("hear").validate(line.toString(), InputFormat.JSON).isEmpty(), line.toString());
  }
}
