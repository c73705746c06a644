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
 */
public record Hearing(
    List<Reading> readings, double fillerScore, boolean contested, LevelReport level, Clip clip) {

  /** Copies the readings. */
  public Hearing {
    readings = List.copyOf(readings);
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
