package tallyback.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import tallyback.phrase.WordGraph;
import tallyback.speech.CmuLexicon;
import tallyback.speech.ListeningMode;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * How long it takes from the start of the virtual machine until the recogniser listens, and how
 * much memory it holds after it has heard something. Argument: {@code plan} for a plan of about the
 * usual size or {@code names} for 150 two-word names in many kinds of entry, and a folder of
 * recordings to hear.
 */
public final class StartFigures {

  private StartFigures() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    SphinxRecognisers.loadAhead();
    boolean names = args[0].equals("names");
    Phrases entries =
        names ? ProvisionalEntries.entriesOver150Names() : ProvisionalEntries.entries();
    Map<ListeningMode, WordGraph> grammars = new EnumMap<>(ListeningMode.class);
    grammars.put(ListeningMode.ENTRIES, entries.graph());
    grammars.put(ListeningMode.ANSWERS, ProvisionalEntries.answers().graph());
    long grammarReadyMs = sinceStartMs();
    CmuLexicon lexicon = CmuLexicon.load();
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            grammars, lexicon, ProvisionalEntries::meaning, RecogniserSettings.defaults())) {
      System.out.printf(
          "%s: grammar ready %d ms, listening %d ms after the start of the virtual machine%n",
          args[0], grammarReadyMs, sinceStartMs());
      int heard = 0;
      for (Path file : TuningData.wavFiles(Path.of(args[1]))) {
        recogniser.hear(TuningData.read(file), ListeningMode.ENTRIES);
        heard++;
      }
      System.gc();
      System.gc();
      long used = Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
      System.out.printf(
          "heap after garbage collection, %d clips heard: %d MB%n", heard, used / (1 << 20));
    }
  }

  private static long sinceStartMs() {
    return System.currentTimeMillis() - ManagementFactory.getRuntimeMXBean().getStartTime();
  }
}
