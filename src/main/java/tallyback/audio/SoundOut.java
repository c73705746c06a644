package tallyback.audio;

/**
 * Where sound is played.
 *
 * <p>Thread rule: one thread plays; {@link #stop} and {@link #close} may be called from any.
 */
public interface SoundOut extends AutoCloseable {

  /**
   * Plays a clip to its end, or until it is stopped.
   *
   * @return false if it was stopped
   */
  boolean play(Clip clip);

  /** Stops what is being played. */
  void stop();

  @Override
  void close();
}
