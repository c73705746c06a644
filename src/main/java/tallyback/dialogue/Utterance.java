package tallyback.dialogue;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.log.SoundClip;
import tallyback.model.Source;

/**
 * One thing said or typed, on its way to being noted.
 *
 * @param id made where it was said (device, stream, first sample), so that a retry notes nothing
 *     twice
 * @param at when it was said
 * @param source spoken or typed
 * @param readings the words as understood, best first; empty when the sound was no entry
 * @param doubtful true when the best reading must not be noted without asking
 * @param clip its sound, or null
 * @param called true when the attention word stood in front of it: then it is kept even if it was
 *     not understood
 * @param snrDb speech to noise of its sound in whole dB, 0 or more; null when not measured
 */
public record Utterance(
    String id,
    Instant at,
    Source source,
    List<String> readings,
    boolean doubtful,
    @Nullable SoundClip clip,
    boolean called,
    @Nullable Integer snrDb) {

  /** Copies the readings. */
  public Utterance {
    readings = List.copyOf(readings);
  }

  /** One that nobody called out with the attention word. */
  public Utterance(
      String id,
      Instant at,
      Source source,
      List<String> readings,
      boolean doubtful,
      @Nullable SoundClip clip) {
    this(id, at, source, readings, doubtful, clip, false, null);
  }
}
