package tallyback.speech.sphinx;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import tallyback.speech.adapt.MeanMap;
import tallyback.speech.adapt.MeanShifts;
import tallyback.speech.adapt.VoiceProfile;

/**
 * Learns where a voice has the means of the model's Gaussians, from frames of which it is known
 * what they are: one linear map for each stream, after C. J. Leggetter, P. C. Woodland,
 * <cite>Maximum likelihood linear regression for speaker adaptation of continuous density hidden
 * Markov models</cite>, Computer Speech and Language 9, 1995. A minute of speech is little for so
 * many numbers, so the map is held near the identity as by so many frames that say that nothing
 * differs (a normal prior, after O. Siohan, T. A. Myrvoll, C.-H. Lee, <cite>Structural maximum a
 * posteriori linear regression for fast HMM adaptation</cite>, Computer Speech and Language 16,
 * 2002). From where the map puts it each Gaussian then moves to where it was heard, the farther the
 * more often (J.-L. Gauvain, C.-H. Lee, <cite>Maximum a posteriori estimation for multivariate
 * Gaussian mixture observations of Markov chains</cite>, IEEE Transactions on Speech and Audio
 * Processing 2, 1994).
 *
 * <p>Thread rule: belongs to its recogniser's owner; made for one round of learning.
 */
final class VoiceLearning {

  /** So many frames hold the matrix near the identity; tuned. */
  private static final double FRAMES_FOR_THE_MATRIX = 1000;

  /** So many hold what is added near nought; tuned. */
  private static final double FRAMES_FOR_WHAT_IS_ADDED = 5;

  /** So many hold a Gaussian where the map puts it; tuned. */
  private static final double FRAMES_FOR_A_GAUSSIAN = 20;

  /** A Gaussian that had less of the frames is as good as not heard. */
  private static final double LEAST_HEARD = 0.5;

  private final TiedMixtures mixtures;
  private final boolean[] moves;

  /** By stream and Gaussian: the sum of its frames' features and, last, their count. */
  private final double[][][] heard;

  VoiceLearning(TiedMixtures mixtures, boolean[] moves) {
    this.mixtures = mixtures;
    this.moves = moves;
    heard = new double[mixtures.streams()][mixtures.gaussians()][];
    for (int stream = 0; stream < heard.length; stream++) {
      for (int at = 0; at < mixtures.gaussians(); at++) {
        heard[stream][at] = new double[mixtures.length(stream) + 1];
      }
    }
  }

  /**
   * Hears a clip.
   *
   * @param frames its frames
   * @param senones what each of them is
   */
  void add(List<TiedMixtures.Frame> frames, int[] senones) {
    int[] best = new int[TiedMixtures.BEST];
    double[] parts = new double[TiedMixtures.BEST];
    for (int t = 0; t < senones.length; t++) {
      if (!moves[mixtures.codebookOf(senones[t])]) {
        continue;
      }
      float[] features = frames.get(t).features();
      int offset = 0;
      for (int stream = 0; stream < heard.length; stream++) {
        mixtures.share(frames.get(t), senones[t], stream, best, parts);
        int length = mixtures.length(stream);
        for (int g = 0; g < best.length; g++) {
          double[] sum = heard[stream][best[g]];
          for (int i = 0; i < length; i++) {
            sum[i] += parts[g] * features[offset + i];
          }
          sum[length] += parts[g];
        }
        offset += length;
      }
    }
  }

  /**
   * What was learned.
   *
   * @throws IllegalArgumentException if nothing was heard
   */
  VoiceProfile learned() {
    List<MeanMap> maps = new ArrayList<>();
    List<MeanShifts> shifts = new ArrayList<>();
    for (int stream = 0; stream < heard.length; stream++) {
      double[][] map = map(stream);
      maps.add(MeanMap.of(map));
      shifts.add(shifts(stream, map));
    }
    if (shifts.stream().allMatch(each -> each.count() == 0)) {
      throw new IllegalArgumentException("no words lie over any of the clips");
    }
    return new VoiceProfile(mixtures.fingerprint(), maps, shifts);
  }

  private MeanShifts shifts(int stream, double[][] map) {
    int length = mixtures.length(stream);
    double[] model = new double[length];
    SortedMap<Integer, double[]> shifts = new TreeMap<>();
    for (int at = 0; at < mixtures.gaussians(); at++) {
      double[] sum = heard[stream][at];
      double count = sum[length];
      if (count < LEAST_HEARD) {
        continue;
      }
      mixtures.modelMean(stream, at, model);
      double[] shift = new double[length];
      for (int i = 0; i < length; i++) {
        double mapped = map[i][length];
        for (int k = 0; k < length; k++) {
          mapped += map[i][k] * model[k];
        }
        shift[i] = (sum[i] - count * mapped) / (FRAMES_FOR_A_GAUSSIAN + count);
      }
      shifts.put(at, shift);
    }
    return MeanShifts.of(length, shifts);
  }

  private double[][] map(int stream) {
    int length = mixtures.length(stream);
    double[] scale = spread(stream);
    double[] mean = new double[length];
    double[] variance = new double[length];
    double[] unused = new double[length];
    double[][] rows = new double[length][];
    for (int i = 0; i < length; i++) {
      double[][] left = new double[length + 1][length + 1];
      double[] right = new double[length + 1];
      double weights = 0;
      double count = 0;
      for (int at = 0; at < mixtures.gaussians(); at++) {
        double[] sum = heard[stream][at];
        if (sum[length] <= 0) {
          continue;
        }
        mixtures.modelMean(stream, at, mean);
        mixtures.read(stream, at, unused, variance);
        double weight = sum[length] / variance[i];
        weights += weight;
        count += sum[length];
        for (int p = 0; p <= length; p++) {
          double one = p == length ? 1 : mean[p];
          right[p] += one * sum[i] / variance[i];
          for (int q = 0; q <= length; q++) {
            left[p][q] += weight * one * (q == length ? 1 : mean[q]);
          }
        }
      }
      double usual = count == 0 ? 1 : weights / count;
      for (int p = 0; p < length; p++) {
        double held = FRAMES_FOR_THE_MATRIX * usual * scale[p] * scale[p];
        left[p][p] += held;
        right[p] += p == i ? held : 0;
      }
      left[length][length] += FRAMES_FOR_WHAT_IS_ADDED * usual;
      rows[i] =
          new CholeskyDecomposition(new Array2DRowRealMatrix(left, false), 1e-6, 0)
              .getSolver()
              .solve(new ArrayRealVector(right, false))
              .toArray();
    }
    return rows;
  }

  /** How far the model's means of speech lie apart, one standard deviation for each dimension. */
  private double[] spread(int stream) {
    int length = mixtures.length(stream);
    double[] sum = new double[length];
    double[] squares = new double[length];
    double[] mean = new double[length];
    int count = 0;
    int each = mixtures.gaussians() / mixtures.codebooks();
    for (int at = 0; at < mixtures.gaussians(); at++) {
      if (moves[at / each]) {
        mixtures.modelMean(stream, at, mean);
        count++;
        for (int i = 0; i < length; i++) {
          sum[i] += mean[i];
          squares[i] += mean[i] * mean[i];
        }
      }
    }
    double[] spread = new double[length];
    for (int i = 0; i < length; i++) {
      spread[i] = Math.sqrt(squares[i] / count - sum[i] * sum[i] / count / count);
    }
    return spread;
  }
}
