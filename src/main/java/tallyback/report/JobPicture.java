package tallyback.report;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;

/**
 * A picture of a job and where it belongs.
 *
 * @param entry its entry, as it holds now
 * @param at when it was taken
 * @param clock the same as a shop writes it, with its day in a job of several
 * @param photo the number of the photo mark it belongs to, or null
 * @param of what that mark was said to be of, in words; empty when nobody said
 * @param step the step that was under way, in words; empty when none was
 * @param beside the entry beside which it is shown: its photo mark, else what was told last before
 *     it; its own entry when nothing was
 * @param bytes the picture, {@link JobRecord#PICTURE_TYPE}; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // handed on, never compared
public record JobPicture(
    Entry entry,
    Instant at,
    String clock,
    @Nullable Integer photo,
    String of,
    String step,
    Entry beside,
    byte[] bytes) {

  /** What is to be seen, for whoever can't see it: which photo, of what, when, in which step. */
  public String words() {
    StringBuilder words = new StringBuilder(photo == null ? "Picture" : "Photo " + photo);
    if (!of.isEmpty()) {
      words.append(", ").append(of);
    }
    words.append(", ").append(clock);
    return (step.isEmpty() ? words : words.append(", during: ").append(step)).toString();
  }
}
