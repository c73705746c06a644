package tallyback.audio;

import java.util.Arrays;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;

/**
 * Takes noise out of a clip.
 *
 * <p>The gain is that of Y. Ephraim, D. Malah, <cite>Speech enhancement using a minimum mean-square
 * error log-spectral amplitude estimator</cite>, IEEE Transactions on Acoustics, Speech and Signal
 * Processing 33, 1985, with their decision-directed estimate. The noise is followed after I. Cohen,
 * B. Berdugo, <cite>Noise estimation by minima controlled recursive averaging for robust speech
 * enhancement</cite>, IEEE Signal Processing Letters 9, 2002, with the constants given there; the
 * first tenth of a second is taken for noise. Frames of 32 ms each 8 ms, with the square root of a
 * Hann window before and after.
 *
 * <p>Thread rule: no state is left; call from anywhere.
 */
public final class NoiseReducer {

  private static final int FRAME = 512;
  private static final int HOP = FRAME / 4;
  private static final int BINS = FRAME / 2 + 1;
  private static final int NOISE_FRAMES = Clip.SAMPLE_RATE_HZ / 10 / HOP;

  private static final double DECISION_DIRECTED = 0.98;
  private static final double LEAST_PRIOR = Math.pow(10, -2.5);

  private static final double SMOOTH_POWER = 0.8;
  private static final double SMOOTH_PRESENCE = 0.2;
  private static final double SMOOTH_NOISE = 0.95;
  private static final double PRESENT_ABOVE = 5;
  private static final int MINIMUM_FRAMES = Clip.SAMPLE_RATE_HZ / HOP;

  private final FastFourierTransformer fourier =
      new FastFourierTransformer(DftNormalization.STANDARD);
  private final double leastGain;
  private final double[] noise = new double[BINS];
  private final double[] smooth = new double[BINS];
  private final double[] minimum = new double[BINS];
  private final double[] nextMinimum = new double[BINS];
  private final double[] presence = new double[BINS];
  private final double[] lastClean = new double[BINS];
  private int frames;

  private NoiseReducer(double leastGainDb) {
    leastGain = Math.pow(10, leastGainDb / 20);
  }

  /**
   * The clip with less noise in it, of the same length.
   *
   * @param clip the clip, whose first tenth of a second is noise
   * @param leastGainDb no frequency is turned down by more than that, in dB and negative
   * @return a clip that begins at the same time
   */
  public static Clip reduce(Clip clip, double leastGainDb) {
    return new NoiseReducer(leastGainDb).clean(clip);
  }

