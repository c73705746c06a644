package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.phrase.WordGraph;
import tallyback.speech.CmuLexicon;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.UnknownWords;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.ProfileOfAnotherModel;
import tallyback.speech.adapt.TeachableRecogniser;
import tallyback.speech.adapt.VoiceProfile;
import tallyback.voice.Voice;
import tallyback.voice.freetts.FreeTtsVoice;

/** The real recogniser is taught the voice that the program itself speaks with. */
class TaughtVoiceTest {

  private static final List<String> LINES =
      List.of(
          "six bolts ten millimetre out of the splash guard",
          "torqued the outlet nuts to nineteen newton metres",
          "drained two point one litres from the block plug",
          "engine hood back on",
          "took off the fan shroud",
          "battery voltage thirteen point four",
          "idling at eight hundred and fifty revs",
          "reused the copper washer");

  private static final String HELD_BACK = "three of the shroud screws back on";

  private static TeachableRecogniser recogniser;
  private static List<Lesson> lessons;
  private static Lesson heldBack;

  @BeforeAll
  static void speak() {
    List<String> all = new ArrayList<>(LINES);
    all.add(HELD_BACK);
    try (Voice voice = FreeTtsVoice.open()) {
      lessons = new ArrayList<>();
      LINES.forEach(line -> lessons.add(new Lesson(inRoom(voice.speak(line)), words(line))));
      heldBack = new Lesson(inRoom(voice.speak(HELD_BACK)), words(HELD_BACK));
    }
    recogniser =
        SphinxRecognisers.open(
            Map.of(
                ListeningMode.ENTRIES,
                WordGraph.ofPhrases(all.stream().map(TaughtVoiceTest::words).toList())),
            CmuLexicon.load(),
            RecogniserSettings.defaults());
  }

  @AfterAll
  static void close() {
    recogniser.close();
  }

  private static List<String> words(String line) {
    return List.of(line.split(" ", -1));
  }

  private static Clip inRoom(Clip spoken) {
    Random random = new Random(1);
    int margin = Clip.SAMPLE_RATE_HZ / 4;
    short[] samples = new short[spoken.length() + 2 * margin];
    for (int i = 0; i < samples.length; i++) {
      int said = i >= margin && i < margin + spoken.length() ? spoken.sample(i - margin) : 0;
      samples[i] =
          (short)
              Math.max(
                  Short.MIN_VALUE,
                  Math.min(Short.MAX_VALUE, said + Math.round(20 * random.nextGaussian())));
    }
    return new Clip(samples, 0);
  }

  private static double fit(Lesson lesson) {
    return recogniser.follow(lesson).orElseThrow().fit();
  }

  private static Hearing hear() {
    return recogniser.hear(heldBack.clip(), ListeningMode.ENTRIES);
  }

  @Test
  void aVoiceThatWasTaughtFitsBetterInALineThatWasHeldBack() {
    double before = fit(heldBack);
    recogniser.expect(recogniser.learn(lessons));
    double after = fit(heldBack);
    assertEquals(HELD_BACK, hear().readings().get(0).line());
    recogniser.expect(null);
    assertTrue(after > before + 5, "fit " + before + " before, " + after + " after");
  }

  @Test
  void anybodyIsHeardAsBeforeAfterwards() {
    Hearing before = hear();
    VoiceProfile voice = recogniser.learn(lessons);
    assertEquals(before, hear(), "learning alone changes nothing");
    recogniser.expect(voice);
    assertNotEquals(before, hear());
    recogniser.expect(null);
    assertEquals(before, hear());
  }

  @Test
  void theSameLessonsTeachTheSame() {
    VoiceProfile once = recogniser.learn(lessons);
    recogniser.expect(once);
    try {
      assertEquals(once, recogniser.learn(lessons));
    } finally {
      recogniser.expect(null);
    }
  }

  @Test
  void wordsThatWereNotSaidFitFarWorse() {
    for (Lesson lesson : lessons) {
      double right = fit(lesson);
      double wrong =
          recogniser
              .follow(new Lesson(lesson.clip(), heldBack.words()))
              .map(reading -> reading.fit())
              .orElse(Double.NEGATIVE_INFINITY);
      assertTrue(right > wrong + 100, lesson.words() + ": " + right + " and " + wrong);
    }
  }

  @Test
  void aVoiceLearnedWithAnotherModelIsRefused() {
    VoiceProfile voice = recogniser.learn(lessons.subList(0, 2));
    VoiceProfile other = new VoiceProfile("another", voice.maps(), voice.shifts());
    assertThrows(ProfileOfAnotherModel.class, () -> recogniser.expect(other));
    VoiceProfile misshapen =
        new VoiceProfile(voice.model(), voice.maps().subList(0, 1), voice.shifts().subList(0, 1));
    assertThrows(IllegalArgumentException.class, () -> recogniser.expect(misshapen));
  }

  @Test
  void fromNothingNothingIsLearned() {
    assertThrows(IllegalArgumentException.class, () -> recogniser.learn(List.of()));
    Lesson click = new Lesson(new Clip(new short[400], 0), heldBack.words());
    assertThrows(IllegalArgumentException.class, () -> recogniser.learn(List.of(click)));
    assertThrows(
        UnknownWords.class,
        () -> recogniser.learn(List.of(new Lesson(heldBack.clip(), List.of("xyzzyx")))));
  }
}
