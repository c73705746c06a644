package tallyback.audio;

/** What the cutter says of the utterance that it follows. */
public sealed interface Cut {

  /**
   * Somebody has paused. If the pause goes on, the utterance ends with this very clip.
   *
   * @param clip the utterance so far
   */
  record Likely(Clip clip) implements Cut {}

  /** Speech has gone on after a likely end: its clip is void. */
  record WentOn() implements Cut {}

  /**
   * An utterance has ended.
   *
   * @param clip all of it; the same as that of the likely end before it, if there was one and
   *     speech has not gone on since
   */
  record Ended(Clip clip) implements Cut {}
}
