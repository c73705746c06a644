package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.ScoredCandidate;
import tallyback.speech.adapt.NoiseModel;

/** The bench on the recordings that lie beside it: real people, real noise, the real recogniser. */
class HearingBenchTest {

  private static final Path SUBSET = Path.of("src/test/resources/bench");

  @TempDir private Path out;
  private final Map<String, String> properties = new HashMap<>();
  private int opened;
  private int heard;

  @BeforeEach
  void askForLittle() {
    properties.put("bench.speech", SUBSET.resolve("speech").toString());
    properties.put("bench.grammar", SUBSET.resolve("numbers.jsgf").toString());
    properties.put("bench.noise", SUBSET.resolve("noise").toString());
    properties.put("bench.snr", "clean,15");
    properties.put("bench.n", "2");
    properties.put("bench.out", out.toString());
  }

  private List<Cell> run(List<String> lines) throws IOException, InterruptedException {
    BenchSettings settings = BenchSettings.of(properties);
    HearingBench bench =
        new HearingBench(
            settings, Language.read(settings.grammar()), this::counting, progress -> {});
    return bench.run(cell -> lines.add(cell.json()));
  }

  private Recogniser counting(Language language, BenchSettings settings) {
    opened++;
    Recogniser real = HearingBench.open(language, settings, RecogniserSettings.defaults());
    return new Recogniser() {
      @Override
      public void use(List<NoiseModel> learned) {
        real.use(learned);
      }

      @Override
      public Hearing hear(Clip clip, ListeningMode mode) {
        heard++;
        return real.hear(clip, mode);
      }

      @Override
      public List<ScoredCandidate> score(Clip clip, List<List<String>> candidates) {
        return real.score(clip, candidates);
      }

      @Override
      public void close() {
        real.close();
      }
    };
  }

  private Path heardFile() throws IOException {
    try (var files = Files.list(out)) {
      return files
          .filter(file -> file.getFileName().toString().startsWith("heard-"))
          .findFirst()
          .orElseThrow();
    }
  }

  @Test
  void aCellForEachRatioAndWhatWasHeardIsNotHeardAgain() throws IOException, InterruptedException {
    List<String> first = new ArrayList<>();
    List<Cell> cells = run(first);
    assertEquals(List.of("none", "steam"), cells.stream().map(Cell::noise).toList());
    assertEquals(2, first.size());
    JsonNode clean = new ObjectMapper().readTree(first.get(0));
    List<String> names = new ArrayList<>();
    clean.fieldNames().forEachRemaining(names::add);
    assertEquals(
        List.of(
            "set",
            "noise",
            "snrDb",
            "n",
            "exact",
            "askedRight",
            "askedWrong",
            "notedWrong",
            "rejected",
            "timeRatio"),
        names);
    assertTrue(clean.get("snrDb").isNull());
    assertEquals(15, new ObjectMapper().readTree(first.get(1)).get("snrDb").asInt());
    for (Cell cell : cells) {
      assertEquals(2, cell.n());
      assertTrue(cell.timeRatio() > 0, "time was measured");
    }

    assertEquals(1, opened);
    List<String> second = new ArrayList<>();
    run(second);
    assertEquals(first, second);
    assertEquals(1, opened, "a whole run needs no recogniser");

    List<String> lines = Files.readAllLines(heardFile());
    assertEquals(4, lines.size());
    String whole = String.join("\n", lines);
    Files.writeString(heardFile(), whole.substring(0, whole.length() - 20));
    int before = heard;
    List<String> third = new ArrayList<>();
    run(third);
    assertEquals(2, opened);
    assertEquals(9, heard - before, "eight times to warm up, then the one that was broken off");
    assertEquals(first.get(0), third.get(0));
    assertEquals(
        4, Files.readAllLines(heardFile()).stream().filter(line -> Heard.of(line) != null).count());
  }

  @Test
  void eachDamageIsARowLikeANoise() throws IOException, InterruptedException {
    properties.put("bench.noise", "");
    properties.put("bench.snr", "clean");
    properties.put("bench.damage", "offset,muted");
    List<String> lines = new ArrayList<>();
    List<Cell> cells = run(lines);
    assertEquals(List.of("none", "offset", "muted"), cells.stream().map(Cell::noise).toList());
    JsonNode muted = new ObjectMapper().readTree(lines.get(2));
    assertEquals("muted", muted.get("noise").asText());
    assertTrue(muted.get("snrDb").isNull());
    assertEquals(2, muted.get("rejected").asInt(), "nothing is heard in zeros");
    for (Outcome outcome : Outcome.values()) {
      assertEquals(
          cells.get(0).count(outcome), cells.get(1).count(outcome), "an offset: " + outcome);
    }
  }

  @Test
  void wordsThatNobodyCanPronounceAreRefusedByName() throws IOException {
    Path grammar =
        Files.writeString(
            out.resolve("g.jsgf"), "#JSGF V1.0;\ngrammar g;\npublic <a> = zzyzx | one | qqorp;\n");
    properties.put("bench.grammar", grammar.toString());
    properties.put(
        "bench.speech",
        Files.createDirectory(out.resolve("talk")).toString()); // no transcripts: no entry in it
    Files.copy(SUBSET.resolve("speech/cen3-fjdn-b.wav"), out.resolve("talk/a.wav"));
    assertEquals(
        grammar
            + ": expected words with a known pronunciation, found qqorp, zzyzx; use others, or add"
            + " them to grammars/pronunciations.dict",
        assertThrows(IllegalArgumentException.class, () -> run(new ArrayList<>())).getMessage());
  }

  @Test
  void whatTheGrammarDoesNotHoldIsASetOfItsOwn() throws IOException {
    Language digits = Language.read(SUBSET.resolve("digits.jsgf"));
    List<SpeechSet> sets =
        SpeechSet.recorded(SUBSET.resolve("speech"), digits, 5, 0, java.util.Set.of());
    assertEquals(
        List.of("speech (not in the grammar)"), sets.stream().map(SpeechSet::name).toList());
    assertEquals(5, sets.get(0).utterances().size());
    assertEquals(List.of(), sets.get(0).utterances().get(0).said());
    Language numbers = Language.read(SUBSET.resolve("numbers.jsgf"));
    SpeechSet rest =
        SpeechSet.recorded(
                SUBSET.resolve("speech"), numbers, 100, 0, java.util.Set.of("fjdn", "mtos"))
            .get(0);
    assertEquals(10, rest.utterances().size());
    assertTrue(rest.utterances().stream().noneMatch(each -> each.speaker().equals("mtos")));
  }

  @Test
  void aRatioWithoutNoiseIsRefused() {
    properties.put("bench.noise", "");
    assertEquals(
        "bench.snr: a ratio needs noise; name a folder of it with -Dbench.noise",
        assertThrows(IllegalArgumentException.class, () -> BenchSettings.of(properties))
            .getMessage());
    properties.put("bench.snr", "loud");
    assertEquals(
        "bench.snr: expected clean or a number of dB, found loud",
        assertThrows(IllegalArgumentException.class, () -> BenchSettings.of(properties))
            .getMessage());
    properties.put("bench.snr", "");
    properties.put("bench.mode", "shouting");
    assertEquals(
        "bench.mode: expected one of [entries, answers, attention, memo], found shouting",
        assertThrows(IllegalArgumentException.class, () -> BenchSettings.of(properties))
            .getMessage());
  }
}
