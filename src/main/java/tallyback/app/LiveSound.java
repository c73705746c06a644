package tallyback.app;

import java.time.Instant;
import tallyback.audio.SampleSource;

/**
 * The sound of a live job from somewhere else, such as a page: each sample has a name and a time of
 * its own, however late it comes in, and comes with what held when it was recorded.
 *
 * <p>Thread rule: as {@link SampleSource}; {@link #spot} may be called from any thread, the rest
 * belongs to the one that reads.
 */
public interface LiveSound extends SampleSource {

  /**
   * A place in the sound.
   *
   * @param stream names the recording; with the sample it names whatever is noted of it, so that
   *     sound that comes in twice notes nothing twice
   * @param sample which sample of that recording, from 0
   * @param at when it was recorded
   * @param free whether what is said there needs no attention word
   */
  record Spot(String stream, long sample, Instant at, boolean free) {}

  /**
   * The place of a sample.
   *
   * @param position how many samples were read before it
   */
  Spot spot(long position);

  /** Whether what was read last is to be listened to. */
  boolean isHeld();

  /** Whether what was read last may hold what is said aloud. */
  boolean isPlaying();

  /**
   * Told when what became of the sound is settled, on disk or no entry.
   *
   * @param position everything before it is settled
   */
  void settled(long position);
}
