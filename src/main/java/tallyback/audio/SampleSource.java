package tallyback.audio;

import java.io.IOException;

/**
 * A stream of 16 kHz mono samples.
 *
 * <p>Thread rule: one thread reads; {@link #close} may be called from any and ends the stream.
 */
public interface SampleSource extends AutoCloseable {

  /**
   * The next samples; waits for them.
   *
   * @param buffer filled from its beginning
   * @return how many samples were put in, at least one; or -1 at the end
   * @throws IOException if the sound stops coming
   */
  int read(short[] buffer) throws IOException;

  /** Whether what was read last does not follow on what was read before. */
  default boolean isBroken() {
    return false;
  }

  @Override
  void close() throws IOException;
}
