package tallyback.speech.adapt;

import java.util.Optional;
import tallyback.audio.Clip;

/**
 * The port to whatever learns how speech sounds in a noise, on a copy of the recogniser's model.
 *
 * <p>Thread rule: one owner, as for a {@link tallyback.speech.Recogniser}. What is learned may be
 * handed to the recogniser's own thread.
 */
public interface NoiseLearner {

  /** Called between two pieces of work of some tens of milliseconds, so that they can be spread. */
  @FunctionalInterface
  interface Pace {
    /**
     * Waits for as long as the work is to rest.
     *
     * @throws InterruptedException if what is being learned is not wanted any more
     */
    void rest() throws InterruptedException;
  }

  /**
   * Learns a noise.
   *
   * @param noise a few seconds of it, without speech; its first part is learned from, its last is
   *     for the check
   * @param snrDb how far speech stands above it, in dB
   * @param pace called again and again while it works
   * @return what was learned, better or not: see {@link NoiseModel#check}; empty when the noise is
   *     silent or too faint to matter
   * @throws InterruptedException if the pace is interrupted
   */
  Optional<NoiseModel> learn(Clip noise, double snrDb, Pace pace) throws InterruptedException;

  /**
   * Whether a noise is much like one that was learned.
   *
   * @param learned by this learner
   * @param noise a few seconds of it, without speech
   * @param snrDb how far speech stands above it, in dB
   * @return whether that model would be used in it
   */
  boolean isLike(NoiseModel learned, Clip noise, double snrDb);
}
