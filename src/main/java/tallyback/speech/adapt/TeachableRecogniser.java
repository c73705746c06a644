package tallyback.speech.adapt;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.speech.Reading;
import tallyback.speech.Recogniser;

/**
 * A recogniser that can be taught a voice. Thread rule and closing as in {@link Recogniser}; all of
 * it belongs to the owner.
 */
public interface TeachableRecogniser extends Recogniser {

  /**
   * From now on takes every clip for one of this voice. To be called between utterances.
   *
   * @param voice the voice, or null for anybody's
   * @throws ProfileOfAnotherModel if it was learned with another acoustic model
   */
  void expect(@Nullable VoiceProfile voice);

  /**
   * How well known words fit a clip, by the voice that is expected.
   *
   * @param lesson the words and the clip
   * @return the words with their times and fits; empty when they can't be laid over the clip at all
   * @throws tallyback.speech.UnknownWords if a word has no pronunciation
   */
  Optional<Reading> follow(Lesson lesson);

  /**
   * Learns a voice from what it said. How it listens is as before.
   *
   * @param lessons clips of one voice in the quiet, with their words; those whose words can't be
   *     laid over them count for nothing
   * @throws IllegalArgumentException if none of them counts
   * @throws tallyback.speech.UnknownWords if a word has no pronunciation
   */
  VoiceProfile learn(List<Lesson> lessons);

  /** Fingerprint of the acoustic model. */
  String model();
}
