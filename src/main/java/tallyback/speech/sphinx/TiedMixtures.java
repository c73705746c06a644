package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.tiedstate.GaussianWeights;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.Pool;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.Sphinx3Loader;
import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;
import tallyback.speech.adapt.MeanShifts;
import tallyback.speech.adapt.VoiceProfile;

/**
 * Scores frames against the acoustic model: a phonetically tied mixture, in which all senones of a
 * phone share one codebook of Gaussians and differ in their weights only (X. Huang, A. Acero, H.-W.
 * Hon, <cite>Spoken Language Processing</cite>, 2001, section 8.3.3).
 *
 * <p>The library's own scorer gives the same scores, but walks one object per Gaussian, forgets
 * each frame as soon as the next is scored, and keys its memory by a frame number that repeats in
 * every clip, so that scores leak from one clip into another. Here the Gaussians lie in flat
 * arrays, dimension by dimension, which the virtual machine turns into vector instructions, and the
 * best of each codebook stay with the {@link Frame}, so that filler, grammar and rivals share the
 * work. That took hearing from 0.13 of the speech's length to under 0.04 on the same machine.
 *
 * <p>To find the best few of a codebook without a look at each, its Gaussians are dealt out to
 * {@value #HANDS} hands. The best of each hand is found for all codebooks in one sweep, again of
 * vector instructions, and the best few lie in the hands whose best are the best.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class TiedMixtures {

  /**
   * Only the best Gaussians of a codebook count, as in the library's configuration of this model.
   */
  static final int BEST = 4;

  /** More of them are longer to look through, fewer hold more Gaussians each. */
  private static final int HANDS = 16;

  private final int codebooks;
  private final int streams;
  private final int gaussians;
  private final int[] streamLengths;
  private final int[] codebookOfSenone;

  /** What a natural logarithm is multiplied by to be one in the library's base. */
  private final double logBaseFactor;

  /** By stream: {@code [dimension][place]}, see {@link #place}. */
  private final float[][][] means;

  /** Likewise: -1 / (2 variance). */
  private final float[][][] precisions;

  /** By stream: the log of each Gaussian's height. */
  private final float[][] heights;

  private final GaussianWeights weights;
  private final float[] @Nullable [] shares;
  private final float[] distances;

  /** The best of each hand, by codebook. */
  private final float[] bestOfHand;

  /** Means of the model itself, laid out like {@link #means}. */
  private final float[][][] modelMeans;

  /** Means for the voice that is expected, and variances; the model's own for anybody's voice. */
  private final float[][][] readMeans;

  private final float[][][] readVariances;

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
    means = new float[streams][][];
    precisions = new float[streams][][];
    modelMeans = new float[streams][][];
    readMeans = new float[streams][][];
    readVariances = new float[streams][][];
    heights = new float[streams][codebooks * gaussians];
    if (gaussians % HANDS != 0) {
      throw new IllegalStateException(
          "the acoustic model in the jar has "
              + gaussians
              + " Gaussians in a codebook; build the jar with sphinx4-data 5prealpha");
    }
    distances = new float[codebooks * gaussians];
    bestOfHand = new float[codebooks * HANDS];
    scores = new float[weights.getStatesNum()];
    turnOfScore = new int[weights.getStatesNum()];
    logBaseFactor = LibraryMath.logBaseFactor();
    shares = new float[weights.getStatesNum()][];
    for (int stream = 0; stream < streams; stream++) {
      means[stream] = new float[streamLengths[stream]][codebooks * gaussians];
      precisions[stream] = new float[streamLengths[stream]][codebooks * gaussians];
      modelMeans[stream] = new float[streamLengths[stream]][codebooks * gaussians];
      readMeans[stream] = new float[streamLengths[stream]][codebooks * gaussians];
      readVariances[stream] = new float[streamLengths[stream]][codebooks * gaussians];
    }
    for (int table = 0; table < codebooks * streams; table++) {
      fill(table, loader.getMeansPool(), loader.getVariancePool());
    }
    for (int stream = 0; stream < streams; stream++) {
      restore(stream);
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
    int stream = table % streams;
    for (int gaussian = 0; gaussian < gaussians; gaussian++) {
      int place = place(table / streams, gaussian);
      float[] centre = meansPool.get(table * gaussians + gaussian);
      float[] variance = variancePool.get(table * gaussians + gaussian);
      for (int dimension = 0; dimension < streamLengths[stream]; dimension++) {
        modelMeans[stream][dimension][place] = centre[dimension];
        readMeans[stream][dimension][place] = centre[dimension];
        readVariances[stream][dimension][place] = variance[dimension];
      }
    }
  }

  /** Where a Gaussian lies: round by round, of each codebook one to each hand. */
  private int place(int codebook, int gaussian) {
    int round = gaussian / HANDS;
    return (round * codebooks + codebook) * HANDS + gaussian % HANDS;
  }

  private int place(int at) {
    return place(at / gaussians, at % gaussians);
  }

  /**
   * Moves the means of some codebooks to where a voice has them, always from where the model has
   * them; what was matched to noise is to be matched again, and frames scored before must be
   * forgotten.
   *
   * @param voice where the voice has them; null: back to the model's own
   * @param moves which codebooks move: those of speech
   */
  void become(@Nullable VoiceProfile voice, boolean[] moves) {
    for (int stream = 0; stream < streams; stream++) {
      for (int i = 0; i < streamLengths[stream]; i++) {
        System.arraycopy(modelMeans[stream][i], 0, readMeans[stream][i], 0, gaussians());
      }
      if (voice != null) {
        map(stream, voice.maps().get(stream).toArray(), moves);
        shift(stream, voice.shifts().get(stream));
      }
      restore(stream);
    }
  }

  private void map(int stream, double[][] map, boolean[] moves) {
    int length = streamLengths[stream];
    for (int at = 0; at < gaussians(); at++) {
      if (moves[at / gaussians]) {
        int place = place(at);
        for (int i = 0; i < length; i++) {
          double mean = map[i][length];
          for (int k = 0; k < length; k++) {
            mean += map[i][k] * modelMeans[stream][k][place];
          }
          readMeans[stream][i][place] = (float) mean;
        }
      }
    }
  }

  private void shift(int stream, MeanShifts shifts) {
    for (int heard = 0; heard < shifts.count(); heard++) {
      for (int i = 0; i < streamLengths[stream]; i++) {
        readMeans[stream][i][place(shifts.gaussian(heard))] += shifts.shift(heard, i);
      }
    }
  }

  /** Whether a voice has the shape that {@link #become} needs. */
  boolean takes(VoiceProfile voice) {
    boolean fits = voice.maps().size() == streams;
    for (int stream = 0; fits && stream < streams; stream++) {
      MeanShifts shifts = voice.shifts().get(stream);
      fits =
          voice.maps().get(stream).size() == streamLengths[stream]
              && (shifts.count() == 0 || shifts.gaussian(shifts.count() - 1) < gaussians());
    }
    return fits;
  }

  int streams() {
    return streams;
  }

  int length(int stream) {
    return streamLengths[stream];
  }

  int codebooks() {
    return codebooks;
  }

  int codebookOf(int senone) {
    return codebookOfSenone[senone];
  }

  /** A mean of the model itself, whatever voice is expected. */
  void modelMean(int stream, int at, double[] mean) {
    int place = place(at);
    for (int dimension = 0; dimension < mean.length; dimension++) {
      mean[dimension] = modelMeans[stream][dimension][place];
    }
  }

  /** The same for the same model, and for another hardly ever. */
  String fingerprint() {
    MessageDigest digest = sha256();
    for (int stream = 0; stream < streams; stream++) {
      for (int dimension = 0; dimension < streamLengths[stream]; dimension++) {
        add(digest, modelMeans[stream][dimension]);
        add(digest, readVariances[stream][dimension]);
      }
    }
    return HexFormat.of().formatHex(digest.digest(), 0, 8);
  }

  private static void add(MessageDigest digest, float[] values) {
    ByteBuffer bytes = ByteBuffer.allocate(values.length * Float.BYTES);
    bytes.asFloatBuffer().put(values);
    digest.update(bytes.array());
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
  }

  /** Goes back to the Gaussians of a stream as they are without noise. */
  void restore(int stream) {
    double[] mean = new double[streamLengths[stream]];
    double[] variance = new double[streamLengths[stream]];
    for (int gaussian = 0; gaussian < gaussians(); gaussian++) {
      read(stream, gaussian, mean, variance);
      set(stream, gaussian, mean, variance);
    }
    current = null;
  }

  /** How many Gaussians all codebooks of a stream have; those of a codebook lie in a row. */
  int gaussians() {
    return codebooks * gaussians;
  }

  /** Looks up a Gaussian as it is without noise. */
  void read(int stream, int at, double[] mean, double[] variance) {
    int place = place(at);
    for (int dimension = 0; dimension < streamLengths[stream]; dimension++) {
      mean[dimension] = readMeans[stream][dimension][place];
      variance[dimension] = readVariances[stream][dimension][place];
    }
  }

  /** Puts another Gaussian in the place of one; frames scored before must be forgotten. */
  void set(int stream, int at, double[] mean, double[] variance) {
    int place = place(at);
    int length = streamLengths[stream];
    double logHeight = length * Math.log(2 * Math.PI);
    for (int dimension = 0; dimension < length; dimension++) {
      means[stream][dimension][place] = (float) mean[dimension];
      precisions[stream][dimension][place] = (float) (-0.5 / variance[dimension]);
      logHeight += Math.log(variance[dimension]);
    }
    heights[stream][place] = (float) (-0.5 * logHeight);
  }

  /** Looks up a Gaussian as it is now. */
  void readMoved(int stream, int at, double[] mean, double[] variance) {
    int place = place(at);
    for (int dimension = 0; dimension < streamLengths[stream]; dimension++) {
      mean[dimension] = means[stream][dimension][place];
      variance[dimension] = -0.5 / precisions[stream][dimension][place];
    }
  }

  /**
   * Moves all Gaussians of a stream from where they are; frames scored before must be forgotten.
   */
  void map(int stream, IntFunction<Regression.Affine> ofCodebook) {
    double[] mean = new double[streamLengths[stream]];
    double[] variance = new double[streamLengths[stream]];
    double[] moved = new double[streamLengths[stream]];
    for (int at = 0; at < gaussians(); at++) {
      Regression.Affine map = ofCodebook.apply(at / gaussians);
      readMoved(stream, at, mean, variance);
      for (int i = 0; i < moved.length; i++) {
        moved[i] = map.mapped(i, mean);
      }
      set(stream, at, moved, variance);
    }
  }

  /** Forgets what is known of frames, for the Gaussians have changed. */
  void forget(List<Frame> frames) {
    frames.forEach(Frame::forget);
    current = null;
  }

  /**
   * How the likelihood of a frame is shared among the best Gaussians of a senone in a stream.
   *
   * @param best filled with the Gaussians, as in {@link #read}
   * @param parts filled with the share of each; they add up to 1
   */
  void share(Frame frame, int senone, int stream, int[] best, double[] parts) {
    score(frame, senone);
    int codebook = codebookOfSenone[senone];
    float[] ofSenone = sharesOf(senone);
    int from = (codebook * streams + stream) * BEST;
    double sum = 0;
    for (int i = 0; i < BEST; i++) {
      int gaussian = frame.bestGaussians[from + i];
      best[i] = codebook * gaussians + gaussian;
      parts[i] = frame.bestLikelihoods[from + i] * ofSenone[stream * gaussians + gaussian];
      sum += parts[i];
    }
    for (int i = 0; i < BEST; i++) {
      parts[i] /= sum;
    }
  }

  /** Prepares the memory of one frame. */
  Frame frame(float[] features, double[] cepstrum) {
    return new Frame(features, cepstrum, codebooks, streams);
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
    if (!frame.scored) {
      scoreCodebooks(frame);
      frame.scored = true;
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

  /**
   * Scores all codebooks at once: the filler needs every one, and long rows are what the virtual
   * machine's vector instructions are good at.
   */
  private void scoreCodebooks(Frame frame) {
    int offset = 0;
    for (int stream = 0; stream < streams; stream++) {
      System.arraycopy(heights[stream], 0, distances, 0, distances.length);
      for (int dimension = 0; dimension < streamLengths[stream]; dimension++) {
        addDimension(
            frame.features[offset + dimension],
            means[stream][dimension],
            precisions[stream][dimension],
            distances);
      }
      findBestOfHands();
      for (int codebook = 0; codebook < codebooks; codebook++) {
        double peak = keepBest(frame, (codebook * streams + stream) * BEST, codebook);
        frame.peaks[codebook] += peak * logBaseFactor;
      }
      offset += streamLengths[stream];
    }
  }

  private static void addDimension(
      float feature, float[] mean, float[] precision, float[] distances) {
    for (int gaussian = 0; gaussian < distances.length; gaussian++) {
      float difference = feature - mean[gaussian];
      distances[gaussian] += difference * difference * precision[gaussian];
    }
  }

  private void findBestOfHands() {
    int row = bestOfHand.length;
    System.arraycopy(distances, 0, bestOfHand, 0, row);
    for (int from = row; from < distances.length; from += row) {
      keepLarger(distances, from, bestOfHand);
    }
  }

  private static void keepLarger(float[] values, int from, float[] largest) {
    for (int i = 0; i < largest.length; i++) {
      largest[i] = Math.max(largest[i], values[from + i]);
    }
  }

  /**
   * Keeps the best Gaussians and how likely each is next to the best of all; returns the log
   * likelihood of that one.
   *
   * @param at where they are kept
   */
  private double keepBest(Frame frame, int at, int codebook) {
    float[] scores = frame.bestLikelihoods;
    byte[] best = frame.bestGaussians;
    int last = at + BEST - 1;
    int hands = codebook * HANDS;
    Arrays.fill(scores, at, at + BEST, Float.NEGATIVE_INFINITY);
    for (int hand = 0; hand < HANDS; hand++) {
      if (bestOfHand[hands + hand] > scores[last]) {
        insert(bestOfHand[hands + hand], (byte) hand, scores, best, at);
      }
    }
    // None of the best lies in a hand whose own best is worse than those of so many others.
    float floor = scores[last];
    Arrays.fill(scores, at, at + BEST, Float.NEGATIVE_INFINITY);
    int rounds = gaussians / HANDS;
    int round = codebooks * HANDS;
    for (int hand = 0; hand < HANDS; hand++) {
      if (bestOfHand[hands + hand] >= floor) {
        for (int i = 0, place = hands + hand; i < rounds; i++, place += round) {
          if (distances[place] >= floor && distances[place] > scores[last]) {
            insert(distances[place], (byte) (i * HANDS + hand), scores, best, at);
          }
        }
      }
    }
    float peak = scores[at];
    for (int slot = at; slot <= last; slot++) {
      scores[slot] = (float) Math.exp(scores[slot] - peak);
    }
    return peak;
  }

  private static void insert(float value, byte which, float[] scores, byte[] best, int at) {
    int slot = at + BEST - 1;
    while (slot > at && scores[slot - 1] < value) {
      scores[slot] = scores[slot - 1];
      best[slot] = best[slot - 1];
      slot--;
    }
    scores[slot] = value;
    best[slot] = which;
  }

  /** A feature frame and what is already known of its scores. */
  static final class Frame implements edu.cmu.sphinx.frontend.Data {
    private final float[] features;
    private final double[] cepstrum;
    private boolean scored;
    private final float[] bestLikelihoods;
    private final double[] peaks;
    private final byte[] bestGaussians;

    private Frame(float[] features, double[] cepstrum, int codebooks, int streams) {
      this.features = features;
      this.cepstrum = cepstrum;
      bestLikelihoods = new float[codebooks * streams * BEST];
      peaks = new double[codebooks];
      bestGaussians = new byte[codebooks * streams * BEST];
    }

    /** The features themselves. */
    float[] features() {
      return features;
    }

    /** The cepstrum before its mean over the clip was taken away. */
    double[] cepstrum() {
      return cepstrum;
    }

    private void forget() {
      scored = false;
      Arrays.fill(peaks, 0);
    }
  }
}
