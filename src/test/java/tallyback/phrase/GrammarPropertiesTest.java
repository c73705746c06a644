package tallyback.phrase;

import static java.util.Objects.requireNonNull;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Random small grammars against the plain meaning of each construct, written out phrase by phrase.
 */
class GrammarPropertiesTest {

  private static final int GRAMMARS = 150;
  private static final int MOST_WORDS = 5;
  private static final List<String> WORDS = List.of("red", "green", "blue");

  private interface Check {
    void on(String text, List<JsgfFile> files, CompiledGrammar grammar);
  }

  /** Each grammar is made from a seed of its own, which stands in the message when it fails. */
  private static void forRandomGrammars(Check check) {
    for (int seed = 1; seed <= GRAMMARS; seed++) {
      String text = RandomGrammar.text(new Random(seed));
      List<JsgfFile> files = List.of(JsgfReader.read("seed" + seed, text));
      try {
        check.on(text, files, CompiledGrammar.compile(files, "r0"));
      } catch (AssertionError | RuntimeException failed) {
        throw new AssertionError("seed " + seed + "\n" + text, failed);
      }
    }
  }

  private static List<List<String>> allPhrases(int mostWords) {
    List<List<String>> all = new ArrayList<>(List.of(List.of()));
    for (int from = 0, words = 0; words < mostWords; words++) {
      int to = all.size();
      for (; from < to; from++) {
        for (String word : WORDS) {
          List<String> longer = new ArrayList<>(all.get(from));
          longer.add(word);
          all.add(longer);
        }
      }
    }
    return all;
  }

  @Test
  void parsesAreExactlyTheReadings() {
    List<List<String>> phrases = allPhrases(MOST_WORDS);
    forRandomGrammars(
        (text, files, grammar) -> {
          Map<String, Set<String>> expected =
              Enumerated.readings(files.get(0).rules(), "r0", MOST_WORDS);
          Map<String, Set<String>> found = new TreeMap<>();
          for (List<String> phrase : phrases) {
            List<Parse> parses = grammar.parse(phrase);
            Set<String> shown = new HashSet<>();
            parses.forEach(
                parse ->
                    assertTrue(shown.add(parse.toString()), "the same reading twice: " + parse));
            if (!parses.isEmpty()) {
              found.put(String.join(" ", phrase), shown);
            }
          }
          assertEquals(expected.keySet(), found.keySet());
          expected.forEach(
              (phrase, readings) -> {
                if (readings.size() <= 16) {
                  assertEquals(readings, found.get(phrase), phrase);
                } else {
                  assertEquals(16, requireNonNull(found.get(phrase)).size(), phrase);
                }
              });
        });
  }

  @Test
  void graphAcceptsExactlyWhatIsParsed() {
    List<List<String>> phrases = allPhrases(MOST_WORDS);
    forRandomGrammars(
        (text, files, grammar) ->
            phrases.forEach(
                phrase ->
                    assertEquals(
                        !grammar.parse(phrase).isEmpty(),
                        grammar.graph().accepts(phrase),
                        phrase.toString())));
  }

  @Test
  void graphIsMinimal() {
    forRandomGrammars((text, files, grammar) -> assertMinimal(grammar.graph()));
  }

  /**
   * By filling in the table of pairs that some rest tells apart (E. F. Moore, 1956): every pair
   * must be told apart.
   */
  private static void assertMinimal(WordGraph graph) {
    int states = graph.stateCount();
    boolean[][] apart = new boolean[states][states];
    boolean grown = true;
    while (grown) {
      grown = false;
      for (int a = 0; a < states; a++) {
        for (int b = 0; b < a; b++) {
          if (!apart[a][b] && toldApart(graph, a, b, apart)) {
            apart[a][b] = true;
            apart[b][a] = true;
            grown = true;
          }
        }
      }
    }
    for (int a = 0; a < states; a++) {
      for (int b = 0; b < a; b++) {
        assertTrue(apart[a][b], "states " + b + " and " + a + " accept the same rests");
      }
    }
    Set<Integer> reached = new TreeSet<>(Set.of(graph.start()));
    for (boolean more = true; more; ) {
      more = false;
      for (int state : List.copyOf(reached)) {
        for (WordGraph.Arc arc : graph.arcs(state)) {
          more |= reached.add(arc.target());
        }
      }
    }
    assertEquals(states, reached.size(), "states that can be reached");
    for (int state = 0; state < states; state++) {
      assertTrue(
          graph.isFinal(state) || !graph.arcs(state).isEmpty(),
          "state " + state + " leads nowhere");
    }
  }

