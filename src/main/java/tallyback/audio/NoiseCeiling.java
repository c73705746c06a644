package tallyback.audio;

import java.util.Arrays;

/**
 * How loud the loud moments of the noise are: a high quantile of the levels of the last seconds in
 * which nobody spoke. The floor of a noise that comes and goes says nothing about its strokes; this
 * does.
 *
 * <p>Thread rule: one thread.
 */
final class NoiseCeiling {

  private static final int LATEST_FRAMES = 400;
  private static final int LEAST_FRAMES = 30;

  /** A single bang in four seconds stays above it. */
  private static final double QUANTILE = 0.95;

  private final double[] levels = new double[LATEST_FRAMES];
  private int count;
  private double db = Double.NaN;

  /** Takes the level of a frame without speech in. */
  void learn(double levelDb) {
    levels[count % LATEST_FRAMES] = levelDb;
    count++;
    db = Double.NaN;
  }

  /** Whether enough noise was heard. */
  boolean isKnown() {
    return count >= LEAST_FRAMES;
  }

  /** The level in dB; negative infinity while it is not known. */
  double db() {
    if (Double.isNaN(db)) {
      double[] sorted = Arrays.copyOf(levels, Math.min(count, LATEST_FRAMES));
      Arrays.sort(sorted);
      db = isKnown() ? sorted[(int) (QUANTILE * (sorted.length - 1))] : Double.NEGATIVE_INFINITY;
    }
    return db;
  }
}
