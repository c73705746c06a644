package tallyback.voice.freetts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.app.Ear;
import tallyback.app.LoadedPlan;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.voice.Voice;

class FreeTtsVoiceTest {

  private static final int MARGIN = Clip.SAMPLE_RATE_HZ / 4;

  /** Somebody must understand it: the recogniser, which knows nothing of the words beforehand. */
  @Test
  void whatItSaysIsUnderstood() {
    LoadedPlan plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    try (Voice voice = FreeTtsVoice.open();
        Ear ear = Ear.open(plan, null)) {
      for (String words :
          List.of(
              "six bolts off the belly pan",
              "drained two point one liters from the block plug",
              "Pump bolts back on")) {
        Ear.Heard heard = ear.entry(withMargins(voice.speak(words)));
        assertEquals(
            words.toLowerCase(java.util.Locale.ROOT).replace("liters", "litres"),
            heard.readings().isEmpty() ? "" : heard.readings().get(0));
      }
    }
  }

  private static Clip withMargins(Clip clip) {
    short[] samples = new short[clip.length() + 2 * MARGIN];
    System.arraycopy(clip.samples(), 0, samples, MARGIN, clip.length());
    return new Clip(samples, 0);
  }

  @Test
  void itSaysTheSameAlikeAndOtherThingsOtherwise() {
    try (Voice voice = FreeTtsVoice.open()) {
      Clip fifteen = voice.speak("one five, fifteen newton meters");
      assertEquals(fifteen, voice.speak("one five, fifteen newton meters"));
      assertNotEquals(fifteen, voice.speak("five oh, fifty newton meters"));
      assertTrue(fifteen.durationMs() > 1000 && fifteen.durationMs() < 5000);
      double loud = LevelMeter.measure(fifteen).activeDbfs();
      assertTrue(loud > -30 && loud < -6, "active level " + loud);
    }
  }

  @Test
  void nothingIsNoSound() {
    try (Voice voice = FreeTtsVoice.open()) {
      assertEquals(0, voice.speak("").length());
      assertEquals(0, voice.speak("  ").length());
    }
  }
}