  private static boolean toldApart(WordGraph graph, int a, int b, boolean[][] apart) {
    if (graph.isFinal(a) != graph.isFinal(b)) {
      return true;
    }
    for (String word : WORDS) {
      int afterA = graph.next(a, word);
      int afterB = graph.next(b, word);
      if ((afterA < 0) != (afterB < 0) || (afterA >= 0 && apart[afterA][afterB])) {
        return true;
      }
    }
    return false;
  }

  @Test
  void ambiguityIsFoundExactlyWhereThereIsSome() {
    int[] ambiguous = new int[2];
    forRandomGrammars(
        (text, files, grammar) -> {
          List<TwoReadings.Witness> witnesses = TwoReadings.in(grammar.transducer(), 20);
          ambiguous[witnesses.isEmpty() ? 0 : 1]++;
          Set<String> shared = new TreeSet<>();
          Enumerated.readings(files.get(0).rules(), "r0", MOST_WORDS)
              .forEach(
                  (phrase, readings) -> {
                    if (readings.size() > 1) {
                      shared.add(phrase);
                    }
                  });
          assertTrue(!witnesses.isEmpty() || shared.isEmpty(), "missed: " + shared);
          witnesses.forEach(witness -> assertIsShared(files, witness));
          assertEquals(witnesses.size(), GrammarLint.check(files, "r0").size());
        });
    assertTrue(
        ambiguous[0] > 30 && ambiguous[1] > 30,
        "grammars without and with ambiguity: " + Arrays.toString(ambiguous));
  }

  private static void assertIsShared(List<JsgfFile> files, TwoReadings.Witness witness) {
    assertFalse(witness.first().equals(witness.second()), witness.toString());
    if (witness.phrase().size() <= MOST_WORDS) {
      Map<String, Set<String>> readings =
          Enumerated.readings(files.get(0).rules(), "r0", witness.phrase().size());
      Set<String> ofPhrase = readings.getOrDefault(String.join(" ", witness.phrase()), Set.of());
      assertTrue(
          ofPhrase.containsAll(Set.of(witness.first().toString(), witness.second().toString())),
          witness.toString());
    }
  }

  @Test
  void exportSaysTheSame() {
    List<List<String>> phrases = allPhrases(4);
    forRandomGrammars(
        (text, files, grammar) -> {
          JsgfFile exported = JsgfReader.read("export", grammar.toJsgf());
          assertEquals(List.of(), exported.faults());
          CompiledGrammar again = CompiledGrammar.compile(List.of(exported), "r0");
          phrases.forEach(
              phrase ->
                  assertEquals(
                      Set.copyOf(grammar.parse(phrase)),
                      Set.copyOf(again.parse(phrase)),
                      phrase.toString()));
        });
  }

  @Test
  void madePhrasesAreParsedAndCoverEveryArc() {
    forRandomGrammars(
        (text, files, grammar) -> {
          PhraseMaker maker = new PhraseMaker(grammar, new Random(text.hashCode()));
          List<List<String>> made = new ArrayList<>();
          for (int i = 0; i < 30; i++) {
            made.add(maker.next());
          }
          made.addAll(maker.restOfCoverage());
          made.forEach(phrase -> assertFalse(grammar.parse(phrase).isEmpty(), phrase.toString()));
          assertEquals(maker.coverage().arcs(), maker.coverage().arcsCovered());
        });
  }
}
