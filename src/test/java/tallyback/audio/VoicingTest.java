package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class VoicingTest {

  private static final int WINDOW = SpeechDetector.windowSamples();
  private final Voicing voicing = new Voicing();

  private static short[] samples(java.util.function.IntToDoubleFunction sound) {
    short[] samples = new short[WINDOW];
    for (int i = 0; i < WINDOW; i++) {
      samples[i] = (short) Math.round(sound.applyAsDouble(i));
    }
    return samples;
  }

  /** Boersma's method gives 1 for what repeats exactly; five harmonics of 120 Hz do. */
  @Test
  void aToneWithItsHarmonicsIsWhollyRegular() {
    short[] vowel =
        samples(
            i -> {
              double sum = 0;
              for (int k = 1; k <= 5; k++) {
                sum += 1500 * Math.sin(2 * Math.PI * 120 * k * i / Clip.SAMPLE_RATE_HZ + k);
              }
              return sum;
            });
    assertEquals(1, voicing.of(vowel, 0), 0.05);
  }

  /**
   * His ratio: a share r of the power repeats, so that r / (1 - r) is harmonics to noise. Here the
   * noise is white, of which the band from 100 to 1,200 Hz holds 1,100 parts of 8,000.
   */
  @Test
  void theShareThatRepeatsIsMeasured() {
    Random random = new Random(3);
    double sum = 0;
    for (int run = 0; run < 50; run++) {
      double phase = random.nextDouble();
      short[] mixed =
          samples(
              i ->
                  3000 * Math.sin(2 * Math.PI * (200.0 * i / Clip.SAMPLE_RATE_HZ + phase))
                      + 3000 * Math.sqrt(0.5 * 8000 / 1100) * random.nextGaussian());
      sum += voicing.of(mixed, 0);
    }
    // Half of the power in the band; the highest of many chance peaks adds a little.
    assertEquals(0.55, sum / 50, 0.12);
  }

  @Test
  void hissIsNotVoicedAndSilenceIsNothing() {
    Random random = new Random(4);
    int voiced = 0;
    for (int run = 0; run < 200; run++) {
      voiced += voicing.of(samples(i -> 2000 * random.nextGaussian()), 0) > 0.8 ? 1 : 0;
    }
    assertTrue(voiced <= 4, voiced + " of 200");
    assertEquals(0, voicing.of(new short[WINDOW], 0), 1e-9);
    assertEquals(0, voicing.of(samples(i -> 12_000), 0), 1e-9, "an offset");
  }
}
