package tallyback.app;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;
import tallyback.phrase.Lexicon;
import tallyback.speech.adapt.Lesson;

/** The recordings in the jar whose words are known: two voices of the demo, without noise. */
public final class BundledSpeech {

  private static final String FOLDER = "/tallyback/demo-data/";
  private static final String INDEX = FOLDER + "known-speech.tsv";

  private BundledSpeech() {}

  /**
   * Reads them.
   *
   * @param lexicon recordings with a word it doesn't know are left out
   * @param most so many at most, taken evenly from all
   * @return the recordings
   * @throws UncheckedIOException if the jar is damaged
   */
  public static List<Lesson> read(Lexicon lexicon, int most) {
    List<String[]> rows = new ArrayList<>();
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(open(INDEX), StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        String[] field = line.split("\t", -1);
        if (field.length == 2 && words(field[1]).stream().allMatch(lexicon::knows)) {
          rows.add(field);
        }
      }
      List<Lesson> known = new ArrayList<>();
      int count = Math.min(most, rows.size());
      for (int i = 0; i < count; i++) {
        String[] row = rows.get(i * rows.size() / count);
        known.add(new Lesson(clip(row[0]), words(row[1])));
      }
      return known;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read known speech from the jar; build it again", e);
    }
  }

  private static List<String> words(String line) {
    return List.of(line.split(" ", -1));
  }

  private static Clip clip(String name) throws IOException {
    Path copy = Files.createTempFile("known-speech", ".wav");
    try (InputStream in = open(FOLDER + "audio/" + name)) {
      Files.copy(in, copy, StandardCopyOption.REPLACE_EXISTING);
      try (WavSource source = WavSource.open(copy)) {
        return source.readAll();
      }
    } finally {
      Files.delete(copy);
    }
  }

  private static InputStream open(String name) throws IOException {
    InputStream in = BundledSpeech.class.getResourceAsStream(name);
    if (in == null) {
      throw new IOException("the jar lacks " + name);
    }
    return in;
  }
}
