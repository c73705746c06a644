package tallyback.dialogue;

import org.jspecify.annotations.Nullable;
import tallyback.log.Draft;
import tallyback.log.SoundClip;
import tallyback.model.Entry;

/**
 * Where entries are noted: the job's log, or nowhere when somebody only tries what would be noted.
 */
@FunctionalInterface
public interface NotePad {

  /** Notes an entry; when this returns it is safe. */
  Entry note(Draft draft, @Nullable SoundClip clip);
}
