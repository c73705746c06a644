package tallyback.speech;

import tallyback.audio.Clip;

/**
 * The port to a second recogniser, of any kind: a clip of one utterance in, a line of text out. It
 * knows nothing of the grammar and gives no scores; what it printed counts only where it is a
 * phrase of the grammar, and then as one opinion beside the first recogniser's ({@link
 * TwoOpinions}).
 *
 * <p>Thread rule: one owner, the thread that opened it; {@link SecondEar} is that. {@link #close}
 * may be called from any thread, even while it hears.
 */
public interface SecondRecogniser extends AutoCloseable {

  /**
   * Listens to one clip; may take long, but not for ever.
   *
   * @param clip one utterance
   * @return what it understood, as it puts it; empty for nothing
   * @throws SecondFailed if it can't hear any more; it is to be closed then
   * @throws InterruptedException if interrupted
   */
  String hear(Clip clip) throws SecondFailed, InterruptedException;

  @Override
  void close();
}
