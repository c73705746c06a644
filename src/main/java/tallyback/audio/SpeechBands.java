package tallyback.audio;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * How loud each band of an utterance is in its loud moments, and how loud half of the time: twenty
 * bands of equal width in mel from 200 to 7,000 Hz, in frames of 10 ms, each smoothed with its
 * neighbours. What speech stands out by is added up band by band, as the articulation index does
 * (N. R. French, J. C. Steinberg, <cite>Factors governing the intelligibility of speech
 * sounds</cite>, Journal of the Acoustical Society of America 19, 1947): a whistle, the rumble of
 * wind or a hum takes few bands away, however loud it is, and a train or other people's voices take
 * all.
 *
 * <p>Thread rule: immutable; share freely.
 */
public final class SpeechBands {

  /** How many bands there are. */
  static final int BANDS = SpeechDetector.BANDS;

  /** More than this in one band does not help to understand another. */
  private static final double MOST_DB = 30;

  private static final double LOUD = 0.95;
  private static final double USUAL = 0.5;

  /** One step of a 16-bit sample: what is below it is silence. */
  private static final double STEP = 1.0 / (32_768.0 * 32_768.0);

  private final List<Double> loudDb;
  private final List<Double> usualDb;

  private SpeechBands(List<Double> loudDb, List<Double> usualDb) {
    this.loudDb = List.copyOf(loudDb);
    this.usualDb = List.copyOf(usualDb);
  }

  /** Measures a clip. */
  public static SpeechBands of(Clip clip) {
    int window = SpeechDetector.windowSamples();
    short[] samples = Arrays.copyOf(clip.samples(), Math.max(window, clip.length()));
    SpeechDetector detector = new SpeechDetector(-120);
    int frames = (samples.length - window) / SpeechDetector.FRAME_SHIFT + 1;
    double[][] powers = new double[frames][];
    for (int frame = 0; frame < frames; frame++) {
      powers[frame] = detector.powers(samples, frame * SpeechDetector.FRAME_SHIFT);
    }
    List<Double> loud = new ArrayList<>();
    List<Double> usual = new ArrayList<>();
    double[] levels = new double[frames];
    for (int band = 0; band < BANDS; band++) {
      for (int frame = 0; frame < frames; frame++) {
        levels[frame] = smoothedDb(powers, frame, band);
      }
      Arrays.sort(levels);
      loud.add(levels[(int) ((frames - 1) * LOUD)]);
      usual.add(levels[(int) ((frames - 1) * USUAL)]);
    }
    return new SpeechBands(loud, usual);
  }

  private static double smoothedDb(double[][] powers, int frame, int band) {
    int from = Math.max(0, frame - 1);
    int to = Math.min(powers.length - 1, frame + 1);
    double sum = 0;
    for (int each = from; each <= to; each++) {
      sum += powers[each][band];
    }
    return db(sum / (to - from + 1));
  }

  static double db(double power) {
    return 10 * Math.log10(power + STEP);
  }

  /** How loud each band is in the loud moments: the level that a twentieth of the frames reach. */
  public List<Double> loudDb() {
    return loudDb;
  }

  /**
   * How far the loud moments stand out of what is there half of the time, 0 to 30 dB, the mean of
   * all bands.
   */
  public double prominenceDb() {
    return prominenceDb(loudDb, usualDb);
  }

  /**
   * How far such speech would stand out of a room.
   *
   * @param loudDb how loud each band of the speech is in its loud moments
   * @param roomDb how loud each band of the room is
   * @return 0 to 30 dB
   */
  public static double prominenceDb(List<Double> loudDb, List<Double> roomDb) {
    double sum = 0;
    for (int band = 0; band < BANDS; band++) {
      sum += Math.max(0, Math.min(MOST_DB, loudDb.get(band) - roomDb.get(band)));
    }
    return sum / BANDS;
  }
}
