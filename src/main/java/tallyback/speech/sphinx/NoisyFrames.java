package tallyback.speech.sphinx;

import java.util.List;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.LevelReport;
import tallyback.audio.NoiseReducer;

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

  /** Where noise was taken out, mistakes are those of noise, however little is left. */
  private static final double NOISY_STILL_DB = 29;

  /** So much less noise, in dB, makes hearing better; more takes speech away with it. Tuned. */
  private static final double LESS_DB = -8;

  private final Features features;
  private final NoiseMatch noise;

  NoisyFrames(Features features, NoiseMatch noise) {
    this.features = features;
    this.noise = noise;
  }

  /**
   * A clip as it is to be searched, and its levels.
   *
   * @param heardSnrDb speech to noise in it; of a noisy clip never so much that it counts as quiet
   */
  record Sound(Clip clip, LevelReport level, double heardSnrDb) {}

  static Sound asItIs(Clip clip, LevelReport level) {
    return new Sound(clip, level, level.snrDb());
  }

  /** With some of the noise taken out, if there is any. */
  static Sound lessNoisy(Clip clip, LevelReport level) {
    // What is in the gaps of speech alone may be speech: so it is with a fifth of quiet utterances.
    if (level.snrDb() >= NOISY_BELOW_DB || LevelMeter.snrAroundDb(clip) >= NOISY_BELOW_DB) {
      return asItIs(clip, level);
    }
    Clip reduced = NoiseReducer.reduce(clip, LESS_DB);
    LevelReport left = LevelMeter.measure(reduced);
    return new Sound(reduced, left, Math.min(left.snrDb(), NOISY_STILL_DB));
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

  /**
   * Of a clip with less noise, with the differences taken from what the speech would be without.
   */
  List<TiedMixtures.Frame> sharpened(Clip clip) {
    Sound sound = lessNoisy(clip, LevelMeter.measure(clip));
    List<TiedMixtures.Frame> frames = matched(sound.clip(), sound.level());
    if (noise.isMatched()) {
      noise.retakeDifferences(frames);
    }
    return frames;
  }
}
