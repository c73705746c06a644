package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.audio.TestClips;
import tallyback.audio.WavSource;
import tallyback.phrase.WordGraph;
import tallyback.speech.CmuLexicon;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Meaning;
import tallyback.speech.Recogniser;
import tallyback.speech.Word;

class AttentionSearchTest {

  private static final Path CALLS = Path.of("src/test/resources/attention");
  private static Recogniser recogniser;

  @BeforeAll
  static void open() {
    recogniser = open(WordGraph.ofPhrases(List.of(List.of("toolmaker"))));
  }

  private static Recogniser open(WordGraph words) {
    return SphinxRecognisers.open(
        Map.of(ListeningMode.ATTENTION, words),
        CmuLexicon.load(),
        Meaning.literal(),
        ListeningSettings.defaults());
  }

  @AfterAll
  static void close() {
    recogniser.close();
  }

  private static Clip clip(String name) throws IOException {
    try (WavSource source = WavSource.open(CALLS.resolve(name))) {
      return source.readAll();
    }
  }

  private static Hearing hear(Clip clip) {
    return recogniser.hear(clip, ListeningMode.ATTENTION);
  }

  @Test
  void theWordIsFoundWithWhatItIsFollowedBy() throws IOException {
    for (String name : List.of("called.wav", "babble.wav")) {
      List<Word> words = hear(clip(name)).readings().get(0).words();
      assertEquals(1, words.size());
      assertEquals("toolmaker", words.get(0).text());
      assertTrue(words.get(0).startMs() > 400 && words.get(0).startMs() < 700, words.toString());
      assertTrue(words.get(0).endMs() > 1200 && words.get(0).endMs() < 1500, words.toString());
    }
  }

  @Test
  void itsTimesAreThoseOfTheStream() throws IOException {
    Clip clip = clip("called.wav");
    Word alone = hear(clip).readings().get(0).words().get(0);
    Word later = hear(new Clip(clip.samples(), 60_000)).readings().get(0).words().get(0);
    assertEquals(alone.startMs() + 60_000, later.startMs());
    assertEquals(alone.endMs() + 60_000, later.endMs());
  }

  @Test
  void otherSpeechHasNoWord() throws IOException {
    assertTrue(hear(clip("uncalled.wav")).isRejected());
    for (TestClips.Spoken spoken : TestClips.all()) {
      assertTrue(hear(spoken.clip()).isRejected(), spoken.said());
    }
  }

  @Test
  void theWordFurtherInIsSpokenOfAndNotCalledOut() throws IOException {
    Clip before = clip("uncalled.wav");
    Clip word = clip("called.wav");
    short[] joined = new short[before.length() + word.length()];
    System.arraycopy(before.samples(), 0, joined, 0, before.length());
    System.arraycopy(word.samples(), 0, joined, before.length(), word.length());
    assertTrue(hear(new Clip(joined, 0)).isRejected());
  }

  @Test
  void silenceHissAndScrapsHaveNoWord() {
    assertTrue(hear(new Clip(new short[32_000], 0)).isRejected());
    assertTrue(hear(new Clip(new short[100], 0)).isRejected());
    Random random = new Random(5);
    short[] hiss = new short[32_000];
    for (int i = 0; i < hiss.length; i++) {
      hiss[i] = (short) Math.round(300 * random.nextGaussian());
    }
    assertTrue(hear(new Clip(hiss, 0)).isRejected());
  }

  @Test
  void moreThanAWordIsRefused() {
    String message =
        assertThrows(
                IllegalArgumentException.class,
                () -> open(WordGraph.ofPhrases(List.of(List.of("tool", "maker")))))
            .getMessage();
    assertEquals(
        "attention: expected single words, found a phrase that goes on after tool", message);
  }
}
