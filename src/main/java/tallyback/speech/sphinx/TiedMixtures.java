package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.tiedstate.GaussianWeights;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.Pool;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.Sphinx3Loader;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Scores frames against the acoustic model: a phonetically tied mixture, in which all senones of a
 * phone share one codebook of Gaussians and differ in their weights only (X. Huang, A. Acero, H.-W.
 * Hon, <cite>Spoken Language Processing</cite>, 2001, section 8.3.3).
 *
 * <p>The library's own scorer gives the same scores, but walks one object per Gaussian, forgets
 * each frame as soon as the next is scored, and keys its memory by a frame number that repeats in
 * every clip, so that scores leak from one clip into another. Here a codebook lies in flat arrays,
 * dimension by dimension, which the virtual machine turns into vector instructions, and its best
 * Gaussians stay with the {@link Frame}, so that filler, grammar and rivals share the work. That
 * took hearing from 0.13 of the speech's length to under 0.04 on the same machine.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class TiedMixtures {

  /**
   * Only the best Gaussians of a codebook count, as in the library's configuration of this model.
   */
  static final int BEST = 4;

  private final int codebooks;
  private final int streams;
  private final int gaussians;
  private final int[] streamLengths;
  private final int[] codebookOfSenone;

  /** What a natural logarithm is multiplied by to be one in the library's base. */
  private final double logBaseFactor;

  /** By codebook and stream: {@code [dimension * gaussians + gaussian]}. */
  private final float[][] means;

  /** Likewise: -1 / (2 variance). */
  private final float[][] precisions;

  /** By codebook and stream: the log of each Gaussian's height. */
  private final float[][] heights;

  private final GaussianWeights weights;
  private final float[] @Nullable [] shares;
  private final float[] distances;

  /** Many states of the search share a senone, so its score for the frame at hand is kept. */
  private final float[] scores;

  private final int[] turnOfScore;
  private @Nullable Frame current;
  private int turn;

  private TiedMixtures(Sphinx3Loader loader) {
    weights = loader.getMixtureWeights();
    codebookOfSenone = loader.getSenone2Ci();
    streams = loader.getNumStreams();
    gaussians = loader.getNumGaussiansPerState();
    streamLengths = loader.getVectorLength();
    codebooks = loader.getMeansPool().size() / (streams * gaussians);
    means = new float[codebooks * streams][];
    precisions = new float[codebooks * streams][];
    heights = new float[codebooks * streams][];
    distances = new float[gaussians];
    scores = new float[weights.getStatesNum()];
    turnOfScore = new int[weights.getStatesNum()];
    logBaseFactor = LibraryMath.logBaseFactor();
    shares = new float[weights.getStatesNum()][];
    for (int table = 0; table < means.length; table++) {
      fill(table, loader.getMeansPool(), loader.getVariancePool());
    }
  }

  /** Reads the loaded model; to be done again whenever the loader's means have been adapted. */
  static TiedMixtures of(Sphinx3Loader loader) {
    if (!loader.hasTiedMixtures()) {
      throw new IllegalStateException(
          "the acoustic model in the jar has no tied mixtures; build the jar with sphinx4-data 5prealpha");
    }
    return new TiedMixtures(loader);
  }

  private void fill(int table, Pool<float[]> meansPool, Pool<float[]> variancePool) {
    int length = streamLengths[table % streams];
    float[] mean = new float[length * gaussians];
    float[] precision = new float[length * gaussians];
    float[] height = new float[gaussians];
    for (int gaussian = 0; gaussian < gaussians; gaussian++) {
      float[] centre = meansPool.get(table * gaussians + gaussian);
      float[] variance = variancePool.get(table * gaussians + gaussian);
      double logHeight = length * Math.log(2 * Math.PI);
      for (int dimension = 0; dimension < length; dimension++) {
        mean[dimension * gaussians + gaussian] = centre[dimension];
        precision[dimension * gaussians + gaussian] = -0.5f / variance[dimension];
        logHeight += Math.log(variance[dimension]);
      }
      height[gaussian] = (float) (-0.5 * logHeight);
    }
    means[table] = mean;
    precisions[table] = precision;
    heights[table] = height;
  }

  /** Prepares the memory of one frame. */
  Frame frame(float[] features) {
    return new Frame(features, codebooks, streams);
  }

  /**
   * How likely a senone gives a frame.
   *
   * @return the log likelihood in the library's base
   */
  float score(Frame frame, int senone) {
    if (frame != current) {
      current = frame;
      turn++;
    }
    if (turnOfScore[senone] != turn) {
      turnOfScore[senone] = turn;
      scores[senone] = scoreAfresh(frame, senone);
    }
    return scores[senone];
  }

  private float scoreAfresh(Frame frame, int senone) {
    int codebook = codebookOfSenone[senone];
    if (!frame.scored[codebook]) {
      score(frame, frame.features, codebook);
      frame.scored[codebook] = true;
    }
    float[] shares = sharesOf(senone);
    double likelihood = 1;
    int at = codebook * streams * BEST;
    for (int stream = 0; stream < streams; stream++) {
      double sum = 0;
      for (int i = 0; i < BEST; i++, at++) {
        sum += frame.bestLikelihoods[at] * shares[stream * gaussians + frame.bestGaussians[at]];
      }
      likelihood *= sum;
    }
    return (float) (frame.peaks[codebook] + Math.log(likelihood) * logBaseFactor);
  }

  /** The weights of a senone's Gaussians as plain numbers, worked out when first needed. */
  private float[] sharesOf(int senone) {
    float[] known = shares[senone];
    if (known == null) {
      known = new float[streams * gaussians];
      for (int stream = 0; stream < streams; stream++) {
        for (int gaussian = 0; gaussian < gaussians; gaussian++) {
          known[stream * gaussians + gaussian] =
              (float) Math.exp(weights.get(senone, stream, gaussian) / logBaseFactor);
        }
      }
      shares[senone] = known;
    }
    return known;
  }

  private void score(Frame frame, float[] features, int codebook) {
    int offset = 0;
    double peak = 0;
    for (int stream = 0; stream < streams; stream++) {
      int table = codebook * streams + stream;
      System.arraycopy(heights[table], 0, distances, 0, gaussians);
      for (int dimension = 0; dimension < streamLengths[stream]; dimension++) {
        addDimension(
            features[offset + dimension], means[table], precisions[table], dimension * gaussians);
      }
      peak += keepBest(frame, table * BEST);
      offset += streamLengths[stream];
    }
    frame.peaks[codebook] = peak * logBaseFactor;
  }

  private void addDimension(float feature, float[] mean, float[] precision, int from) {
    float[] sums = distances;
    for (int gaussian = 0; gaussian < sums.length; gaussian++) {
      float difference = feature - mean[from + gaussian];
      sums[gaussian] += difference * difference * precision[from + gaussian];
    }
  }

  /**
   * Keeps the best Gaussians and how likely each is next to the best of all; returns the log
   * likelihood of that one.
   */
  private double keepBest(Frame frame, int at) {
    float[] scores = frame.bestLikelihoods;
    byte[] best = frame.bestGaussians;
    int last = at + BEST - 1;
    Arrays.fill(scores, at, at + BEST, Float.NEGATIVE_INFINITY);
    for (int gaussian = 0; gaussian < gaussians; gaussian++) {
      float value = distances[gaussian];
      if (value > scores[last]) {
        int slot = last;
        while (slot > at && scores[slot - 1] < value) {
          scores[slot] = scores[slot - 1];
          best[slot] = best[slot - 1];
          slot--;
        }
        scores[slot] = value;
        best[slot] = (byte) gaussian;
      }
    }
    float peak = scores[at];
    for (int slot = at; slot <= last; slot++) {
      scores[slot] = (float) Math.exp(scores[slot] - peak);
    }
    return peak;
  }

  /** A feature frame and what is already known of its scores. */
  static final class Frame implements edu.cmu.sphinx.frontend.Data {
    private final float[] features;
    private final boolean[] scored;
    private final float[] bestLikelihoods;
    private final double[] peaks;
    private final byte[] bestGaussians;

    private Frame(float[] features, int codebooks, int streams) {
      this.features = features;
      scored = new boolean[codebooks];
      bestLikelihoods = new float[codebooks * streams * BEST];
      peaks = new double[codebooks];
      bestGaussians = new byte[codebooks * streams * BEST];
    }

    /** The features themselves. */
    float[] features() {
      return features;
    }
  }
}
