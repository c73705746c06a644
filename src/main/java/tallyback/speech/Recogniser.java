package tallyback.speech;

import java.util.List;
import tallyback.audio.Clip;
import tallyback.speech.adapt.NoiseModel;

/**
 * The port to a speech recogniser: a clip of one utterance in, readings with their scores out.
 *
 * <p>A recogniser hears nothing but what its grammars allow, and answers every clip by itself: what
 * it heard before does not change what it hears next, unless it is told to {@link #use} it. No
 * clip, however bad (silence, a click, a roar), makes it fail or spoils it.
 *
 * <p>Thread rule: one owner. The thread that first calls {@link #hear} or {@link #score} owns the
 * recogniser; calls from another thread are refused with {@link IllegalStateException}. Opening on
 * one thread and handing over to the owner is allowed. {@link #close} may be called from any thread
 * once the owner is done; it frees the models, and after it every call is refused with {@link
 * IllegalStateException}. Closing twice does nothing.
 */
public interface Recogniser extends AutoCloseable {

  /**
   * Listens to one clip.
   *
   * @param clip one utterance, as cut out of a stream
   * @param mode which of the opened grammars to listen with
   * @return what was heard; empty readings when the clip is rejected
   * @throws IllegalArgumentException if no grammar was opened for the mode
   */
  Hearing hear(Clip clip, ListeningMode mode);

  /**
   * Scores given word strings against a clip, each whether or not a grammar allows it.
   *
   * @param clip the clip
   * @param candidates word strings, each of at least one word
   * @return one score each, in the order given
   * @throws UnknownWords if a word has no pronunciation; all such words are named
   */
  List<ScoredCandidate> score(Clip clip, List<List<String>> candidates);

  /**
   * From now on hears clips in noise that is like one of these as was learned for it; every other
   * clip as before. The figures of trust hold with and without.
   *
   * @param learned noises, instead of those given before
   * @throws IllegalArgumentException if one comes from another adapter's learner
   */
  void use(List<NoiseModel> learned);

  @Override
  void close();
}
