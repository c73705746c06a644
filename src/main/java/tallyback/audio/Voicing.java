package tallyback.audio;

import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;

/**
 * How regular the vibration in a short stretch of sound is: the highest peak of the autocorrelation
 * at the pitches of the human voice, divided by the autocorrelation of the window, after P.
 * Boersma, <cite>Accurate short-term analysis of the fundamental frequency and the
 * harmonics-to-noise ratio of a sampled sound</cite>, IFA Proceedings 17 (1993). Vowels come near
 * to 1; hissing, hammering and rumbling noises stay below two thirds.
 *
 * <p>Thread rule: one thread.
 */
final class Voicing {

  private static final int WINDOW = SpeechDetector.windowSamples();
  private static final int PADDED = 2 * WINDOW;

  /** The first harmonics of a voice, where it is stronger than most noise. */
  private static final double LOWEST_HZ = 100;

  private static final double HIGHEST_HZ = 1_200;
  private static final int SHORTEST_PERIOD = Clip.SAMPLE_RATE_HZ / 400;
  private static final int LONGEST_PERIOD = Clip.SAMPLE_RATE_HZ / 75;

  private final double[] window = new double[WINDOW];
  private final double[] windowCorrelation;
  private final double[][] work = new double[2][PADDED];

  Voicing() {
    for (int i = 0; i < WINDOW; i++) {
      window[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / WINDOW);
    }
    System.arraycopy(window, 0, work[0], 0, WINDOW);
    correlate(0, PADDED);
    windowCorrelation = work[0].clone();
  }

  /**
   * Measures one window.
   *
   * @param samples the sound
   * @param from where the window begins in it
   * @return from about 0 (noise) to about 1 (a vowel, a steady tone)
   */
  double of(short[] samples, int from) {
    double mean = 0;
    for (int i = 0; i < WINDOW; i++) {
      mean += samples[from + i];
    }
    mean /= WINDOW;
    for (int i = 0; i < PADDED; i++) {
      work[0][i] = i < WINDOW ? (samples[from + i] - mean) * window[i] : 0;
      work[1][i] = 0;
    }
    correlate(bin(LOWEST_HZ), bin(HIGHEST_HZ));
    if (work[0][0] <= 0) {
      return 0;
    }
    double highest = 0;
    for (int lag = SHORTEST_PERIOD; lag <= LONGEST_PERIOD; lag++) {
      highest = Math.max(highest, work[0][lag] / windowCorrelation[lag]);
    }
    return highest * windowCorrelation[0] / work[0][0];
  }

  private static int bin(double hertz) {
    return (int) Math.round(hertz * PADDED / Clip.SAMPLE_RATE_HZ);
  }

  /** The autocorrelation of what lies in the working space, of the bins between two. */
  private void correlate(int lowest, int highest) {
    FastFourierTransformer.transformInPlace(work, DftNormalization.STANDARD, TransformType.FORWARD);
    for (int i = 0; i < PADDED; i++) {
      int bin = Math.min(i, PADDED - i);
      boolean inside = bin >= lowest && bin <= highest;
      work[0][i] = inside ? work[0][i] * work[0][i] + work[1][i] * work[1][i] : 0;
      work[1][i] = 0;
    }
    FastFourierTransformer.transformInPlace(work, DftNormalization.STANDARD, TransformType.INVERSE);
  }
}
