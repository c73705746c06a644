package tallyback.audio;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * How loud a room is in each band of {@link SpeechBands} while nobody speaks: the level below which
 * three quarters of the last three seconds lie. So a noise that comes in blows counts by its blows,
 * and the first moments of speech, before they are known to be speech, don't count.
 *
 * <p>Thread rule: one thread adds; {@link #levelsDb} may be asked from any.
 */
public final class RoomBands {

  private static final int SHIFT = SpeechDetector.FRAME_SHIFT;
  private static final int FRAMES = 300;
  private static final int RECKONED_EVERY = 20;

  /** Each frame is smoothed with so many in all. */
  private static final int SMOOTHED = 3;

  private static final double SHARE = 0.75;

  private final SpeechDetector detector = new SpeechDetector(-120);
  private final short[] window = new short[SpeechDetector.windowSamples()];
  private final double[][] powers = new double[SMOOTHED][SpeechBands.BANDS];
  private final double[][] levels = new double[SpeechBands.BANDS][FRAMES];
  private int fresh;
  private int count;
  private volatile List<Double> levelsDb = List.of();

  /**
   * Takes the next samples that nobody spoke into.
   *
   * @param samples 16 kHz mono
   * @param length how many of them, from the beginning of the array
   */
  public void add(short[] samples, int length) {
    for (int from = 0; from < length; ) {
      int piece = Math.min(SHIFT - fresh, length - from);
      System.arraycopy(window, piece, window, 0, window.length - piece);
      System.arraycopy(samples, from, window, window.length - piece, piece);
      from += piece;
      fresh += piece;
      if (fresh == SHIFT) {
        fresh = 0;
        frame();
      }
    }
  }

  private void frame() {
    powers[count % SMOOTHED] = detector.powers(window, 0);
    for (int band = 0; band < SpeechBands.BANDS; band++) {
      double sum = 0;
      for (double[] each : powers) {
        sum += each[band];
      }
      levels[band][count % FRAMES] = SpeechBands.db(sum / SMOOTHED);
    }
    count = count + 1 == 2 * FRAMES ? FRAMES : count + 1;
    if (count >= FRAMES && count % RECKONED_EVERY == 0) {
      List<Double> reckoned = new ArrayList<>();
      for (double[] band : levels) {
        double[] sorted = band.clone();
        Arrays.sort(sorted);
        reckoned.add(sorted[(int) (FRAMES * SHARE)]);
      }
      levelsDb = List.copyOf(reckoned);
    }
  }

  /** The level of each band in dB; none in the first three seconds. */
  public List<Double> levelsDb() {
    return levelsDb;
  }
}
