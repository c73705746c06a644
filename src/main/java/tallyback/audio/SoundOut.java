package tallyback.audio;

import java.util.function.BooleanSupplier;

/**
 * Where sound is played.
 *
 * <p>Thread rule: one thread plays; {@link #close} may be called from any.
 */
public interface SoundOut extends AutoCloseable {

  /**
   * Plays a clip to its end, or until it is not wanted any more.
   *
   * @param wanted asked many times a second, from the beginning on: whoever stops a sound before it
   *     has begun is heeded, and stops no other
   * @return whether it was played to its end
   */
  boolean play(Clip clip, BooleanSupplier wanted);

  @Override
  void close();
}
