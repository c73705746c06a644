package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class NoiseReducerTest {

  /** Table 5.1 of the handbook that the approximation is from. */
  @Test
  void theExponentialIntegralIsThatOfTheTable() {
    assertEquals(0.559773595, NoiseReducer.exponentialIntegral(0.5), 1e-6);
    assertEquals(0.219383934, NoiseReducer.exponentialIntegral(1), 1e-6);
    assertEquals(0.048900511, NoiseReducer.exponentialIntegral(2), 1e-6);
    assertEquals(1.8229240, NoiseReducer.exponentialIntegral(0.1), 1e-6);
  }

  @Test
  void withoutNoiseNothingIsChanged() {
    short[] samples = new short[Clip.SAMPLE_RATE_HZ];
    for (int i = 4_000; i < 12_000; i++) {
      samples[i] = (short) (8000 * Math.sin(2 * Math.PI * 700 * i / Clip.SAMPLE_RATE_HZ));
    }
    Clip reduced = NoiseReducer.reduce(new Clip(samples, 70), -8);

    assertEquals(70, reduced.startMs());
    assertEquals(samples.length, reduced.length());
    for (int i = 5_000; i < 11_000; i++) {
      assertEquals(samples[i], reduced.sample(i), 80);
    }
  }

  /** Steady noise alone is turned down by as much as is allowed, all but what swells by chance. */
  @Test
  void noiseAloneIsTurnedDown() {
    Random random = new Random(1);
    short[] samples = new short[2 * Clip.SAMPLE_RATE_HZ];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) (500 * random.nextGaussian());
    }
    double before = power(new Clip(samples, 0));
    double lessDb = 10 * Math.log10(before / power(NoiseReducer.reduce(new Clip(samples, 0), -8)));
    assertTrue(lessDb > 6 && lessDb < 8.2, lessDb + " dB");
  }

  @Test
  void aClipOfNothingStaysOne() {
    assertEquals(0, NoiseReducer.reduce(new Clip(new short[0], 0), -8).length());
    assertEquals(5, NoiseReducer.reduce(new Clip(new short[5], 0), -8).length());
  }

  private static double power(Clip clip) {
    double sum = 0;
    for (int i = 0; i < clip.length(); i++) {
      sum += (double) clip.sample(i) * clip.sample(i);
    }
    return sum / clip.length();
  }
}
