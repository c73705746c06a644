package tallyback.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;
import tallyback.speech.CmuLexicon;
import tallyback.speech.ListeningMode;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * Writes what the recogniser makes of the tuning voices and of speech that is no entry, with
 * rejection switched off, one line a clip: the data from which thresholds are chosen.
 *
 * <p>Arguments: how many phrases per voice, the folder for spoken phrases, the folder for the
 * tables, and any number of folders of recordings that hold no entry.
 */
public final class TuningData {

  private TuningData() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    int phrases = Integer.parseInt(args[0]);
    Path spoken = Path.of(args[1]);
    Path tables = Path.of(args[2]);
    RecogniserSettings open = Settings.fromProperties().withLeastFit(Double.NEGATIVE_INFINITY);
    Phrases entries = ProvisionalEntries.entries();
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, entries.graph()),
            CmuLexicon.load(),
            ProvisionalEntries::meaning,
            open)) {
      Observations voices = new Observations();
      for (Voices voice : Voices.TUNING) {
        Random random = new Random(voice.name().hashCode());
        for (int i = 0; i < phrases; i++) {
          List<String> phrase = entries.example(random);
          voices.hear(
              recogniser,
              ListeningMode.ENTRIES,
              voice.name(),
              String.join(" ", phrase),
              voice.speak(phrase, spoken));
        }
      }
      voices.write(tables.resolve("tuning.tsv"), ProvisionalEntries::meaning);
      System.out.printf(
          "tuning: %d clips, cpu per second %.4f%n",
          voices.all().size(), voices.cpuPerSecondOfSound());
      Observations background = new Observations();
      for (String folder : List.of(args).subList(3, args.length)) {
        for (Path file : wavFiles(Path.of(folder))) {
          background.hear(
              recogniser,
              ListeningMode.ENTRIES,
              "background",
              file.getFileName().toString(),
              read(file));
        }
      }
      background.write(tables.resolve("background.tsv"), ProvisionalEntries::meaning);
      System.out.printf("background: %d clips%n", background.all().size());
    }
  }

  static List<Path> wavFiles(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(".wav")).sorted().toList();
    }
  }

  static Clip read(Path file) throws IOException {
    try (WavSource source = WavSource.open(file)) {
      return source.readAll();
    }
  }
}
