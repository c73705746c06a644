package tallyback.speech.sphinx;

/**
 * What becomes of a Gaussian of clean speech when noise is added to it. In the log mel spectrum
 * speech x and noise n add up to log(exp x + exp n): the mean is put through that, the variance
 * through its first derivative.
 *
 * <p>Thread rule: belongs to its recogniser's owner; what it worked out last is overwritten.
 */
final class NoisySum {

  /** Noise so far above the speech (natural log) hides it altogether. */
  private static final double HIDDEN = 30;

  /** Noise known from few frames can seem steadier than it is. */
  private static final double LEAST_VARIANCE_SHARE = 0.1;

  private final MelCepstrum mel;
  private final double[] share;
  private final double[] added;
  private final double[] mean;
  private final double[] variance;
  private final double[] gain;

  NoisySum(MelCepstrum mel) {
    this.mel = mel;
    int size = mel.coefficients();
    share = new double[mel.filters()];
    added = new double[mel.filters()];
    mean = new double[size];
    variance = new double[size];
    gain = new double[size * size];
  }

  /**
   * Works out mean, variance and gain.
   *
   * @param cleanMean of the Gaussian, relative to the mean of the clip's speech
   * @param cleanVariance of the Gaussian
   * @param around what is heard beside and under the speech
   */
  void add(double[] cleanMean, double[] cleanVariance, Surroundings around) {
    double[] ratio = new double[mean.length];
    for (int i = 0; i < mean.length; i++) {
      mean[i] = cleanMean[i] + around.speech()[i];
      ratio[i] = around.noise()[i] - mean[i];
    }
    shareOut(mel.toMel(ratio));
    double[] step = mel.toCepstrum(added);
    mel.gain(share, gain);
    for (int i = 0; i < mean.length; i++) {
      mean[i] += step[i];
      variance[i] = spread(i, cleanVariance, around.noiseVariance());
    }
  }

  private void shareOut(double[] noiseOverSpeech) {
    for (int filter = 0; filter < share.length; filter++) {
      double ratio = noiseOverSpeech[filter];
      double noise = Math.exp(Math.min(ratio, HIDDEN));
      added[filter] = ratio > HIDDEN ? ratio : Math.log1p(noise);
      share[filter] = 1 / (1 + noise);
    }
  }

  private double spread(int i, double[] speechVariance, double[] noiseVariance) {
    double sum = 0;
    for (int k = 0; k < mean.length; k++) {
      double ofSpeech = gainOfSpeech(i, k);
      double ofNoise = gainOfNoise(i, k);
      sum += ofSpeech * ofSpeech * speechVariance[k] + ofNoise * ofNoise * noiseVariance[k];
    }
    return Math.max(sum, LEAST_VARIANCE_SHARE * speechVariance[i]);
  }

  /** The mean in the noise, not relative to anything. */
  double mean(int i) {
    return mean[i];
  }

  double variance(int i) {
    return variance[i];
  }

  /** How much coefficient i of the sum moves with coefficient k of the speech. */
  double gainOfSpeech(int i, int k) {
    return gain[i * mean.length + k];
  }

  /** How much coefficient i of the sum moves with coefficient k of the noise. */
  double gainOfNoise(int i, int k) {
    return (i == k ? 1 : 0) - gainOfSpeech(i, k);
  }
}
