package tallyback.audio;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A stretch of the stream in which somebody seems to speak, frame by frame, while it is followed.
 *
 * <p>What counts as speech in it is judged by level: above the loud moments of the noise, yet never
 * so near to the level of the speech itself that a faint syllable would be lost, nor so far below
 * it that whatever else sounds in the shop would hold the utterance open. Ending relative to the
 * utterance's own level and to that of the background is common practice in endpoint detection (L.
 * R. Rabiner, M. R. Sambur, <cite>An algorithm for determining the endpoints of isolated
 * utterances</cite>, Bell System Technical Journal 54, 1975); the figures are tuned.
 *
 * <p>Thread rule: one thread.
 */
final class Spell {

  /** Frames around speech that belong to it when they rise above the floor of the noise. */
  static final int EDGE_FRAMES = 30;

  /** So many frames at or above it make the level of the speech: a bang has fewer. */
  private static final int RANK = 15;

  private static final double ABOVE_CEILING_DB = 2;
  private static final double LEAST_BELOW_OWN_DB = 6.5;
  private static final double MOST_BELOW_OWN_DB = 25;

  /** While the noise is not known, and for what is certainly no trace of noise. */
  private static final double STRONG_BELOW_OWN_DB = 12;

  /** Levels are counted in steps of half a dB. */
  private static final int STEPS = 200;

  /** Frames of speech with no longer pause than the hangover between them. */
  record Part(long first, long last, int speechFrames) {}

  private final long firstFrame;
  private final int[] counts = new int[STEPS + 1];
  private int counted;
  private double[] levels = new double[512];
  private boolean[] active = new boolean[512];
  private int frames;
  private long lastSpeech;
  private long lastStrong;

  /**
   * Begins.
   *
   * @param firstFrame the number of its first frame in the stream
   */
  Spell(long firstFrame) {
    this.firstFrame = firstFrame;
    lastSpeech = firstFrame;
    lastStrong = firstFrame;
  }

  /** Takes a frame from before the onset, which may belong to the edge of the speech. */
  void lead(double levelDb, boolean isActive) {
    append(levelDb, isActive);
  }

  /** Takes a frame of the onset, which is speech whatever its level. */
  void onset(double levelDb) {
    append(levelDb, true);
    speech(levelDb);
  }

  /**
   * Takes the next frame.
   *
   * @return whether it is speech
   */
  boolean add(double levelDb, boolean isActive, NoiseCeiling ceiling) {
    append(levelDb, isActive);
    boolean isSpeech = isActive && levelDb > threshold(ceiling);
    if (isSpeech) {
      speech(levelDb);
    }
    return isSpeech;
  }

  private void append(double levelDb, boolean isActive) {
    if (frames == levels.length) {
      levels = Arrays.copyOf(levels, 2 * frames);
      active = Arrays.copyOf(active, 2 * frames);
    }
    levels[frames] = levelDb;
    active[frames] = isActive;
    frames++;
  }

  private void speech(double levelDb) {
    counts[(int) Math.max(0, Math.min(STEPS, Math.round(2 * levelDb)))]++;
    counted++;
    lastSpeech = lastFrame();
    if (levelDb > ownDb() - STRONG_BELOW_OWN_DB) {
      lastStrong = lastSpeech;
    }
  }

  /** The level that the loudest syllables reach. */
  private double ownDb() {
    int seen = 0;
    for (int step = STEPS; step > 0; step--) {
      seen += counts[step];
      if (seen >= Math.min(RANK, counted)) {
        return step / 2.0;
      }
    }
    return 0;
  }

  private double threshold(NoiseCeiling ceiling) {
    double own = ownDb();
    double wanted = ceiling.isKnown() ? ceiling.db() + ABOVE_CEILING_DB : own - STRONG_BELOW_OWN_DB;
    return Math.max(own - MOST_BELOW_OWN_DB, Math.min(own - LEAST_BELOW_OWN_DB, wanted));
  }

  /** The number of its first frame. */
  long firstFrame() {
    return firstFrame;
  }

  /** The number of the last frame that was taken. */
  long lastFrame() {
    return firstFrame + frames - 1;
  }

  /** The number of the last frame with speech. */
  long lastSpeech() {
    return lastSpeech;
  }

  /** The number of the last frame that is not far below the level of the speech. */
  long lastStrong() {
    return lastStrong;
  }

  /** Takes what is far below the level of the speech for faint speech. */
  void strengthen() {
    lastStrong = lastFrame();
  }

  /** Whether a frame rises above the floor of the noise. */
  boolean isActive(long frame) {
    int at = (int) (frame - firstFrame);
    return at >= 0 && at < frames && active[at];
  }

  /**
   * The parts of it that are speech by what is known now: noise that came before the speech, and
   * was taken for it, no longer counts.
   *
   * @param longestPause in frames
   */
  List<Part> parts(NoiseCeiling ceiling, int longestPause) {
    double threshold = threshold(ceiling);
    List<Part> parts = new ArrayList<>();
    for (int at = 0; at < frames; at++) {
      if (active[at] && levels[at] > threshold) {
        long frame = firstFrame + at;
        Part before = parts.isEmpty() ? null : parts.get(parts.size() - 1);
        if (before != null && frame - before.last() <= longestPause) {
          parts.set(parts.size() - 1, new Part(before.first(), frame, before.speechFrames() + 1));
        } else {
          parts.add(new Part(frame, frame, 1));
        }
      }
    }
    return parts;
  }

  /** The first frame of a part with its edge. */
  long edgeBefore(Part part) {
    long first = part.first() - EDGE_FRAMES;
    while (first < part.first() && !isActive(first)) {
      first++;
    }
    return first;
  }

  /** The last frame of a part with its edge. */
  long edgeBehind(Part part) {
    long last = part.last() + EDGE_FRAMES;
    while (last > part.last() && !isActive(last)) {
      last--;
    }
    return last;
  }

  /** Gives the frames from one to another to what is known of the noise. */
  void teach(NoiseCeiling ceiling, long from, long to) {
    for (long frame = Math.max(from, firstFrame); frame <= Math.min(to, lastFrame()); frame++) {
      ceiling.learn(levels[(int) (frame - firstFrame)]);
    }
  }

  /** Judges its last speech anew, after something was learnt of the noise. */
  void reconsider(NoiseCeiling ceiling) {
    double threshold = threshold(ceiling);
    while (lastSpeech > firstFrame
        && !(isActive(lastSpeech) && levels[(int) (lastSpeech - firstFrame)] > threshold)) {
      lastSpeech--;
    }
  }
}
