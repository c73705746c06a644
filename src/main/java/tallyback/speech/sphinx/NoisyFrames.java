package tallyback.speech.sphinx;

import java.util.List;
import tallyback.audio.Clip;
import tallyback.audio.LevelReport;

/**
 * The frames of a clip, with the model matched to its noise.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class NoisyFrames {

  /** A clip with fewer frames holds no word, and the library's search needs a few to begin with. */
  static final int FEWEST = 10;

  /** Above this ratio of speech to noise, matching the model to the noise changes nothing. */
  private static final double NOISY_BELOW_DB = 30;

  private final Features features;
  private final NoiseMatch noise;

  NoisyFrames(Features features, NoiseMatch noise) {
    this.features = features;
    this.noise = noise;
  }

  /** With the differences as they are; none of a clip that is too short. */
  List<TiedMixtures.Frame> matched(Clip clip, LevelReport level) {
    List<TiedMixtures.Frame> frames = features.of(clip);
    if (frames.size() >= FEWEST && level.snrDb() < NOISY_BELOW_DB) {
      if (level.isNoiseInGaps()) {
        noise.matchToGaps(frames);
      } else {
        noise.matchToMargins(frames);
      }
    } else {
      noise.undo();
    }
    return frames;
  }

  /** Likewise, with the differences taken from what the speech would be without the noise. */
  List<TiedMixtures.Frame> sharpened(Clip clip, LevelReport level) {
    List<TiedMixtures.Frame> frames = matched(clip, level);
    if (noise.isMatched()) {
      noise.retakeDifferences(frames);
    }
    return frames;
  }
}
