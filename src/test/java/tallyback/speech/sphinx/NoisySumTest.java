package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class NoisySumTest {

  private static final int FILTERS = 25;
  private static final int SIZE = 13;
  private static final double[] NONE = new double[SIZE];

  private final MelCepstrum mel = new MelCepstrum(FILTERS, SIZE, 22);
  private final NoisySum sum = new NoisySum(mel);

  private static double[] filled(double value) {
    double[] filled = new double[SIZE];
    Arrays.fill(filled, value);
    return filled;
  }

  /** The cepstrum of a spectrum that has the same log power in every filter. */
  private double[] flat(double logPower) {
    double[] spectrum = new double[FILTERS];
    Arrays.fill(spectrum, logPower);
    return mel.toCepstrum(spectrum);
  }

  @Test
  void faintNoiseLeavesSpeechAsItIs() {
    sum.add(NONE, filled(3), new Surroundings(flat(-20), filled(1), flat(10)));

    assertEquals(flat(10)[0], sum.mean(0), 1e-6);
    assertEquals(3, sum.variance(5), 1e-6);
  }

  @Test
  void loudNoiseHidesSpeechAltogether() {
    sum.add(NONE, filled(3), new Surroundings(flat(50), filled(1), flat(10)));

    assertEquals(flat(50)[0], sum.mean(0), 1e-6);
    assertEquals(1, sum.variance(5), 1e-6);
  }

  @Test
  void asMuchNoiseAsSpeechIsTwiceThePowerInEachFilter() {
    sum.add(NONE, filled(4), new Surroundings(flat(7), filled(4), flat(7)));

    assertEquals(flat(7 + Math.log(2))[0], sum.mean(0), 1e-6);
    assertEquals(0, sum.mean(1), 1e-6);
    assertEquals(2, sum.variance(0), 1e-6, "half of each: a quarter of both variances");
  }

  @Test
  void theGainIsTheSlopeOfTheMean() {
    Random random = new Random(3);
    double[] noise = random.doubles(SIZE, -3, 3).toArray();
    double[] speech = random.doubles(SIZE, -3, 3).toArray();
    double[] clean = random.doubles(SIZE, -3, 3).toArray();
    Surroundings around = new Surroundings(noise, filled(1), speech);
    double small = 1e-5;
    for (int k = 0; k < SIZE; k++) {
      double[] up = clean.clone();
      up[k] += small;
      double[] down = clean.clone();
      down[k] -= small;
      for (int i = 0; i < SIZE; i++) {
        sum.add(up, filled(1), around);
        double above = sum.mean(i);
        sum.add(down, filled(1), around);
        double below = sum.mean(i);
        assertEquals((above - below) / (2 * small), sum.gainOfSpeech(i, k), 1e-4);
      }
    }
  }
}
