package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.model.Finding;

/**
 * What the demo notes comes out of the sound and nowhere else: silence a word and the outcome
 * changes.
 */
@Tag("slow")
class DemoHearsSoundTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final List<String> TIMES = List.of("09:16:00", "09:50:00", "11:45:10");

  @TempDir private Path folder;

  @Test
  void withItsWordsSilencedARecordingNotesNothingAndTheFindingGoes() throws IOException {
    List<Path> clips = threeRecordings();
    Demo.Result heard = run("heard");
    assertTrue(kinds(heard).contains("temporary-still-in"), kinds(heard).toString());
    silence(clips.get(1), 0.0, 1.0);
    Demo.Result silenced = run("silenced");
    assertFalse(kinds(silenced).contains("temporary-still-in"), kinds(silenced).toString());
    assertEquals(heard.checked().entries().size() - 1, silenced.checked().entries().size());
    assertFalse(silenced.differences().isEmpty());
  }

  @Test
  void withOneWordSilencedTheEntryIsNotTheSame() throws IOException {
    List<Path> clips = threeRecordings();
    String before = words(run("heard"));
    // "four" is the first word of "four splash guard bolts back on".
    silence(clips.get(2), 0.0, 0.28);
    String after = words(run("silenced"));
    assertFalse(after.equals(before), after);
  }

  private static List<String> kinds(Demo.Result result) {
    return result.checked().outcome().findings().stream().map(Finding::kind).toList();
  }

  private static String words(Demo.Result result) {
    return result.checked().entries().stream()
        .map(entry -> entry.words() + " " + entry.certainty())
        .toList()
        .toString();
  }

  private Demo.Result run(String name) throws IOException {
    return Demo.run(folder, folder.resolve(name), InstantSource.system(), (done, of, last) -> {});
  }

  private List<Path> threeRecordings() throws IOException {
    Path demo = Path.of("demo-data");
    Files.createDirectories(folder.resolve("audio"));
    ObjectNode manifest =
        (ObjectNode) JSON.readTree(Files.readString(demo.resolve("manifest.json")));
    ArrayNode few = JSON.createArrayNode();
    List<Path> clips = new java.util.ArrayList<>();
    for (JsonNode clip : manifest.get("clips")) {
      String at = clip.get("at").asText();
      if (TIMES.stream().anyMatch(time -> at.contains("T" + time))) {
        String file = clip.get("file").asText();
        Files.copy(demo.resolve(file), folder.resolve(file));
        clips.add(folder.resolve(file));
        few.add(clip);
      }
    }
    assertEquals(3, few.size());
    manifest.set("clips", few);
    Files.writeString(folder.resolve("manifest.json"), manifest.toString());
    Files.copy(demo.resolve("plan.yaml"), folder.resolve("plan.yaml"));
    Files.copy(demo.resolve("expected.json"), folder.resolve("expected.json"));
    return clips;
  }

  /** Puts the faint hiss of a quiet room in place of a part of the speech. */
  private static void silence(Path wav, double from, double to) throws IOException {
    byte[] bytes = Files.readAllBytes(wav);
    int lead = 44 + 2 * 16_000 * 30 / 100;
    int speech = bytes.length - lead - 2 * 16_000 * 30 / 100;
    int begin = lead + (int) (speech * from) / 2 * 2;
    int end = lead + (int) (speech * to) / 2 * 2;
    for (int i = begin; i < end; i += 2) {
      bytes[i] = (byte) (i * 31 % 7 - 3);
      bytes[i + 1] = (byte) (bytes[i] < 0 ? -1 : 0);
    }
    Files.write(wav, bytes);
  }
}
