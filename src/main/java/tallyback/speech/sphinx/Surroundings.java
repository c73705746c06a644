package tallyback.speech.sphinx;

import java.util.List;

/**
 * What is heard beside and under the speech of one clip, as cepstra.
 *
 * <p>Thread rule: never changed once made.
 */
final class Surroundings {

  /** Speech is not taken to be quieter than this share of the noise it was found in. */
  private static final double LEAST_SPEECH = 0.5;

  private final double[] noise;
  private final double[] noiseVariance;
  private final double[] speech;

  /**
   * What was found.
   *
   * @param noise mean of the noise
   * @param noiseVariance its variance, one for each coefficient
   * @param speech mean over the clip that its speech would have without the noise
   */
  Surroundings(double[] noise, double[] noiseVariance, double[] speech) {
    this.noise = noise;
    this.noiseVariance = noiseVariance;
    this.speech = speech;
  }

  double[] noise() {
    return noise;
  }

  double[] noiseVariance() {
    return noiseVariance;
  }

  double[] speech() {
    return speech;
  }

  /**
   * The first guess: noise from frames without speech, and speech by taking the noise away (S. F.
   * Boll, <cite>Suppression of acoustic noise in speech using spectral subtraction</cite>, IEEE
   * Transactions on Acoustics, Speech, and Signal Processing 27, 1979).
   */
  static Surroundings guess(
      List<TiedMixtures.Frame> frames, List<TiedMixtures.Frame> noiseFrames, MelCepstrum mel) {
    double[] noise = mean(noiseFrames, mel);
    double[] variance = new double[noise.length];
    for (TiedMixtures.Frame frame : noiseFrames) {
      for (int i = 0; i < noise.length; i++) {
        double off = frame.cepstrum()[i] - noise[i];
        variance[i] += off * off / noiseFrames.size();
      }
    }
    double[] speech = new double[noise.length];
    double[] noiseMel = mel.toMel(noise);
    for (TiedMixtures.Frame frame : frames) {
      double[] cepstrum = mel.toCepstrum(withoutNoise(mel.toMel(frame.cepstrum()), noiseMel));
      for (int i = 0; i < speech.length; i++) {
        speech[i] += cepstrum[i] / frames.size();
      }
    }
    return new Surroundings(noise, variance, speech);
  }

  private static double[] mean(List<TiedMixtures.Frame> frames, MelCepstrum mel) {
    double[] mean = new double[mel.coefficients()];
    for (TiedMixtures.Frame frame : frames) {
      for (int i = 0; i < mean.length; i++) {
        mean[i] += frame.cepstrum()[i] / frames.size();
      }
    }
    return mean;
  }

  private static double[] withoutNoise(double[] heard, double[] noise) {
    double[] left = new double[heard.length];
    for (int filter = 0; filter < heard.length; filter++) {
      double share = 1 - Math.exp(noise[filter] - heard[filter]);
      double least = noise[filter] + Math.log(LEAST_SPEECH);
      left[filter] = share <= 0 ? least : Math.max(least, heard[filter] + Math.log(share));
    }
    return left;
  }

  /** One step further: what is to be added to the mean of the speech, then to that of the noise. */
  Surroundings moved(double[] step) {
    double[] movedNoise = noise.clone();
    double[] movedSpeech = speech.clone();
    for (int i = 0; i < noise.length; i++) {
      movedSpeech[i] += step[i];
      movedNoise[i] += step[noise.length + i];
    }
    return new Surroundings(movedNoise, noiseVariance, movedSpeech);
  }
}
