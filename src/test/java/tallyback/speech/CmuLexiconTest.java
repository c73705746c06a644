package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import edu.cmu.sphinx.linguist.acoustic.UnitManager;
import edu.cmu.sphinx.linguist.dictionary.Pronunciation;
import edu.cmu.sphinx.linguist.dictionary.TextDictionary;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class CmuLexiconTest {

  private static final CmuLexicon LEXICON = CmuLexicon.load();

  @Test
  void knowsWordsOfTheDictionaryWithAllTheirWays() {
    assertEquals(List.of("T AO R K"), LEXICON.pronunciations("torque"));
    assertEquals(
        List.of("HH AH N D R AH D", "HH AH N D R IH D"),
        LEXICON.pronunciations("hundred").subList(0, 2));
    assertEquals(List.of("DH AH", "DH IY"), LEXICON.pronunciations("the").subList(0, 2));
  }

  @Test
  void knowsTheWordsOfTheTradeThatTheDictionaryLacks() {
    String words =
        "torqued grommet preload preloaded retorque retorqued locknut circlip dipstick litre litres newtons tensioner splined"
            + " crankcase clevis earthed chocked offside nearside premix undertray threadlock capscrew setscrew"
            + " anticlockwise impeller refractometer jackstands o ring";
    for (String word : List.of(words.split(" "))) {
      assertTrue(LEXICON.knows(word), word);
      assertFalse(LEXICON.pronunciations(word).isEmpty(), word);
    }
    assertEquals(List.of("T AO R K T"), LEXICON.pronunciations("torqued"));
  }

  @Test
  void addsFurtherWaysOfSayingAKnownWord() {
    assertEquals(List.of("DH AW", "TH AW"), LEXICON.pronunciations("thou"));
  }

  @Test
  void doesNotKnowOtherWords() {
    for (String word : List.of("xyzzy", "o-ring", "", "the(2)", "torq", "Torque")) {
      assertFalse(LEXICON.knows(word), word);
      assertEquals(List.of(), LEXICON.pronunciations(word), word);
    }
  }

  @Test
  void takesWhatAPlanAdds() {
    CmuLexicon more =
        LEXICON.with(
            Map.of("orchardette", List.of("AO R CH ER D EH T"), "hose", List.of("HH OW S")));
    assertEquals(List.of("AO R CH ER D EH T"), more.pronunciations("orchardette"));
    assertEquals(List.of("HH OW Z", "HH OW S"), more.pronunciations("hose"));
    assertFalse(LEXICON.knows("orchardette"));
  }

  @Test
  void refusesWhatIsNoPhoneNamingAllOfThem() {
    String message =
        assertThrows(UnknownPhones.class, () -> LEXICON.with(Map.of("hose", List.of("HH OW1 ZED"))))
            .getMessage();
    assertEquals(
        "word \"hose\": expected ARPAbet phones without stress marks such as \"T AO R K\", found \"OW1 ZED\"",
        message);
    UnknownPhones nothing =
        assertThrows(UnknownPhones.class, () -> LEXICON.with(Map.of("hose", List.of(" "))));
    assertTrue(nothing.toString().endsWith("found nothing"), nothing.toString());
  }

  /** Checked against the recogniser library's own reader of the same dictionary. */
  @Test
  void agreesWithTheLibrarysReaderOnAllWordsOfTheTrade() throws Exception {
    URL words =
        Objects.requireNonNull(
            CmuLexicon.class.getResource("/edu/cmu/sphinx/models/en-us/cmudict-en-us.dict"));
    URL noises =
        Objects.requireNonNull(
            CmuLexicon.class.getResource("/edu/cmu/sphinx/models/en-us/en-us/noisedict"));
    TextDictionary library = new TextDictionary(words, noises, List.of(), null, new UnitManager());
    library.allocate();
    String text =
        "one two three four five six seven eight nine ten eleven twelve thirteen fifteen twenty fifty hundred thousand oh zero point and a"
            + " metres pounds degrees bolts nuts hose clamp gasket coolant radiator the of either data read route garage leaks";
    for (String word : List.of(text.split(" "))) {
      Set<String> expected =
          Arrays.stream(Objects.requireNonNull(library.getWord(word)).getPronunciations())
              .map(CmuLexiconTest::phones)
              .collect(Collectors.toSet());
      assertEquals(expected, new HashSet<>(LEXICON.pronunciations(word)), word);
    }
  }

  private static String phones(Pronunciation pronunciation) {
    return Arrays.stream(pronunciation.getUnits())
        .map(unit -> unit.getName())
        .collect(Collectors.joining(" "));
  }

  /** The index must not lose a word: looks up every one of the 126 thousand. */
  @Test
  void findsEveryWordOfTheDictionary() throws Exception {
    try (var in =
        Objects.requireNonNull(
            CmuLexicon.class.getResourceAsStream(
                "/edu/cmu/sphinx/models/en-us/cmudict-en-us.dict"))) {
      List<String> words =
          new String(in.readAllBytes(), StandardCharsets.US_ASCII)
              .lines()
              .map(line -> line.substring(0, line.indexOf(' ')))
              .toList();
      assertTrue(words.size() > 100_000);
      assertEquals(
          List.of(),
          words.stream()
              .filter(word -> !word.contains("("))
              .filter(word -> !LEXICON.knows(word))
              .toList());
    }
  }
}
