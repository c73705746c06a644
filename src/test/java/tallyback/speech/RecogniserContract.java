package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import tallyback.audio.Clip;
import tallyback.audio.TestClips;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;

/** What every recogniser must do; an adapter's test extends it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
public abstract class RecogniserContract {

  protected static final Lexicon LEXICON = CmuLexicon.load();

  protected static final List<TestClips.Spoken> SPOKEN = TestClips.all();

  private Recogniser recogniser;

  /** Opens the recogniser under test. */
  protected abstract Recogniser open(
      Map<ListeningMode, WordGraph> grammars, Lexicon lexicon, RecogniserSettings settings);

  /** What is said in the test clips, and much beside it that sounds alike. */
  protected static WordGraph entries() {
    List<List<String>> phrases = new ArrayList<>();
    List<String> counts =
        List.of(
            "one two three four five six seven eight nine ten fifteen sixteen fifty sixty"
                .split(" "));
    String[] places = {"block plug", "splash guard", "belt guard", "side cover"};
    for (String count : counts) {
      add(phrases, "step " + count + " done");
      add(phrases, "step " + count + " skipped");
      add(phrases, "scratch that " + count + " not sixty");
      for (String place : places) {
        for (String head : List.of("eight", "ten", "thirteen")) {
          add(phrases, count + " bolts " + head + " millimetre out of the " + place);
        }
        add(phrases, "drained " + count + " point one litres from the " + place);
        add(phrases, "drained " + count + " point nine litres from the " + place);
      }
    }
    for (String value : List.of("fifteen fifty sixteen sixty nineteen ninety".split(" "))) {
      for (String unit : List.of("newton metres", "foot pounds", "inch pounds")) {
        add(phrases, "torqued the hub nuts to " + value + " " + unit);
        add(phrases, "torqued the outlet nuts to " + value + " " + unit);
      }
    }
    for (String place : places) {
      add(phrases, "new o ring on the " + place);
      add(phrases, "the " + place + " is off");
    }
    add(phrases, "the grommet is off");
    return WordGraph.ofPhrases(phrases);
  }

  private static void add(List<List<String>> phrases, String text) {
    phrases.add(List.of(text.split(" ")));
  }

  protected static WordGraph answers() {
    return WordGraph.ofPhrases(
        List.of(List.of("yes"), List.of("no"), List.of("step", "seven", "done")));
  }

  @BeforeAll
  void openForAll() {
    recogniser = open(both(), LEXICON, RecogniserSettings.defaults());
  }

  private static Map<ListeningMode, WordGraph> both() {
    Map<ListeningMode, WordGraph> grammars = new EnumMap<>(ListeningMode.class);
    grammars.put(ListeningMode.ENTRIES, entries());
    grammars.put(ListeningMode.ANSWERS, answers());
    return grammars;
  }

  @AfterAll
  void closeAfterAll() {
    recogniser.close();
  }

  private static String best(Hearing hearing) {
    return hearing.isRejected() ? "(rejected)" : hearing.readings().get(0).line();
  }

  private String hear(Clip clip) {
    return best(recogniser.hear(clip, ListeningMode.ENTRIES));
  }

  @Test
  void hearsTenClips() {
    List<TestClips.Spoken> ten = SPOKEN.subList(0, 10);
    List<String> said = ten.stream().map(TestClips.Spoken::said).toList();
    assertEquals(said, ten.stream().map(spoken -> hear(spoken.clip())).toList());
  }

  /** "Nineteen newton" and "ninety newton" sound the same: the n is said once. */
  @Test
  void whatSoundsTheSameIsAskedAndBothAreNamed() {
    Hearing hearing = recogniser.hear(SPOKEN.get(10).clip(), ListeningMode.ENTRIES);
    assertEquals(Judgement.ASK, ByTrust.defaults().judge(hearing));
    assertEquals(
        List.of(
            "torqued the outlet nuts to nineteen newton metres",
            "torqued the outlet nuts to ninety newton metres"),
        hearing.readings().stream().map(Reading::line).sorted().toList());
  }

  @Test
  void everyReadingIsAPhraseOfTheGrammar() {
    WordGraph grammar = entries();
    for (TestClips.Spoken spoken : SPOKEN) {
      for (Reading reading : recogniser.hear(spoken.clip(), ListeningMode.ENTRIES).readings()) {
        assertTrue(grammar.accepts(reading.texts()), reading.line());
      }
    }
  }

  @Test
  void namesTheRivalThatIsMostEasilyMistaken() {
    Hearing hearing = recogniser.hear(SPOKEN.get(5).clip(), ListeningMode.ENTRIES);
    assertEquals("torqued the hub nuts to fifteen foot pounds", hearing.readings().get(0).line());
    assertEquals("torqued the hub nuts to fifty foot pounds", hearing.readings().get(1).line());
    assertTrue(hearing.readings().get(0).logScore() > hearing.readings().get(1).logScore());
  }

  @Test
  void wordTimesLieInTheClipInOrder() {
    Clip inStream = new Clip(SPOKEN.get(0).clip().samples(), 60_000);
    Reading reading = recogniser.hear(inStream, ListeningMode.ENTRIES).readings().get(0);
    long before = inStream.startMs();
    for (Word word : reading.words()) {
      assertTrue(word.startMs() >= before && word.endMs() > word.startMs(), word.toString());
      before = word.endMs();
    }
    assertTrue(before <= inStream.endMs());
  }

  @Test
  void hearsTheSameInEveryOrderAndAgain() {
    List<TestClips.Spoken> shuffled = new ArrayList<>(SPOKEN);
    Collections.shuffle(shuffled, new Random(3));
    for (TestClips.Spoken spoken : SPOKEN.subList(3, 6)) {
      double once =
          recogniser.hear(spoken.clip(), ListeningMode.ENTRIES).readings().get(0).logScore();
      recogniser.hear(shuffled.get(0).clip(), ListeningMode.ENTRIES);
      recogniser.hear(shuffled.get(1).clip(), ListeningMode.ANSWERS);
      double again =
          recogniser.hear(spoken.clip(), ListeningMode.ENTRIES).readings().get(0).logScore();
      assertEquals(once, again, 0, spoken.said());
    }
  }

  @Test
  void eachModeHasItsOwnGrammar() {
    Clip stepSeven = SPOKEN.get(4).clip();
    assertEquals("step seven done", best(recogniser.hear(stepSeven, ListeningMode.ANSWERS)));
    assertEquals("(rejected)", best(recogniser.hear(SPOKEN.get(0).clip(), ListeningMode.ANSWERS)));
  }

  @Test
  void speechOutsideTheGrammarIsRejected() {
    WordGraph other =
        WordGraph.ofPhrases(
            List.of(
                List.of("guards", "on"),
                List.of("battery", "disconnected"),
                List.of("no", "leak")));
    try (Recogniser narrow =
        open(Map.of(ListeningMode.ENTRIES, other), LEXICON, RecogniserSettings.defaults())) {
      for (TestClips.Spoken spoken : SPOKEN) {
        assertEquals(
            "(rejected)", best(narrow.hear(spoken.clip(), ListeningMode.ENTRIES)), spoken.said());
      }
    }
  }

  @Test
  void scoresGivenWordsWhetherOrNotAGrammarAllowsThem() {
    TestClips.Spoken spoken = SPOKEN.get(6);
    List<List<String>> candidates =
        List.of(
            spoken.words(),
            List.of("torqued", "the", "hub", "nuts", "to", "fifteen", "foot", "pounds"),
            List.of("no", "leak", "at", "idle"));
    List<ScoredCandidate> scored = recogniser.score(spoken.clip(), candidates);
    assertEquals(candidates, scored.stream().map(ScoredCandidate::words).toList());
    assertTrue(scored.get(0).logScore() > scored.get(1).logScore());
    assertTrue(scored.get(1).logScore() > scored.get(2).logScore());
  }

  @Test
  void aScoreOfTheWordsHeardIsTheScoreOfTheReading() {
    TestClips.Spoken spoken = SPOKEN.get(2);
    Reading heard = recogniser.hear(spoken.clip(), ListeningMode.ENTRIES).readings().get(0);
    assertEquals(
        heard.logScore(),
        recogniser.score(spoken.clip(), List.of(heard.texts())).get(0).logScore(),
        0.5);
  }

  @Test
  void unknownWordsAreRefusedByNameAllAtOnce() {
    WordGraph grammar =
        WordGraph.ofPhrases(List.of(List.of("torqued", "the", "blimf"), List.of("frobbed", "it")));
    UnknownWords refused =
        assertThrows(
            UnknownWords.class,
            () ->
                open(
                    Map.of(ListeningMode.ENTRIES, grammar),
                    LEXICON,
                    RecogniserSettings.defaults()));
    assertEquals(List.of("blimf", "frobbed"), refused.words());
    assertThrows(
        UnknownWords.class,
        () -> recogniser.score(SPOKEN.get(0).clip(), List.of(List.of("blimf"))));
  }

  @Test
  void digitalSilenceFirstPoisonsNothing() {
    try (Recogniser fresh =
        open(Map.of(ListeningMode.ENTRIES, entries()), LEXICON, RecogniserSettings.defaults())) {
      for (int i = 0; i < 3; i++) {
        assertTrue(fresh.hear(new Clip(new short[32_000], 0), ListeningMode.ENTRIES).isRejected());
      }
      assertEquals(
          SPOKEN.get(4).said(), best(fresh.hear(SPOKEN.get(4).clip(), ListeningMode.ENTRIES)));
    }
  }

  @Test
  void noClipIsTooShortTooLoudOrTooStrange() {
    Random random = new Random(4);
    for (int length : new int[] {0, 1, 160, 409, 411, 800, 1_600, 2_000}) {
      assertTrue(
          recogniser.hear(new Clip(new short[length], 0), ListeningMode.ENTRIES).isRejected(),
          length + " samples");
    }
    short[] roar = new short[48_000];
    short[] square = new short[48_000];
    for (int i = 0; i < roar.length; i++) {
      roar[i] = (short) random.nextInt();
      square[i] = i / 80 % 2 == 0 ? Short.MAX_VALUE : Short.MIN_VALUE;
    }
    assertEquals("(rejected)", hear(new Clip(roar, 0)));
    assertEquals("(rejected)", hear(new Clip(square, 0)));
    assertEquals(SPOKEN.get(1).said(), hear(SPOKEN.get(1).clip()));
  }

  @Test
  void aPauseInsideAnEntryInventsNoWords() {
    short[] spoken = SPOKEN.get(1).clip().samples();
    Word bolts =
        recogniser
            .hear(SPOKEN.get(1).clip(), ListeningMode.ENTRIES)
            .readings()
            .get(0)
            .words()
            .get(1);
    int at = (int) bolts.endMs() * 16;
    short[] paused = Arrays.copyOf(spoken, spoken.length + 8_000);
    System.arraycopy(spoken, at, paused, at + 8_000, spoken.length - at);
    Arrays.fill(paused, at, at + 8_000, (short) 0);
    assertEquals(SPOKEN.get(1).said(), hear(new Clip(paused, 0)));
  }

  @Test
  void aPhraseThatBreaksOffIsNotHeardAsAWhole() {
    short[] spoken = SPOKEN.get(0).clip().samples();
    Hearing hearing =
        recogniser.hear(
            new Clip(Arrays.copyOf(spoken, spoken.length / 4), 0), ListeningMode.ENTRIES);
    assertTrue(ByTrust.defaults().judge(hearing) != Judgement.NOTE, best(hearing));
  }

  @Test
  void aWordNotInTheGrammarIsNotSilentlyReplaced() {
    WordGraph withoutPounds =
        WordGraph.ofPhrases(
            List.of(
                List.of("torqued", "the", "hub", "nuts", "to", "fifteen", "newton", "metres"),
                List.of("torqued", "the", "hub", "nuts", "to", "sixty", "degrees")));
    try (Recogniser narrow =
        open(
            Map.of(ListeningMode.ENTRIES, withoutPounds), LEXICON, RecogniserSettings.defaults())) {
      Hearing hearing = narrow.hear(SPOKEN.get(5).clip(), ListeningMode.ENTRIES);
      assertTrue(ByTrust.defaults().judge(hearing) != Judgement.NOTE, best(hearing));
    }
  }

  @Test
  void aThreadThatIsNotTheOwnerIsRefused() throws InterruptedException {
    hear(SPOKEN.get(4).clip());
    AtomicReference<Throwable> thrown = new AtomicReference<>();
    Thread other =
        new Thread(
            () -> {
              try {
                hear(SPOKEN.get(4).clip());
              } catch (IllegalStateException e) {
                thrown.set(e);
              }
            });
    other.start();
    other.join();
    assertTrue(
        String.valueOf(thrown.get()).contains("this recogniser belongs to thread"),
        String.valueOf(thrown.get()));
  }

  @Test
  void aClosedRecogniserRefusesAndClosesAgainQuietly() {
    Recogniser closed =
        open(Map.of(ListeningMode.ANSWERS, answers()), LEXICON, RecogniserSettings.defaults());
    closed.close();
    closed.close();
    assertThrows(
        IllegalStateException.class,
        () -> closed.hear(SPOKEN.get(0).clip(), ListeningMode.ANSWERS));
  }

  @Test
  void aModeThatWasNotOpenedIsRefused() {
    try (Recogniser answersOnly =
        open(Map.of(ListeningMode.ANSWERS, answers()), LEXICON, RecogniserSettings.defaults())) {
      assertThrows(
          IllegalArgumentException.class,
          () -> answersOnly.hear(SPOKEN.get(0).clip(), ListeningMode.ENTRIES));
    }
  }

  @Test
  void aGrammarWithALoopIsHeardToItsEnd() {
    WordGraph.Builder builder = new WordGraph.Builder();
    int more = builder.newState();
    for (String word :
        List.of(
            "six bolts ten eight five nine millimetre out of the splash guard belt".split(" "))) {
      builder.arc(builder.start(), word, more).arc(more, word, more);
    }
    try (Recogniser free =
        open(
            Map.of(ListeningMode.ENTRIES, builder.accept(more).build()),
            LEXICON,
            RecogniserSettings.defaults())) {
      Hearing hearing = free.hear(SPOKEN.get(1).clip(), ListeningMode.ENTRIES);
      assertFalse(hearing.isRejected());
      assertTrue(
          best(hearing).startsWith("six bolts ten millimetre out of the splash"), best(hearing));
    }
  }
}
