package tallyback.speech.sphinx;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.jspecify.annotations.Nullable;

/**
 * Matches the acoustic model to the noise of one clip: what each phone would sound like if it were
 * spoken in it. Nothing need be known of the noise but the clip's own margins.
 *
 * <p>Each Gaussian of the cepstra is moved ({@link NoisySum}) after P. J. Moreno, B. Raj, R. M.
 * Stern, <cite>A vector Taylor series approach for environment-independent speech
 * recognition</cite>, ICASSP 1996. The means of the noise and of the speech that it hides are first
 * guessed and then bettered together by an EM round after J. Li, L. Deng, D. Yu, Y. Gong, A. Acero,
 * <cite>High-performance HMM adaptation with joint compensation of additive and convolutive
 * distortions via vector Taylor series</cite>, ASRU 2007, with the row of phones of the {@link
 * Filler} as the alignment. The Gaussians of the differences stay as they are: a codebook of theirs
 * belongs to no one level of speech, and moving it as a whole made hearing worse. Instead the
 * differences are taken from what the speech would be without the noise ({@link CleanSpeech}).
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class NoiseMatch {

  /** The stream of cepstra; the others are their differences. */
  private static final int CEPSTRA = 0;

  /** So much of a clip before and after the speech is noise: less than a cutter leaves there. */
  private static final int MARGIN_FRAMES = 18;

  private static final int FEWEST_NOISE_FRAMES = 10;

  private final TiedMixtures mixtures;
  private final Filler filler;
  private final MelCepstrum mel;
  private final NoisySum sum;
  private final int size;
  private final double[] mean;
  private final double[] variance;
  private final int pauseCodebook;
  private List<NoiseTransform> learned = List.of();
  private boolean transformed;
  private boolean matched;
  private @Nullable Surroundings around;

  /**
   * Nothing is learned yet.
   *
   * @param pauseCodebook the codebook of pauses
   */
  NoiseMatch(TiedMixtures mixtures, Filler filler, MelCepstrum mel, int pauseCodebook) {
    this.pauseCodebook = pauseCodebook;
    this.mixtures = mixtures;
    this.filler = filler;
    this.mel = mel;
    sum = new NoisySum(mel);
    size = mel.coefficients();
    mean = new double[size];
    variance = new double[size];
  }

  /** Whatever is like one of these noises is heard as was learned for it. */
  void use(List<NoiseTransform> transforms) {
    learned = List.copyOf(transforms);
  }

  /** Whether the model is matched to the noise of a clip now. */
  boolean isMatched() {
    return matched;
  }

  /** Goes back to the model as it was read, for a clip without noise. */
  void undo() {
    restoreDifferences();
    if (matched) {
      mixtures.restore(CEPSTRA);
      matched = false;
    }
  }

  /**
   * Matches the model to the noise around the speech of a clip.
   *
   * @param frames all of the clip; what was scored of them is forgotten
   */
  void matchToMargins(List<TiedMixtures.Frame> frames) {
    match(frames, margins(frames));
  }

  /**
   * Matches the model to the noise in the gaps of the speech: it may have swelled while somebody
   * spoke.
   *
   * @param frames all of the clip; what was scored of them is forgotten
   */
  void matchToGaps(List<TiedMixtures.Frame> frames) {
    match(frames, gaps(frames));
  }

  private void restoreDifferences() {
    if (transformed) {
      for (int stream = CEPSTRA + 1; stream < mixtures.streams(); stream++) {
        mixtures.restore(stream);
      }
      transformed = false;
    }
  }

  private void match(List<TiedMixtures.Frame> frames, List<TiedMixtures.Frame> noiseFrames) {
    restoreDifferences();
    matched = true;
    double[] clipMean = clipMean(frames.get(0));
    Surroundings first = Surroundings.guess(frames, noiseFrames, mel);
    moveModel(first, clipMean);
    mixtures.forget(frames);
    Surroundings bettered = better(first, noiseFrames.size(), frames);
    moveModel(bettered, clipMean);
    mixtures.forget(frames);
    around = bettered;
  }

  /**
   * Takes the differences of the clip that the model is matched to from what its speech would be
   * without the noise; if the noise is like one that was learned, the model is moved on to that.
   *
   * @param frames all of the clip; what was scored of them is forgotten
   */
  void retakeDifferences(List<TiedMixtures.Frame> frames) {
    Surroundings known = Objects.requireNonNull(around, "matched to no clip");
    new CleanSpeech(mixtures, sum, known).retakeDifferences(frames, filler.alignment(frames));
    nearest(noiseOverSpeech())
        .ifPresent(
            transform -> {
              transform.move(mixtures, pauseCodebook);
              transformed = true;
            });
    mixtures.forget(frames);
  }

  private Optional<NoiseTransform> nearest(double[] noise) {
    return learned.stream()
        .filter(each -> each.isNear(noise))
        .min(Comparator.comparingDouble(each -> each.distance(noise)));
  }

  /** Of the clip that the model is matched to: the log mel spectra of noise over speech. */
  double[] noiseOverSpeech() {
    Surroundings known = Objects.requireNonNull(around, "matched to no clip");
    double[] ratio = new double[size];
    for (int i = 0; i < size; i++) {
      ratio[i] = known.noise()[i] - known.speech()[i];
    }
    return mel.toMel(ratio);
  }

  /** What the normaliser took away. */
  private double[] clipMean(TiedMixtures.Frame frame) {
    double[] taken = new double[size];
    for (int i = 0; i < size; i++) {
      taken[i] = frame.cepstrum()[i] - frame.features()[i];
    }
    return taken;
  }

  /** The margins, but for what is louder than the clip as a whole: speech that begins at once. */
  private static List<TiedMixtures.Frame> margins(List<TiedMixtures.Frame> frames) {
    double loudness =
        frames.stream().mapToDouble(frame -> frame.cepstrum()[0]).average().orElseThrow();
    List<TiedMixtures.Frame> quiet = new ArrayList<>();
    for (int t = 0; t < frames.size(); t++) {
      boolean margin = t < MARGIN_FRAMES || t >= frames.size() - MARGIN_FRAMES;
      if (margin && frames.get(t).cepstrum()[0] < loudness) {
        quiet.add(frames.get(t));
      }
    }
    return quiet.size() >= FEWEST_NOISE_FRAMES ? quiet : quietest(frames, FEWEST_NOISE_FRAMES);
  }

  /** The quietest tenth of what lies between the margins. */
  private static List<TiedMixtures.Frame> gaps(List<TiedMixtures.Frame> frames) {
    int margin = Math.min(MARGIN_FRAMES, frames.size() / 3);
    List<TiedMixtures.Frame> within = frames.subList(margin, frames.size() - margin);
    return quietest(within, Math.max(FEWEST_NOISE_FRAMES, within.size() / 10));
  }

  private static List<TiedMixtures.Frame> quietest(List<TiedMixtures.Frame> frames, int count) {
    return frames.stream()
        .sorted((one, other) -> Double.compare(one.cepstrum()[0], other.cepstrum()[0]))
        .limit(count)
        .toList();
  }

  private void moveModel(Surroundings around, double[] clipMean) {
    double[] movedMean = new double[size];
    double[] movedVariance = new double[size];
    for (int gaussian = 0; gaussian < mixtures.gaussians(); gaussian++) {
      mixtures.read(CEPSTRA, gaussian, mean, variance);
      sum.add(mean, variance, around);
      for (int i = 0; i < size; i++) {
        movedMean[i] = sum.mean(i) - clipMean[i];
        movedVariance[i] = sum.variance(i);
      }
      mixtures.set(CEPSTRA, gaussian, movedMean, movedVariance);
    }
  }

  /** One round of EM: the step in both means that makes the aligned frames likeliest. */
  private Surroundings better(
      Surroundings around, int noiseFrames, List<TiedMixtures.Frame> frames) {
    double[][] left = new double[2 * size][2 * size];
    double[] right = new double[2 * size];
    gather(frames).forEach((gaussian, heard) -> addGaussian(gaussian, heard, around, left, right));
    for (int i = 0; i < size; i++) {
      // The first guess counts too: that of the noise as much as the frames it came from, that of
      // the speech as much as one frame.
      left[i][i] += 1 / variance[i];
      left[size + i][size + i] += noiseFrames / Math.max(around.noiseVariance()[i], 1e-3);
    }
    RealMatrix matrix = new Array2DRowRealMatrix(left);
    return around.moved(
        new CholeskyDecomposition(matrix, 1e-6, 0)
            .getSolver()
            .solve(new ArrayRealVector(right))
            .toArray());
  }

  /** What each Gaussian was heard as: the sum of its frames' cepstra and, last, their count. */
  private Map<Integer, double[]> gather(List<TiedMixtures.Frame> frames) {
    int[] senones = filler.alignment(frames);
    Map<Integer, double[]> sums = new HashMap<>();
    int[] best = new int[TiedMixtures.BEST];
    double[] parts = new double[TiedMixtures.BEST];
    for (int t = 0; t < senones.length; t++) {
      mixtures.share(frames.get(t), senones[t], CEPSTRA, best, parts);
      for (int g = 0; g < best.length; g++) {
        double[] heard = sums.computeIfAbsent(best[g], unused -> new double[size + 1]);
        for (int i = 0; i < size; i++) {
          heard[i] += parts[g] * frames.get(t).cepstrum()[i];
        }
        heard[size] += parts[g];
      }
    }
    return sums;
  }

  private void addGaussian(
      int gaussian, double[] heard, Surroundings around, double[][] left, double[] right) {
    mixtures.read(CEPSTRA, gaussian, mean, variance);
    sum.add(mean, variance, around);
    double count = heard[size];
    double[] gain = new double[2 * size];
    for (int i = 0; i < size; i++) {
      for (int k = 0; k < size; k++) {
        gain[k] = sum.gainOfSpeech(i, k);
        gain[size + k] = sum.gainOfNoise(i, k);
      }
      double rest = (heard[i] - count * sum.mean(i)) / sum.variance(i);
      for (int p = 0; p < gain.length; p++) {
        right[p] += gain[p] * rest;
        double weight = gain[p] * count / sum.variance(i);
        for (int q = 0; q < gain.length; q++) {
          left[p][q] += weight * gain[q];
        }
      }
    }
  }
}
