package tallyback.speech.sphinx;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * What the cepstra of a clip would be without its noise, and the differences taken from these.
 *
 * <p>Noise flattens the differences from frame to frame, and the model's Gaussians of differences
 * can't be moved to where they would then lie. So the differences are taken where the model knows
 * them: each frame's speech is estimated from the joint normal distribution of speech and noisy
 * speech in the Gaussians of its senone (the estimate of least mean square error; P. J. Moreno,
 * <cite>Speech recognition in noisy environments</cite>, Carnegie Mellon University, 1996, and V.
 * Stouten, H. Van hamme, P. Wambacq, <cite>Model-based feature enhancement with uncertainty
 * decoding for noise robust ASR</cite>, Speech Communication 48, 2006). Frames whose senone changes
 * jump, so the estimates are smoothed along time.
 *
 * <p>Thread rule: belongs to its recogniser's owner; made for one clip.
 */
final class CleanSpeech {

  /** The stream of cepstra. */
  private static final int CEPSTRA = 0;

  /** Keeps a covariance from becoming singular; a choice of our own, no source. */
  private static final double ADDED_VARIANCE_SHARE = 0.02;

  private static final int SMOOTHINGS = 2;

  /** How much of a smoothed frame is the frame itself; tuned, as is the number of smoothings. */
  private static final double OWN_SHARE = 0.6;

  private final TiedMixtures mixtures;
  private final NoisySum sum;
  private final Surroundings around;
  private final int size;
  private final Map<Integer, Shift> shifts = new HashMap<>();

  CleanSpeech(TiedMixtures mixtures, NoisySum sum, Surroundings around) {
    this.mixtures = mixtures;
    this.sum = sum;
    this.around = around;
    size = around.speech().length;
  }

  /**
   * Takes the differences of a clip anew.
   *
   * @param frames with the model matched to their noise; the features behind the cepstra are
   *     overwritten
   * @param senones what each frame is taken for
   */
  void retakeDifferences(List<TiedMixtures.Frame> frames, int[] senones) {
    double[][] speech = new double[frames.size()][];
    for (int t = 0; t < speech.length; t++) {
      speech[t] = estimate(frames.get(t), senones[t]);
    }
    for (int round = 0; round < SMOOTHINGS; round++) {
      speech = smoothed(speech);
    }
    for (int t = 0; t < speech.length; t++) {
      takeDifferences(speech, t, frames.get(t).features());
    }
  }

  private double[] estimate(TiedMixtures.Frame frame, int senone) {
    int[] best = new int[TiedMixtures.BEST];
    double[] parts = new double[TiedMixtures.BEST];
    mixtures.share(frame, senone, CEPSTRA, best, parts);
    RealVector heard = new ArrayRealVector(frame.cepstrum(), false);
    RealVector estimate = new ArrayRealVector(size);
    for (int g = 0; g < best.length; g++) {
      Shift shift = shifts.computeIfAbsent(best[g], this::shift);
      estimate = estimate.add(shift.undo(heard).mapMultiply(parts[g]));
    }
    return estimate.toArray();
  }

  /**
   * What noise does to the speech of one Gaussian.
   *
   * @param clean its mean without noise
   * @param noisy its mean with it
   * @param back how much of a step in the noisy speech is one in the speech
   */
  private record Shift(RealVector clean, RealVector noisy, RealMatrix back) {

    RealVector undo(RealVector heard) {
      return back.operate(heard.subtract(noisy)).add(clean);
    }
  }

  private Shift shift(int gaussian) {
    double[] mean = new double[size];
    double[] variance = new double[size];
    mixtures.read(CEPSTRA, gaussian, mean, variance);
    sum.add(mean, variance, around);
    double[] clean = new double[size];
    double[] noisy = new double[size];
    double[][] together = new double[size][size];
    double[][] spread = new double[size][size];
    for (int i = 0; i < size; i++) {
      clean[i] = mean[i] + around.speech()[i];
      noisy[i] = sum.mean(i);
      for (int k = 0; k < size; k++) {
        together[i][k] = variance[i] * sum.gainOfSpeech(k, i);
        spread[i][k] = covariance(i, k, variance);
      }
      spread[i][i] += ADDED_VARIANCE_SHARE * variance[i];
    }
    RealMatrix inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(spread, false), 1e-4, 0)
            .getSolver()
            .getInverse();
    return new Shift(
        new ArrayRealVector(clean, false),
        new ArrayRealVector(noisy, false),
        new Array2DRowRealMatrix(together, false).multiply(inverse));
  }

  private double covariance(int i, int k, double[] variance) {
    double covariance = 0;
    for (int m = 0; m < size; m++) {
      covariance +=
          sum.gainOfSpeech(i, m) * sum.gainOfSpeech(k, m) * variance[m]
              + sum.gainOfNoise(i, m) * sum.gainOfNoise(k, m) * around.noiseVariance()[m];
    }
    return covariance;
  }

  private static double[][] smoothed(double[][] speech) {
    double[][] smooth = new double[speech.length][];
    for (int t = 0; t < speech.length; t++) {
      double[] before = at(speech, t - 1);
      double[] after = at(speech, t + 1);
      smooth[t] = new double[before.length];
      for (int i = 0; i < before.length; i++) {
        smooth[t][i] = OWN_SHARE * speech[t][i] + (1 - OWN_SHARE) / 2 * (before[i] + after[i]);
      }
    }
    return smooth;
  }

  /** First and second differences over the spans that the library's front end takes them over. */
  private void takeDifferences(double[][] speech, int t, float[] features) {
    for (int i = 0; i < size; i++) {
      features[size + i] = (float) (at(speech, t + 2)[i] - at(speech, t - 2)[i]);
      double after = at(speech, t + 3)[i] - at(speech, t - 1)[i];
      double before = at(speech, t + 1)[i] - at(speech, t - 3)[i];
      features[2 * size + i] = (float) (after - before);
    }
  }

  private static double[] at(double[][] speech, int t) {
    return speech[Math.max(0, Math.min(speech.length - 1, t))];
  }
}
