package tallyback.audio;

import java.util.Arrays;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;

/**
 * Measures, each 10 ms, how far the spectrum of the last moments rises above the noise: the
 * long-term spectral divergence of J. Ramírez, J. C. Segura, C. Benítez, Á. de la Torre, A. Rubio,
 * <cite>Efficient voice activity detection algorithms using long-term speech information</cite>,
 * Speech Communication 42 (2004). The noise of each band is followed by minimum statistics (R.
 * Martin, <cite>Noise power spectral density estimation based on optimal smoothing and minimum
 * statistics</cite>, IEEE Transactions on Speech and Audio Processing 9, 2001), here with fixed
 * smoothing and a fixed bias: a machine that starts or stops is learnt within the window, whether
 * or not somebody speaks.
 *
 * <p>Thread rule: one thread.
 */
final class SpeechDetector {

  static final int FRAME_SHIFT = Clip.SAMPLE_RATE_HZ / 100;

  private static final int WINDOW = 512;

  /** Speech has its strength between these; below is the rumble of machines. */
  private static final double LOWEST_HZ = 200;

  /** High enough for the hiss of "six" and "stop", which is most of what is heard of them. */
  private static final double HIGHEST_HZ = 7_000;

  static final int BANDS = 20;
  private static final double SMOOTHING = 0.8;

  /** Eight blocks of 0.3 s: the noise is the least power of the last 2.4 s. */
  private static final int MINIMUM_BLOCKS = 8;

  private static final int BLOCK_FRAMES = 30;

  /**
   * The least of many smoothed powers lies below their mean; measured on white and engine noise.
   */
  private static final double MINIMUM_BIAS = 1.8;

  private final double[] window = new double[WINDOW];
  private final int[] bandEdges = new int[BANDS + 1];
  private final double quietest;
  private final double[] smoothed = new double[BANDS];
  private final double[][] minima = new double[MINIMUM_BLOCKS][BANDS];
  private int frames;

  SpeechDetector(double quietestDbfs) {
    for (int i = 0; i < WINDOW; i++) {
      window[i] = (0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / WINDOW)) / 32_768.0;
    }
    double low = mel(LOWEST_HZ);
    double step = (mel(HIGHEST_HZ) - low) / BANDS;
    for (int band = 0; band <= BANDS; band++) {
      bandEdges[band] = (int) Math.round(hertz(low + band * step) * WINDOW / Clip.SAMPLE_RATE_HZ);
    }
    double spread = Arrays.stream(window).map(w -> w * w).sum() * 32_768.0 * 32_768.0;
    quietest = Math.pow(10, quietestDbfs / 10) * spread;
    for (double[] block : minima) {
      Arrays.fill(block, Double.MAX_VALUE);
    }
  }

  private static double mel(double hertz) {
    return 2595 * Math.log10(1 + hertz / 700);
  }

  private static double hertz(double mel) {
    return 700 * (Math.pow(10, mel / 2595) - 1);
  }

  static int windowSamples() {
    return WINDOW;
  }

  /**
   * Takes the next frame in.
   *
   * @param samples where the stream is held
   * @param from where the frame's window begins in it
   * @return the mean power of each band
   */
  double[] powers(short[] samples, int from) {
    double[][] spectrum = new double[2][WINDOW];
    for (int i = 0; i < WINDOW; i++) {
      spectrum[0][i] = samples[from + i] * window[i];
    }
    FastFourierTransformer.transformInPlace(
        spectrum, DftNormalization.STANDARD, TransformType.FORWARD);
    double[] powers = new double[BANDS];
    for (int band = 0; band < BANDS; band++) {
      for (int bin = bandEdges[band]; bin < bandEdges[band + 1]; bin++) {
        powers[band] += spectrum[0][bin] * spectrum[0][bin] + spectrum[1][bin] * spectrum[1][bin];
      }
      powers[band] /= bandEdges[band + 1] - bandEdges[band];
    }
    followNoise(powers);
    return powers;
  }

  private void followNoise(double[] powers) {
    int block = frames / BLOCK_FRAMES % MINIMUM_BLOCKS;
    if (frames % BLOCK_FRAMES == 0) {
      Arrays.fill(minima[block], Double.MAX_VALUE);
    }
    for (int band = 0; band < BANDS; band++) {
      smoothed[band] =
          frames == 0 ? powers[band] : SMOOTHING * smoothed[band] + (1 - SMOOTHING) * powers[band];
      minima[block][band] = Math.min(minima[block][band], smoothed[band]);
    }
    frames++;
  }

  /** The noise of each band as it is known now. */
  double[] noise() {
    double[] noise = new double[BANDS];
    for (int band = 0; band < BANDS; band++) {
      double least = Double.MAX_VALUE;
      for (double[] block : minima) {
        least = Math.min(least, block[band]);
      }
      noise[band] = Math.max(least * MINIMUM_BIAS, quietest);
    }
    return noise;
  }

  /**
   * A power as a level.
   *
   * @param power a mean power of bands
   * @return in dB above the quietest noise, 0 or more
   */
  double levelDb(double power) {
    return 10 * Math.log10(Math.max(power, quietest) / quietest);
  }

  /**
   * How far an envelope rises above the noise.
   *
   * @param envelope the largest power of each band over neighbouring frames
   * @param noise the noise of each band
   * @return the mean over the bands of the ratio, in dB
   */
  static double divergenceDb(double[] envelope, double[] noise) {
    double sum = 0;
    for (int band = 0; band < envelope.length; band++) {
      sum += envelope[band] / noise[band];
    }
    return 10 * Math.log10(sum / envelope.length);
  }
}
