package tallyback.bench.hearing;

import java.util.Random;
import tallyback.audio.Clip;
import tallyback.audio.NoiseMix;

/** Puts noise on speech at a given ratio, as the program itself does to learn a noise. */
final class Mixer {

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
    return NoiseMix.mix(speech, noise.stretch(speech.length(), new Random(seed)), snrDb);
  }

  /** The mean power of 16-bit samples at a level in dB relative to full scale. */
  static double power(double dbfs) {
    return NoiseMix.power(dbfs);
  }

  /** The mean power of samples. */
  static double power(double[] samples) {
    return NoiseMix.power(samples);
  }

  /** Samples as a clip, all turned down if the loudest doesn't fit. */
  static Clip clip(double[] samples) {
    return NoiseMix.clip(samples);
  }
}
