package tallyback.bench.hearing;

import java.io.IOException;
import java.util.List;
import tallyback.audio.Clip;

/**
 * Something said, and its sound.
 *
 * @param id its name within its set
 * @param speaker who says it
 * @param said the words; none when it is no phrase of the grammar and ought to be rejected
 * @param sound its clean sound, made or read when it is wanted
 */
record Utterance(String id, String speaker, List<String> said, Sound sound) {

  Utterance {
    said = List.copyOf(said);
  }

  /** Where a sound comes from. */
  @FunctionalInterface
  interface Sound {
    Clip get() throws IOException, InterruptedException;
  }

  /** The same words with another sound. */
  Utterance sounding(Sound other) {
    return new Utterance(id, speaker, said, other);
  }

  /** The same sound, which is no entry any more. */
  Utterance withoutEntry() {
    return new Utterance(id, speaker, List.of(), sound);
  }
}
