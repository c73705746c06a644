package tallyback.bench.hearing;

import java.util.Random;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;

/**
 * Puts noise on speech at a given ratio: the active speech level after ITU-T P.56 method B (see
 * {@link LevelMeter}) to the mean power of the noise over the whole clip.
 */
final class Mixer {

  private static final double FULL_SCALE = 32_768;

  private Mixer() {}

  /**
   * Mixes. Where the sum would be clipped, speech and noise are both turned down.
   *
   * @param speech clean speech
   * @param noise the noise
   * @param snrDb speech to noise in dB
   * @param seed which stretch of the noise; the same for every ratio, so that they compare
   */
  static Clip mix(Clip speech, Noise noise, double snrDb, long seed) {
    double activeDbfs = LevelMeter.measure(speech).activeDbfs();
    if (Double.isInfinite(activeDbfs)) {
      throw new IllegalArgumentException("expected speech, found digital silence");
    }
    double[] sum = noise.stretch(speech.length(), new Random(seed));
    double gain = Math.sqrt(power(activeDbfs - snrDb) / power(sum));
    for (int i = 0; i < sum.length; i++) {
      sum[i] = gain * sum[i] + speech.sample(i);
    }
    return clip(sum);
  }

  /** The mean power of 16-bit samples at a level in dB relative to full scale. */
  static double power(double dbfs) {
    return FULL_SCALE * FULL_SCALE * Math.pow(10, dbfs / 10);
  }

  /** The mean power of samples. */
  static double power(double[] samples) {
    double sum = 0;
    for (double sample : samples) {
      sum += sample * sample;
    }
    return samples.length == 0 ? 0 : sum / samples.length;
  }

  /** Samples as a clip, all turned down if the loudest doesn't fit. */
  static Clip clip(double[] samples) {
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
