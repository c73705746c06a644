package tallyback.speech;

import java.util.List;
import tallyback.audio.Clip;
import tallyback.audio.LevelReport;

/**
 * What the recogniser made of one clip. It is evidence, not a decision: see {@link Doubt}.
 *
 * @param readings best first; those after the first are the strongest readings that differ from it
 *     in words which are easily mistaken: one at most with as many words or fewer, and one with
 *     more; and what a second search came to, if that was something else. Empty means rejected: an
 *     unbroken row of phones explains the sound better than the grammar, or no reading reached an
 *     end of the grammar.
 * @param fillerScore natural log of the likelihood of the sound given any phones in any order: what
 *     it is worth without the grammar. Comparable with {@link Reading#logScore} of the same clip.
 * @param contested whether the clip was searched a second time in another way, and that came to
 *     another meaning; what it came to is among the readings
 * @param level loudness and signal-to-noise ratio of the clip
 * @param clip the sound itself
 * @param heardSnrDb speech to noise in dB of what was searched: some noise may have been taken out
 */
public record Hearing(
    List<Reading> readings,
    double fillerScore,
    boolean contested,
    LevelReport level,
    Clip clip,
    double heardSnrDb) {

  /** Copies the readings. */
  public Hearing {
    readings = List.copyOf(readings);
  }

  /** Of a clip that was searched as it is. */
  public Hearing(
      List<Reading> readings, double fillerScore, boolean contested, LevelReport level, Clip clip) {
    this(readings, fillerScore, contested, level, clip, level.snrDb());
  }

  /**
   * Whether there is no reading at all.
   *
   * @return whether the clip was rejected
   */
  public boolean isRejected() {
    return readings.isEmpty();
  }
}
