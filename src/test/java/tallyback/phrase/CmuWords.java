package tallyback.phrase;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The CMU Pronouncing Dictionary as the recogniser's data brings it, and the words the project
 * adds.
 */
final class CmuWords implements Lexicon {

  private final Map<String, String> words = new HashMap<>();

  CmuWords() {
    read("/edu/cmu/sphinx/models/en-us/cmudict-en-us.dict");
    read("/tallyback/grammars/pronunciations.dict");
  }

  private void read(String path) {
    try (InputStream in = CmuWords.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException("not on the class path: " + path);
      }
      new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))
          .lines()
          .filter(line -> !line.startsWith("#") && line.contains(" "))
          .forEach(
              line ->
                  words.putIfAbsent(
                      line.substring(0, line.indexOf(' ')), line.substring(line.indexOf(' ') + 1)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public boolean knows(String word) {
    return words.containsKey(word);
  }

  @Override
  public List<String> pronunciations(String word) {
    String phones = words.get(word);
    return phones == null ? List.of() : List.of(phones);
  }
}
