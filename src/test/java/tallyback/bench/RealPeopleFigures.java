package tallyback.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import tallyback.phrase.WordGraph;
import tallyback.speech.CmuLexicon;
import tallyback.speech.ListeningMode;
import tallyback.speech.Meaning;
import tallyback.speech.Recogniser;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * How well real people are heard, who never spoke to this program: number strings in a free loop of
 * number words, and single words. Apart from the synthetic figures, because it is much harder.
 *
 * <p>Arguments: the folder for the tables, a folder of number strings and a folder of single words,
 * each with a file {@code transcripts.tsv} (file, speaker, words).
 */
public final class RealPeopleFigures {

  private RealPeopleFigures() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    Path tables = Path.of(args[0]);
    figures("number strings", numberLoop(), Path.of(args[1]), tables, "");
    WordGraph digits =
        words("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "zero");
    figures(
        "single digits",
        digits,
        Path.of(args[2]),
        tables,
        "one two three four five six seven eight nine zero");
    figures("yes, no, stop", words("yes", "no", "stop"), Path.of(args[2]), tables, "yes no stop");
    figures(
        "digits where yes, no, stop are wanted",
        words("yes", "no", "stop"),
        Path.of(args[2]),
        tables,
        "one two three four five six seven eight nine zero");
  }

  private static WordGraph words(String... words) {
    return WordGraph.ofPhrases(Stream.of(words).map(List::of).toList());
  }

  private static WordGraph numberLoop() {
    WordGraph.Builder builder = new WordGraph.Builder();
    int some = builder.newState();
    String words =
        "one two three four five six seven eight nine zero oh ten eleven twelve thirteen fourteen fifteen sixteen seventeen"
            + " eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand and";
    for (String word : List.of(words.split(" "))) {
      builder.arc(builder.start(), word, some).arc(some, word, some);
    }
    return builder.accept(some).build();
  }

  private static void figures(String name, WordGraph grammar, Path folder, Path tables, String only)
      throws IOException {
    Meaning meaning = Meaning.literal();
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, grammar),
            CmuLexicon.load(),
            meaning,
            Settings.fromProperties())) {
      Observations observations = new Observations();
      List<String> lines = Files.readAllLines(folder.resolve("transcripts.tsv"));
      for (String line : lines.subList(1, lines.size())) {
        List<String> fields = List.of(line.split("\t"));
        String said = fields.get(2).toLowerCase(Locale.ROOT);
        if (only.isEmpty() || List.of(only.split(" ")).contains(said)) {
          observations.hear(
              recogniser,
              ListeningMode.ENTRIES,
              fields.get(1),
              said,
              TuningData.read(folder.resolve(fields.get(0))));
        }
      }
      HearingFigures.print(name, observations, meaning);
      System.out.printf(
          "  CPU time %.4f of the length of the sound%n", observations.cpuPerSecondOfSound());
      observations.write(
          tables.resolve("people-" + name.replaceAll("[^a-z]+", "-") + ".tsv"), meaning);
    }
  }
}
