package tallyback.audio;

import java.util.random.RandomGenerator;

/**
 * Puts noise on speech at a given ratio: the active speech level after ITU-T P.56 method B (see
 * {@link LevelMeter}) to the mean power of the noise over the whole clip.
 *
 * <p>Thread rule: no state; call from anywhere.
 */
public final class NoiseMix {

  private static final double FULL_SCALE = 32_768;

  private NoiseMix() {}

  /**
   * Mixes. Where the sum would be clipped, speech and noise are both turned down.
   *
   * @param speech clean speech
   * @param noise as many samples as the speech has, of any level but silence
   * @param snrDb speech to noise in dB
   * @return the sum
   * @throws IllegalArgumentException if there is no speech
   */
  public static Clip mix(Clip speech, double[] noise, double snrDb) {
    double activeDbfs = LevelMeter.measure(speech).activeDbfs();
    if (Double.isInfinite(activeDbfs)) {
      throw new IllegalArgumentException("expected speech, found digital silence");
    }
    double gain = Math.sqrt(power(activeDbfs - snrDb) / power(noise));
    double[] sum = new double[noise.length];
    for (int i = 0; i < sum.length; i++) {
      sum[i] = gain * noise[i] + speech.sample(i);
    }
    return clip(sum);
  }

  /**
   * A stretch of a noise from anywhere, gone round as often as it takes.
   *
   * @param noise the noise
   * @param length in samples
   * @param random where it begins
   * @return its samples
   */
  public static double[] stretch(Clip noise, int length, RandomGenerator random) {
    int from = random.nextInt(noise.length());
    double[] stretch = new double[length];
    for (int i = 0; i < length; i++) {
      stretch[i] = noise.sample((from + i) % noise.length());
    }
    return stretch;
  }

  /**
   * The mean power of 16-bit samples at a level.
   *
   * @param dbfs in dB relative to full scale
   * @return the power
   */
  public static double power(double dbfs) {
    return FULL_SCALE * FULL_SCALE * Math.pow(10, dbfs / 10);
  }

  /**
   * The mean power of samples.
   *
   * @param samples any number
   * @return their power; 0 of none
   */
  public static double power(double[] samples) {
    double sum = 0;
    for (double sample : samples) {
      sum += sample * sample;
    }
    return samples.length == 0 ? 0 : sum / samples.length;
  }

  /**
   * Samples as a clip, all turned down if the loudest doesn't fit.
   *
   * @param samples of 16 bits, or beyond
   * @return the clip
   */
  public static Clip clip(double[] samples) {
    double loudest = Short.MAX_VALUE;
    for (double sample : samples) {
      loudest = Math.max(loudest, Math.abs(sample));
    }
    short[] fitted = new short[samples.length];
    for (int i = 0; i < samples.length; i++) {
      fitted[i] = (short) Math.round(samples[i] * Short.MAX_VALUE / loudest);
    }
    return new Clip(fitted, 0);
  }
}
