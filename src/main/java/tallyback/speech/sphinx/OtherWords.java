package tallyback.speech.sphinx;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;

/**
 * What else may have been said than an answer: rows of ordinary words, as many as the answer has.
 * Against any phones a short answer and a word that only sounds a little like it look alike;
 * against words that people do say they part.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class OtherWords {

  private static final String LIST = "/tallyback/speech/ordinary-words.txt";

  /** A longer answer is set against rows of this many words or more. */
  private static final int MOST_WORDS = 4;

  private final List<String> words;
  private final Function<WordGraph, Search> searches;
  private final Map<Integer, Search> byLength = new HashMap<>();

  /**
   * Prepares them.
   *
   * @param grammar the answers; words that sound like one of theirs are none
   * @param searches makes a search over a graph
   */
  OtherWords(WordGraph grammar, Lexicon lexicon, Function<WordGraph, Search> searches) {
    this.searches = searches;
    Set<String> sounds = new HashSet<>();
    grammar.words().forEach(word -> sounds.addAll(lexicon.pronunciations(word)));
    words =
        ordinary().stream()
            .filter(lexicon::knows)
            .filter(word -> lexicon.pronunciations(word).stream().noneMatch(sounds::contains))
            .toList();
  }

  /** The best row of other words of at most so many, in the library's log base. */
  Optional<Float> best(List<TiedMixtures.Frame> frames, int count) {
    if (words.isEmpty()) {
      return Optional.empty();
    }
    return byLength
        .computeIfAbsent(Math.min(count, MOST_WORDS), length -> searches.apply(rows(length)))
        .best(frames)
        .map(token -> token.getScore());
  }

  private WordGraph rows(int length) {
    WordGraph.Builder rows = new WordGraph.Builder();
    int state = 0;
    for (int place = 0; place < length; place++) {
      int next = rows.newState();
      boolean endless = place == MOST_WORDS - 1;
      for (String word : words) {
        rows.arc(state, word, next);
        if (endless) {
          rows.arc(next, word, next);
        }
      }
      rows.accept(next);
      state = next;
    }
    return rows.build();
  }

  private static List<String> ordinary() {
    try (InputStream in = OtherWords.class.getResourceAsStream(LIST)) {
      if (in == null) {
        throw new IllegalStateException("the jar lacks " + LIST + "; build it again");
      }
      BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      List<String> words = new ArrayList<>();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (!line.startsWith("#")) {
          words.addAll(List.of(line.strip().split(" +")));
        }
      }
      words.removeIf(String::isEmpty);
      return words.stream().distinct().toList();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + LIST + " from the jar", e);
    }
  }
}
