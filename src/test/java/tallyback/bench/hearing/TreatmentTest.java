package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;

class TreatmentTest {

  /** A tone of a second in the middle of three seconds of white noise. */
  private static Clip toneInNoise(double hz) {
    Random random = new Random(4);
    short[] samples = new short[3 * Clip.SAMPLE_RATE_HZ];
    for (int i = 0; i < samples.length; i++) {
      double tone =
          i / Clip.SAMPLE_RATE_HZ == 1
              ? 8000 * Math.sin(2 * Math.PI * hz * i / Clip.SAMPLE_RATE_HZ)
              : 0;
      samples[i] = (short) (tone + 300 * random.nextGaussian());
    }
    return new Clip(samples, 0);
  }

  private static double levelDb(Clip clip, double fromSeconds, double toSeconds) {
    double sum = 0;
    int from = (int) (fromSeconds * Clip.SAMPLE_RATE_HZ);
    int to = (int) (toSeconds * Clip.SAMPLE_RATE_HZ);
    for (int i = from; i < to; i++) {
      sum += (double) clip.sample(i) * clip.sample(i);
    }
    return 10 * Math.log10(sum / (to - from) + 1e-9);
  }

  @Test
  void noiseIsTakenOutAndWhatStandsInItIsNot() {
    Clip noisy = toneInNoise(1000);
    Clip clean = Treatment.LOG_MMSE.of(noisy);

    assertEquals(noisy.length(), clean.length());
    assertEquals(levelDb(noisy, 1.2, 1.8), levelDb(clean, 1.2, 1.8), 0.5);
    double less = levelDb(noisy, 2.3, 2.9) - levelDb(clean, 2.3, 2.9);
    assertTrue(less > 12 && less < 21, "noise is less by " + less + " dB");
    double little =
        levelDb(noisy, 2.3, 2.9) - levelDb(Treatment.LOG_MMSE_LITTLE.of(noisy), 2.3, 2.9);
    assertTrue(little > 5 && little < 8.5, "noise is less by " + little + " dB");
  }

  @Test
  void bandsAreCut() {
    for (Treatment each : new Treatment[] {Treatment.NO_RUMBLE, Treatment.TELEPHONE}) {
      double low = levelDb(each.of(toneInNoise(60)), 1.2, 1.8);
      double middle = levelDb(each.of(toneInNoise(1000)), 1.2, 1.8);
      assertTrue(middle - low > 20, each + ": " + low + " and " + middle);
    }
    assertEquals(
        levelDb(toneInNoise(1000), 1.2, 1.8),
        levelDb(Treatment.TELEPHONE.of(toneInNoise(1000)), 1.2, 1.8),
        0.3);
  }
}
