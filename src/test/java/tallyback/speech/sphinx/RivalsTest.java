package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tallyback.phrase.WordGraph;
import tallyback.speech.CmuLexicon;

class RivalsTest {

  private static final SoundAlike SOUNDS = new SoundAlike(CmuLexicon.load());

  private static WordGraph grammar(String... phrases) {
    return WordGraph.ofPhrases(
        List.of(phrases).stream().map(phrase -> List.of(phrase.split(" "))).toList());
  }

  private static List<Set<List<String>>> rivals(String best, WordGraph grammar) {
    return Rivals.of(List.of(best.split(" ")), grammar, SOUNDS);
  }

  @ParameterizedTest
  @CsvSource({
    "fifteen litres, fifty litres",
    "thirteen litres, thirty litres",
    "seven litres, seventy litres",
    "two hundred mils, ten hundred mils",
    "eight litres, ten litres",
    "five litres, nine litres",
    "two point oh five litres, two point five litres",
    "two point five litres, two point oh five litres",
    "three hundred mils, three thousand mils",
    "five millimetres, five millilitres",
    "twenty two litres, twenty litres",
    "six litres, sixteen litres",
    "four two litres, forty litres",
    "seventy litres, seven two litres",
  })
  void findsWhatIsEasilyMistaken(String best, String rival) {
    List<Set<List<String>>> found = rivals(best, grammar(best, rival, "level at full"));
    assertEquals(1, found.size());
    assertTrue(found.get(0).contains(List.of(rival.split(" "))));
  }

  @Test
  void theReadingItselfIsNoRival() {
    Set<List<String>> found =
        rivals("fifteen litres", grammar("fifteen litres", "fifty litres")).get(0);
    assertFalse(found.contains(List.of("fifteen", "litres")));
  }

  @Test
  void onlyPhrasesOfTheGrammarAreRivals() {
    assertEquals(
        List.of(),
        rivals("fifteen litres", grammar("fifteen litres", "hand tight", "level at full")));
  }

  @Test
  void longerRivalsStandApartFromTheOthers() {
    List<Set<List<String>>> found =
        rivals("sixteen more", grammar("sixteen more", "sixty more", "sixty nine more"));
    assertEquals(2, found.size());
    assertTrue(found.get(0).contains(List.of("sixty", "more")));
    assertFalse(found.get(0).contains(List.of("sixty", "nine", "more")));
    assertTrue(found.get(1).contains(List.of("sixty", "nine", "more")));
  }

  @Test
  void aLongEntryHasABoundedNumberOfRivals() {
    WordGraph.Builder builder = new WordGraph.Builder();
    int more = builder.newState();
    for (String word :
        List.of(
            "one two three four five six seven eight nine ten oh and fifteen fifty".split(" "))) {
      builder.arc(builder.start(), word, more).arc(more, word, more);
    }
    WordGraph loop = builder.accept(more).build();
    Set<List<String>> found =
        rivals("one two three four five six seven eight nine ten one two three four", loop).get(0);
    assertTrue(found.size() <= 600, found.size() + " rivals");
  }

  @Test
  void sameSoundIsNoDistanceAndNothingInCommonIsFar() {
    assertEquals(0, SOUNDS.distance("two", "too"));
    assertTrue(SOUNDS.distance("fifteen", "fifty") < 0.2);
    assertTrue(SOUNDS.distance("grommet", "oh") > 0.7);
  }
}
