package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.logging.Handler;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserContract;
import tallyback.speech.RecogniserSettings;

class SphinxRecogniserTest extends RecogniserContract {

  @Override
  protected Recogniser open(
      Map<ListeningMode, WordGraph> grammars, Lexicon lexicon, RecogniserSettings settings) {
    return SphinxRecognisers.open(grammars, lexicon, settings);
  }

  @Test
  void theLibraryWritesNothingToTheConsole() {
    List<LogRecord> records = new ArrayList<>();
    Handler listener =
        new Handler() {
          @Override
          public void publish(LogRecord record) {
            records.add(record);
          }

          @Override
          public void flush() {}

          @Override
          public void close() {}
        };
    Logger root = Logger.getLogger("");
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    root.addHandler(listener);
    System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
    System.setErr(new PrintStream(printed, true, StandardCharsets.UTF_8));
    try (Recogniser recogniser =
        open(Map.of(ListeningMode.ENTRIES, entries()), LEXICON, RecogniserSettings.defaults())) {
      recogniser.hear(SPOKEN.get(0).clip(), ListeningMode.ENTRIES);
      recogniser.hear(new Clip(new short[16_000], 0), ListeningMode.ENTRIES);
    } finally {
      System.setOut(out);
      System.setErr(err);
      root.removeHandler(listener);
    }
    assertEquals("", printed.toString(StandardCharsets.UTF_8));
    assertEquals(List.of(), records.stream().map(LogRecord::getMessage).toList());
  }

  @Test
  void aModelLoadedAheadGoesToOneRecogniserOnly() {
    SphinxRecognisers.loadAhead();
    SphinxRecognisers.loadAhead();
    Map<ListeningMode, WordGraph> grammars = Map.of(ListeningMode.ANSWERS, answers());
    try (Recogniser first = open(grammars, LEXICON, RecogniserSettings.defaults());
        Recogniser second = open(grammars, LEXICON, RecogniserSettings.defaults())) {
      Clip clip = SPOKEN.get(4).clip();
      assertEquals(
          "step seven done", first.hear(clip, ListeningMode.ANSWERS).readings().get(0).line());
      assertEquals(
          "step seven done", second.hear(clip, ListeningMode.ANSWERS).readings().get(0).line());
    }
  }

  @Test
  void readingsThatMeanTheSameAreNoRivals() {
    WordGraph grammar =
        WordGraph.ofPhrases(
            List.of(
                List.of("step", "seven", "done"),
                List.of("step", "seventy", "done"),
                List.of("step", "seven", "dawn")));
    Lexicon lexicon = LEXICON;
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, grammar),
            lexicon,
            words -> words.stream().map(word -> word.equals("dawn") ? "done" : word).toList(),
            RecogniserSettings.defaults())) {
      Hearing hearing = recogniser.hear(SPOKEN.get(4).clip(), ListeningMode.ENTRIES);
      assertEquals(2, hearing.readings().size());
      assertTrue(
          hearing.readings().get(1).line().startsWith("step seventy"),
          hearing.readings().get(1).line());
    }
  }
}
