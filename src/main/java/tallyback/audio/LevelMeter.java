package tallyback.audio;

import java.util.Arrays;

/**
 * Measures how loud speech is while somebody speaks, and how far it stands above the rest.
 *
 * <p>The active level follows method B of ITU-T Recommendation P.56 (2011): the envelope is the
 * rectified signal smoothed twice with a time constant of 30 ms, activity outlasts the envelope by
 * 200 ms, and the activity threshold is the one that lies 15.9 dB below the level it yields, found
 * among thresholds 6 dB apart and by interpolation between them. A constant offset, which cheap
 * sound inputs have and nobody hears, is taken off first: it would pass for speech that never ends.
 * The noise is the power below which a tenth of the 20 ms frames lie (a choice of our own, no
 * source): the pauses of an utterance. Noise that swells while somebody speaks is not in them:
 * where even the quietest tenth of the frames between the first word and the last lies less than 17
 * dB below the active level, and there is some sound around the speech, the noise is taken from
 * there. In noise at 15 dB nearly all clips come to less than that, of quiet recordings of people
 * one in five.
 *
 * <p>Thread rule: no state; call from anywhere.
 */
public final class LevelMeter {

  private static final double TIME_CONSTANT_S = 0.03;
  private static final int HANGOVER = Clip.SAMPLE_RATE_HZ / 5;
  private static final double MARGIN_DB = 15.9;
  private static final int THRESHOLDS = 15;
  private static final int FRAME = Clip.SAMPLE_RATE_HZ / 50;
  private static final double QUIET_SHARE = 0.1;
  private static final double FULL_SCALE = 32_768.0;

  /** Frames of speech that stand out of any noise: the span from the first of them to the last. */
  private static final double LOUD_BELOW_ACTIVE_DB = 10;

  /** Gaps no deeper than this may be full of noise; so are those of a fifth of quiet utterances. */
  private static final double SHALLOW_DB = 17;

  /** Where there is less than this around the speech, nothing swells in it. */
  private static final double SILENT_MARGINS_DB = 50;

  /** A steady tone has no gaps; speech has. */
  private static final double NO_GAPS_DB = 3;

  /** The gaps hold sounds that die away as well: noise alone lies about so far below them. */
  private static final double UNDER_GAPS_DB = 3;

  /** A single word has too few gaps to tell by: less than 0.4 s. */
  private static final int FEWEST_FRAMES = 20;

  private LevelMeter() {}

  /**
   * Measures a clip.
   *
   * @param clip the clip
   * @return its levels
   */
  public static LevelReport measure(Clip clip) {
    Pauses pauses = pauses(clip);
    double active = activeLevelDbfs(clip, pauses.offset());
    double noise = pauses.levelDbfs();
    if (Double.isInfinite(active)) {
      return new LevelReport(active, noise, 0, false);
    }
    double snrDb = over(active, noise);
    double gapsDb = active - quietestWithin(clip, active);
    if (snrDb < SILENT_MARGINS_DB
        && gapsDb > NO_GAPS_DB
        && gapsDb < SHALLOW_DB
        && gapsDb + UNDER_GAPS_DB < snrDb) {
      double swollenDb = gapsDb + UNDER_GAPS_DB;
      return new LevelReport(active, active - swollenDb, swollenDb, true);
    }
    return new LevelReport(active, noise, snrDb, false);
  }

  /**
   * How far speech stands above what is around it, whatever is in its gaps.
   *
   * @param clip the clip
   * @return the ratio in dB; 0 when nobody speaks
   */
  public static double snrAroundDb(Clip clip) {
    Pauses pauses = pauses(clip);
    double active = activeLevelDbfs(clip, pauses.offset());
    return Double.isInfinite(active) ? 0 : over(active, pauses.levelDbfs());
  }

  private static double over(double active, double noise) {
    return Math.max(0, active - Math.max(noise, 20 * Math.log10(1 / FULL_SCALE)));
  }

