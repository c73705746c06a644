package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;

class SideBySideTest {

  private static final WordGraph GRAPH =
      WordGraph.ofPhrases(List.of(List.of("step", "one"), List.of("step", "one", "done")));

  @Test
  void theGrammarIsTheSameStatesAndArcsWithOneEnd() {
    assertEquals(
        """
        FSG_BEGIN entries
        NUM_STATES 5
        START_STATE 0
        FINAL_STATE 4
        TRANSITION 0 1 1.0 step
        TRANSITION 1 2 1.0 one
        TRANSITION 2 3 1.0 done
        TRANSITION 2 4 1.0
        TRANSITION 3 4 1.0
        FSG_END
        """,
        OtherDecoder.fsg(GRAPH));
  }

  @Test
  void theDictionaryHasOnlyTheWordsOfTheGrammarEachWayOfSayingThem() {
    Lexicon lexicon =
        new Lexicon() {
          @Override
          public boolean knows(String word) {
            return true;
          }

          @Override
          public List<String> pronunciations(String word) {
            return word.equals("one") ? List.of("W AH N", "HH W AH N") : List.of("S T");
          }
        };
    assertEquals(
        """
        done S T
        one W AH N
        one(2) HH W AH N
        step S T
        """,
        OtherDecoder.dictionary(GRAPH, lexicon));
  }

  /** Lines as the program writes them: a variant, a filler, a clip without a path. */
  @Test
  void whatItHeardIsReadByClip() {
    String log =
        """
        INFO: batch.c(782): TOTAL 12.34 seconds speech, 1.50 seconds CPU, 1.60 seconds wall
        0m0.001s 0m0.002s
        0m1.700s 0m0.050s
        """;
    assertEquals(
        new OtherDecoder.Batch(
            List.of(List.of("step", "one"), List.of(), List.of("step")), 1500, 250),
        OtherDecoder.batch(
            log,
            List.of("step one(2) <sil> (clip00000 -1234)", " (clip00001 0)", "step (clip00002 -7)"),
            List.of("clip00000", "clip00001", "clip00002")));
  }

  @Test
  void whereItIsNotInstalledThatIsSaid() {
    assertEquals(
        "expected pocketsphinx_batch and its English model, found none; install Debian's packages"
            + " pocketsphinx and pocketsphinx-en-us (apt-get install)",
        assertThrows(
                IllegalArgumentException.class,
                () -> OtherDecoder.requireInstalled("/nowhere", Path.of("/")))
            .getMessage());
  }

  @Test
  void withNothingAskedForVoicesOnThePlanAndPeopleOnNumbers() {
    List<BenchSettings> runs = SideBySide.runs(Map.of("bench.n", "5"));
    assertEquals(2, runs.size());
    assertEquals(List.of(Voices.SLT, Voices.KED), runs.get(0).voices());
    assertEquals(List.of(), runs.get(0).speech());
    assertEquals(List.of(), runs.get(1).voices());
    assertEquals(List.of(Path.of("src/test/resources/bench/speech")), runs.get(1).speech());
    assertEquals("[clean, 15 dB]", runs.get(1).snrs().toString());
    assertEquals(5, runs.get(1).n());
    assertEquals(1, SideBySide.runs(Map.of("bench.speech", "people")).size());
  }

  @Test
  void aRowHasBoth() {
    Cell ours =
        new Cell(
            "SLT", "steam", new Snr(15), Map.of(Outcome.EXACT, 3L, Outcome.REJECTED, 1L), 40, 1000);
    assertEquals(
        "| SLT | steam | 15 dB | 4 | 100.0 (51.0 to 100.0) | 75.0 (30.1 to 95.4) | 0.0 (0.0 to"
            + " 49.0) | 50.0 (15.0 to 85.0) | 0.040 | 0.050 (start 1.2 s) |",
        new SideBySide.Row(ours, 4, 2, 0.05, 1_200).markdown());
  }
}
