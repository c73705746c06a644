package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.bench.DemoScript;
import tallyback.speech.CmuLexicon;
import tallyback.speech.adapt.Lesson;

class BundledSpeechTest {

  @Test
  void theIndexSaysWhatIsSaidInTheRecordings() throws IOException {
    assertEquals(
        DemoScript.known(),
        Files.readAllLines(Path.of("demo-data/known-speech.tsv"), StandardCharsets.UTF_8));
  }

  @Test
  void aFewAreTakenFromAllOfThem() {
    List<Lesson> all = BundledSpeech.read(CmuLexicon.load(), Integer.MAX_VALUE);
    List<Lesson> some = BundledSpeech.read(CmuLexicon.load(), 10);

    assertTrue(all.size() > 90, all.size() + " are known");
    assertEquals(10, new HashSet<>(some).size());
    assertTrue(some.stream().allMatch(each -> each.clip().durationMs() > 500));
  }
}
