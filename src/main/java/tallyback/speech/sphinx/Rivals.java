package tallyback.speech.sphinx;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;
import tallyback.speech.Meaning;

/**
 * The phrases that a reading is most easily mistaken for: those of the same grammar in which one or
 * two words are exchanged for words that sound alike (fifteen and fifty, eight and ten), or a short
 * word is put in or left out (oh, and, a).
 *
 * <p>The search keeps one history per state, so its second best is no true runner-up; decoding the
 * clip again over these phrases alone finds it.
 */
final class Rivals {

  /** How far apart two words may sound; see {@link #distance}. */
  static final double NEAR = 0.5;

  private static final int MOST_PHRASES = 600;
  private static final int SHORT_WORD_PHONES = 3;

  private static final Set<String> VOWELS =
      Set.of(
          "AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW");

  /**
   * Number words that recognisers mistake for one another although their phones differ: measured,
   * see the class comment.
   */
  private static final List<Set<String>> KNOWN_CONFUSIONS =
      List.of(
          Set.of("two", "ten"),
          Set.of("eight", "ten"),
          Set.of("five", "nine"),
          Set.of("seven", "seventy"),
          Set.of("six", "sixty"),
          Set.of("eight", "eighty"),
          Set.of("nine", "ninety"),
          Set.of("four", "forty"),
          Set.of("hundred", "thousand"),
          Set.of("oh", "zero"),
          Set.of("oh", "four"),
          Set.of("five", "fifty"),
          Set.of("one", "nine"),
          Set.of("seven", "eleven"),
          Set.of("two", "three"));

  private final WordGraph grammar;
  private final Lexicon lexicon;
  private final List<String> best;
  private final Set<List<String>> found = new LinkedHashSet<>();

  private Rivals(List<String> best, WordGraph grammar, Lexicon lexicon) {
    this.best = best;
    this.grammar = grammar;
    this.lexicon = lexicon;
  }

  /**
   * The rivals of a reading.
   *
   * @return their graph, or nothing when the reading has none
   */
  static Optional<WordGraph> of(
      List<String> best, WordGraph grammar, Lexicon lexicon, Meaning meaning) {
    Rivals rivals = new Rivals(best, grammar, lexicon);
    rivals.explore(1);
    rivals.explore(2);
    Object meant = meaning.of(best);
    rivals.found.removeIf(phrase -> meaning.of(phrase).equals(meant));
    return rivals.found.isEmpty()
        ? Optional.empty()
        : Optional.of(WordGraph.ofPhrases(rivals.found));
  }

  private void explore(int changes) {
    explore(grammar.start(), 0, changes, new ArrayList<>());
  }

  private void explore(int state, int at, int changesLeft, List<String> said) {
    if (found.size() >= MOST_PHRASES) {
      return;
    }
    if (at == best.size() && changesLeft == 0 && grammar.isFinal(state)) {
      found.add(List.copyOf(said));
    }
    if (at < best.size()) {
      keep(state, at, changesLeft, said);
    }
    if (changesLeft > 0) {
      if (at < best.size()) {
        exchange(state, at, changesLeft, said);
        leaveOut(state, at, changesLeft, said);
      }
      putIn(state, at, changesLeft, said);
    }
  }

  private void keep(int state, int at, int changesLeft, List<String> said) {
    step(grammar.next(state, best.get(at)), best.get(at), at + 1, changesLeft, said);
  }

  private void exchange(int state, int at, int changesLeft, List<String> said) {
    String word = best.get(at);
    grammar.arcs(state).stream()
        .filter(arc -> !arc.word().equals(word) && soundsLike(word, arc.word()))
        .forEach(arc -> step(arc.target(), arc.word(), at + 1, changesLeft - 1, said));
  }

  private void leaveOut(int state, int at, int changesLeft, List<String> said) {
    if (isShort(best.get(at))) {
      explore(state, at + 1, changesLeft - 1, said);
    }
  }

  private void putIn(int state, int at, int changesLeft, List<String> said) {
    grammar.arcs(state).stream()
        .filter(arc -> isShort(arc.word()))
        .forEach(arc -> step(arc.target(), arc.word(), at, changesLeft - 1, said));
  }

  private void step(int target, String word, int at, int changesLeft, List<String> said) {
    if (target >= 0) {
      said.add(word);
      explore(target, at, changesLeft, said);
      said.remove(said.size() - 1);
    }
  }

  private boolean isShort(String word) {
    return lexicon.pronunciations(word).stream()
        .anyMatch(phones -> phones.split(" ").length <= SHORT_WORD_PHONES);
  }

  private boolean soundsLike(String a, String b) {
    return KNOWN_CONFUSIONS.stream().anyMatch(pair -> pair.contains(a) && pair.contains(b))
        || distance(a, b, lexicon) <= NEAR;
  }

  /**
   * How far apart two words sound: the least edits between any of their pronunciations (V. I.
   * Levenshtein, 1966), a vowel for a vowel or a consonant for a consonant counting half, divided
   * by the phones of the longer one. 0 is the same sound, 1 nothing in common.
   */
  static double distance(String a, String b, Lexicon lexicon) {
    return lexicon.pronunciations(a).stream()
        .flatMap(
            left ->
                lexicon.pronunciations(b).stream()
                    .map(right -> distance(left.split(" "), right.split(" "))))
        .min(Comparator.naturalOrder())
        .orElse(1.0);
  }

  private static double distance(String[] a, String[] b) {
    double[] row = new double[b.length + 1];
    Arrays.setAll(row, i -> i);
    for (String left : a) {
      double diagonal = row[0];
      row[0]++;
      for (int j = 1; j <= b.length; j++) {
        double above = row[j];
        row[j] = Math.min(diagonal + exchangeCost(left, b[j - 1]), 1 + Math.min(above, row[j - 1]));
        diagonal = above;
      }
    }
    return row[b.length] / Math.max(a.length, b.length);
  }

  private static double exchangeCost(String a, String b) {
    if (a.equals(b)) {
      return 0;
    }
    return VOWELS.contains(a) == VOWELS.contains(b) ? 0.5 : 1;
  }
}
