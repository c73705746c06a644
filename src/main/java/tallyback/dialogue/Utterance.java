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
 */
public record Utterance(
    String id,
    Instant at,
    Source source,
    List<String> readings,
    boolean doubtful,
    @Nullable SoundClip clip) {

  /** Copies the readings. */
  public Utterance {
    readings = List.copyOf(readings);
  }
}
