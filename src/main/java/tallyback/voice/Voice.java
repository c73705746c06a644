package tallyback.voice;

import tallyback.audio.Clip;

/**
 * Turns text into speech. It only makes the sound; who plays it, and when, is not its business.
 *
 * <p>Thread rule: one thread at a time.
 */
public interface Voice extends AutoCloseable {

  /**
   * Speaks.
   *
   * @param text plain words and signs that a voice can read; may be empty
   * @return the sound, 16 kHz mono, without silence added
   */
  Clip speak(String text);

  @Override
  void close();
}
