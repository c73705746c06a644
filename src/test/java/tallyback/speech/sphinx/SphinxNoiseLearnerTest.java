package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tallyback.app.BundledSpeech;
import tallyback.audio.Clip;
import tallyback.audio.NoiseMix;
import tallyback.audio.WavSource;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.PlanReader;
import tallyback.speech.CmuLexicon;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.NoiseLearner;
import tallyback.speech.adapt.NoiseModel;

/** Real recordings in real noise. */
class SphinxNoiseLearnerTest {

  private static final double SNR_DB = 10;

  private static List<Lesson> known;
  private static EntryGrammar grammar;
  private static NoiseLearner learner;
  private static Clip tap;
  private static NoiseModel learned;

  @BeforeAll
  static void learn() throws IOException, InterruptedException {
    known = BundledSpeech.read(CmuLexicon.load(), 15);
    grammar = EntryGrammar.of(PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow());
    learner =
        SphinxRecognisers.learner(known, grammar.entries(), CmuLexicon.load(), grammar::sense);
    try (WavSource source =
        WavSource.open(Path.of("src/test/resources/audio/noise/running_tap.wav"))) {
      tap = source.readAll();
    }
    learned = learner.learn(tap, SNR_DB, () -> {}).orElseThrow();
  }

  @Test
  void itIsCheckedOnWhatWasHeldBack() {
    NoiseModel.Check check = learned.check();

    assertTrue(check.clips() >= 2, check.toString());
    assertTrue(check.leadBefore() != check.leadAfter(), check.toString());
  }

  @Test
  void theSameLessonTeachesTheSame() throws InterruptedException {
    assertEquals(learned.check(), learner.learn(tap, SNR_DB, () -> {}).orElseThrow().check());
  }

  @Test
  void theNoiseIsKnownAgainAndAnotherIsNot() {
    short[] hum = new short[5 * Clip.SAMPLE_RATE_HZ];
    for (int i = 0; i < hum.length; i++) {
      hum[i] = (short) (3000 * Math.sin(2 * Math.PI * 100 * i / Clip.SAMPLE_RATE_HZ));
    }

    assertTrue(learner.isLike(learned, tap, SNR_DB));
    assertFalse(learner.isLike(learned, new Clip(hum, 0), SNR_DB));
    assertFalse(learner.isLike(learned, tap, SNR_DB + 15));
  }

  @Test
  void silenceTeachesNothing() throws InterruptedException {
    assertTrue(learner.learn(new Clip(new short[80_000], 0), SNR_DB, () -> {}).isEmpty());
    assertTrue(learner.learn(new Clip(new short[0], 0), SNR_DB, () -> {}).isEmpty());
  }

  @Test
  void aRecogniserUsesItInThatNoiseAndNowhereElse() {
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, grammar.entries()),
            CmuLexicon.load(),
            grammar::sense,
            RecogniserSettings.defaults())) {
      Clip clean = known.get(1).clip();
      Clip noisy =
          NoiseMix.mix(clean, NoiseMix.stretch(tap, clean.length(), new Random(3)), SNR_DB);
      Hearing cleanBefore = recogniser.hear(clean, ListeningMode.ENTRIES);
      Hearing noisyBefore = recogniser.hear(noisy, ListeningMode.ENTRIES);

      recogniser.use(List.of(learned));
      Hearing noisyAfter = recogniser.hear(noisy, ListeningMode.ENTRIES);

      assertEquals(score(cleanBefore), score(recogniser.hear(clean, ListeningMode.ENTRIES)));
      assertFalse(score(noisyBefore) == score(noisyAfter), "what was learned makes no difference");
      recogniser.use(List.of());
      assertEquals(score(noisyBefore), score(recogniser.hear(noisy, ListeningMode.ENTRIES)));
    }
  }

  private static double score(Hearing hearing) {
    return hearing.readings().get(0).logScore();
  }

  @Test
  void whatAnotherLearnerLearnedIsRefused() {
    NoiseModel strange = () -> new NoiseModel.Check(0, 0, 0, 0, 0);
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, grammar.entries()),
            CmuLexicon.load(),
            grammar::sense,
            RecogniserSettings.defaults())) {
      assertThrows(IllegalArgumentException.class, () -> recogniser.use(List.of(strange)));
    }
  }
}