  private Clip clean(Clip clip) {
    int count = clip.length() / HOP + 4;
    double[] padded = new double[(count + 4) * HOP];
    for (int i = 0; i < clip.length(); i++) {
      padded[i + FRAME - HOP] = clip.sample(i);
    }
    double[] window = new double[FRAME];
    for (int i = 0; i < FRAME; i++) {
      window[i] = Math.sqrt(0.5 - 0.5 * Math.cos(2 * Math.PI * i / FRAME));
    }
    Complex[][] spectra = new Complex[count][];
    for (int frame = 0; frame < count; frame++) {
      double[] piece = Arrays.copyOfRange(padded, frame * HOP, frame * HOP + FRAME);
      for (int i = 0; i < FRAME; i++) {
        piece[i] *= window[i];
      }
      spectra[frame] = fourier.transform(piece, TransformType.FORWARD);
    }
    begin(spectra);
    double[] out = new double[padded.length];
    for (int frame = 0; frame < count; frame++) {
      double[] gain = gain(spectra[frame]);
      for (int bin = 0; bin < FRAME; bin++) {
        spectra[frame][bin] = spectra[frame][bin].multiply(gain[Math.min(bin, FRAME - bin)]);
      }
      Complex[] back = fourier.transform(spectra[frame], TransformType.INVERSE);
      for (int i = 0; i < FRAME; i++) {
        // Four windows overlap, whose squares add up to two.
        out[frame * HOP + i] += back[i].getReal() * window[i] / 2;
      }
    }
    short[] samples = new short[clip.length()];
    for (int i = 0; i < samples.length; i++) {
      double value = Math.rint(out[i + FRAME - HOP]);
      samples[i] = (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, value));
    }
    return new Clip(samples, clip.startMs());
  }

  private void begin(Complex[][] spectra) {
    // The first windows lie over the padding.
    int first = Math.min(3, spectra.length - 1);
    int last = Math.min(first + NOISE_FRAMES, spectra.length);
    for (int frame = first; frame < last; frame++) {
      for (int bin = 0; bin < BINS; bin++) {
        noise[bin] += power(spectra[frame][bin]) / (last - first);
      }
    }
    System.arraycopy(noise, 0, smooth, 0, BINS);
    System.arraycopy(noise, 0, minimum, 0, BINS);
    System.arraycopy(noise, 0, nextMinimum, 0, BINS);
  }

  private double[] gain(Complex[] spectrum) {
    double[] gain = new double[BINS];
    for (int bin = 0; bin < BINS; bin++) {
      double power = power(spectrum[bin]);
      follow(bin, power, spectrum);
      double floor = Math.max(noise[bin], 1e-6);
      double posterior = Math.min(power / floor, 1e3);
      double prior =
          DECISION_DIRECTED * lastClean[bin] / floor
              + (1 - DECISION_DIRECTED) * Math.max(posterior - 1, 0);
      double bounded = Math.max(prior, LEAST_PRIOR);
      double share = bounded / (1 + bounded);
      double wanted =
          share * Math.exp(0.5 * exponentialIntegral(Math.max(share * posterior, 1e-8)));
      gain[bin] = Math.max(leastGain, Math.min(1, wanted));
      lastClean[bin] = gain[bin] * gain[bin] * power;
    }
    frames++;
    if (frames % MINIMUM_FRAMES == 0) {
      for (int bin = 0; bin < BINS; bin++) {
        minimum[bin] = Math.min(nextMinimum[bin], smooth[bin]);
        nextMinimum[bin] = smooth[bin];
      }
    }
    return gain;
  }

  private void follow(int bin, double power, Complex[] spectrum) {
    double around =
        0.25 * power(spectrum[Math.abs(bin - 1)])
            + 0.5 * power
            + 0.25 * power(spectrum[Math.min(bin + 1, BINS - 1)]);
    smooth[bin] = SMOOTH_POWER * smooth[bin] + (1 - SMOOTH_POWER) * around;
    minimum[bin] = Math.min(minimum[bin], smooth[bin]);
    nextMinimum[bin] = Math.min(nextMinimum[bin], smooth[bin]);
    double present = smooth[bin] > PRESENT_ABOVE * minimum[bin] ? 1 : 0;
    presence[bin] = SMOOTH_PRESENCE * presence[bin] + (1 - SMOOTH_PRESENCE) * present;
    double keep = SMOOTH_NOISE + (1 - SMOOTH_NOISE) * presence[bin];
    noise[bin] = keep * noise[bin] + (1 - keep) * power;
  }

  private static double power(Complex bin) {
    return bin.getReal() * bin.getReal() + bin.getImaginary() * bin.getImaginary();
  }

  /**
   * E1, after M. Abramowitz, I. A. Stegun, <cite>Handbook of Mathematical Functions</cite>, 5.1.53
   * and 5.1.56.
   */
  static double exponentialIntegral(double x) {
    if (x <= 1) {
      return -Math.log(x)
          + polynomial(
              x, -0.57721566, 0.99999193, -0.24991055, 0.05519968, -0.00976004, 0.00107857);
    }
    return Math.exp(-x)
        / x
        * polynomial(x, 0.2677737343, 8.6347608925, 18.0590169730, 8.5733287401, 1)
        / polynomial(x, 3.9584969228, 21.0996530827, 25.6329561486, 9.5733223454, 1);
  }

  private static double polynomial(double x, double... coefficients) {
    double sum = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      sum = sum * x + coefficients[i];
    }
    return sum;
  }
}
