package tallyback.audio;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;

/**
 * Keeps the last seconds of what is heard while nobody speaks.
 *
 * <p>That somebody speaks is known a little late, and that nobody does any more a little early:
 * what came just before and just after is left out.
 *
 * <p>Thread rule: {@link #add} belongs to one thread; {@link #noise} may be called from any.
 */
public final class NoiseKeeper {

  private static final int MS = Clip.SAMPLE_RATE_HZ / 1000;
  private static final int BEFORE_SPEECH = 800 * MS;
  private static final int AFTER_SPEECH = 700 * MS;

  private final int most;
  private final Deque<short[]> undecided = new ArrayDeque<>();
  private final Deque<short[]> kept = new ArrayDeque<>();
  private int undecidedLength;
  private int keptLength;
  private int afterSpeech;

  /**
   * Nothing is kept yet.
   *
   * @param mostMs how much is kept
   */
  public NoiseKeeper(int mostMs) {
    most = mostMs * MS;
  }

  /**
   * Takes the next samples.
   *
   * @param samples 16 kHz mono
   * @param count how many of them, from the beginning of the array
   * @param speech whether somebody is speaking
   */
  public synchronized void add(short[] samples, int count, boolean speech) {
    if (speech) {
      undecided.clear();
      undecidedLength = 0;
      afterSpeech = AFTER_SPEECH;
      return;
    }
    if (afterSpeech > 0) {
      afterSpeech -= count;
      return;
    }
    undecided.add(Arrays.copyOf(samples, count));
    undecidedLength += count;
    while (!undecided.isEmpty() && undecidedLength - undecided.element().length >= BEFORE_SPEECH) {
      short[] sure = undecided.remove();
      undecidedLength -= sure.length;
      kept.add(sure);
      keptLength += sure.length;
    }
    while (keptLength > most) {
      keptLength -= kept.remove().length;
    }
  }

  /** Forgets what was kept: the noise is another one now. */
  public synchronized void forget() {
    kept.clear();
    keptLength = 0;
  }

  /**
   * What is kept.
   *
   * @return the noise, the newest last; of no length at first
   */
  public synchronized Clip noise() {
    short[] samples = new short[keptLength];
    int at = 0;
    for (short[] piece : kept) {
      System.arraycopy(piece, 0, samples, at, piece.length);
      at += piece.length;
    }
    return new Clip(samples, 0);
  }
}