  /** The quietest tenth of the frames between the first loud one and the last. */
  private static double quietestWithin(Clip clip, double active) {
    double[] levels = new double[clip.length() / FRAME];
    int first = -1;
    int last = -1;
    for (int frame = 0; frame < levels.length; frame++) {
      levels[frame] = 10 * Math.log10(meanAndPower(clip, frame * FRAME)[1]);
      if (levels[frame] > active - LOUD_BELOW_ACTIVE_DB) {
        first = first < 0 ? frame : first;
        last = frame;
      }
    }
    if (last - first < FEWEST_FRAMES) {
      return Double.NEGATIVE_INFINITY;
    }
    double[] within = Arrays.copyOfRange(levels, first, last + 1);
    Arrays.sort(within);
    return within[(int) (within.length * QUIET_SHARE)];
  }

  private static double activeLevelDbfs(Clip clip, double offset) {
    double sumOfSquares = 0;
    long[] activeSamples = new long[THRESHOLDS];
    int[] sinceAbove = new int[THRESHOLDS];
    Arrays.fill(sinceAbove, HANGOVER);
    double keep = Math.exp(-1.0 / (Clip.SAMPLE_RATE_HZ * TIME_CONSTANT_S));
    double once = 0;
    double twice = 0;
    for (int i = 0; i < clip.length(); i++) {
      double value = clip.sample(i) / FULL_SCALE - offset;
      sumOfSquares += value * value;
      once = keep * once + (1 - keep) * Math.abs(value);
      twice = keep * twice + (1 - keep) * once;
      countActive(twice, activeSamples, sinceAbove);
    }
    return crossing(sumOfSquares, activeSamples);
  }

  private static void countActive(double envelope, long[] activeSamples, int[] sinceAbove) {
    for (int j = 0; j < THRESHOLDS; j++) {
      sinceAbove[j] = envelope >= threshold(j) ? 0 : sinceAbove[j] + 1;
      if (sinceAbove[j] < HANGOVER) {
        activeSamples[j]++;
      }
    }
  }

  /** From half of full scale down, 6 dB apart. */
  private static double threshold(int j) {
    return Math.scalb(1.0, j - THRESHOLDS);
  }

  /** Where the active level stands exactly the margin above its threshold. */
  private static double crossing(double sumOfSquares, long[] activeSamples) {
    double lastLevel = Double.NEGATIVE_INFINITY;
    double lastGap = Double.NaN;
    for (int j = 0; j < THRESHOLDS && activeSamples[j] > 0; j++) {
      double level = 10 * Math.log10(sumOfSquares / activeSamples[j]);
      double gap = level - 20 * Math.log10(threshold(j)) - MARGIN_DB;
      if (gap <= 0) {
        double share = Double.isNaN(lastGap) ? 0 : gap / (gap - lastGap);
        return Double.isNaN(lastGap) ? level : level + share * (lastLevel - level);
      }
      lastLevel = level;
      lastGap = gap;
    }
    return lastLevel;
  }

  /**
   * What is there while nobody speaks. Each frame is measured about its own mean: a voice may lie
   * to one side of nought, and then the mean over all of the clip is no offset of its pauses.
   *
   * @param offset mean of the samples, in parts of full scale
   * @param levelDbfs power about it
   */
  private record Pauses(double offset, double levelDbfs) {}

  private static Pauses pauses(Clip clip) {
    int frames = clip.length() / FRAME;
    if (frames == 0) {
      return new Pauses(0, Double.NEGATIVE_INFINITY);
    }
    double[][] meanAndPower = new double[frames][];
    for (int frame = 0; frame < frames; frame++) {
      meanAndPower[frame] = meanAndPower(clip, frame * FRAME);
    }
    Arrays.sort(meanAndPower, (one, other) -> Double.compare(one[1], other[1]));
    int quiet = (int) (frames * QUIET_SHARE);
    double offset = 0;
    for (int frame = 0; frame <= quiet; frame++) {
      offset += meanAndPower[frame][0] / (quiet + 1);
    }
    return new Pauses(offset, 10 * Math.log10(meanAndPower[quiet][1]));
  }

  private static double[] meanAndPower(Clip clip, int from) {
    double sum = 0;
    double sumOfSquares = 0;
    for (int i = from; i < from + FRAME; i++) {
      double value = clip.sample(i) / FULL_SCALE;
      sum += value;
      sumOfSquares += value * value;
    }
    double mean = sum / FRAME;
    return new double[] {mean, Math.max(0, sumOfSquares / FRAME - mean * mean)};
  }
}
