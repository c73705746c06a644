package tallyback.log;

import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;

/**
 * The log for its one writer: what was said goes in and is never overwritten. At most one writer
 * has a data file open at a time, across all processes. May be used from several threads; calls
 * take turns.
 *
 * <p>When a method returns, what it noted is on disk and survives whatever is killed next. When it
 * throws, nothing of it was noted, with one exception: after a failure of the disk itself an
 * unacknowledged entry may turn out to have been noted. Saying it again under the same id settles
 * that without noting it twice.
 *
 * <p>{@link #close} gives the file free for another writer; it is safe to close twice.
 */
public interface JobLog extends LogReader {

  /**
   * Opens a job, or carries on with one that is open: when the job is there with the same plan, its
   * stored opening is returned and nothing is noted.
   *
   * @param opening its statement is a {@link tallyback.model.Statement.JobOpened} with the plan's
   *     text and hash
   * @return the opening entry, sequence number 1
   * @throws LogRefused if the job is there with another plan or closed, it is new and can't be
   *     called so ({@link JobName}), the plan's hash is not that of its text, or the id is taken
   * @throws LogFailed if it could not be noted
   */
  Entry openJob(Draft opening);

  /**
   * Notes an entry with its sound, both or neither. The same id again with the same content
   * (whatever its {@code recordedAt}) returns the stored entry and notes nothing.
   *
   * @param draft anything but the opening of a job
   * @param clip its sound, or null
   * @return the entry with its sequence number, exactly as it will be read back
   * @throws LogRefused if the job is unknown or closed, or the id is taken by something else
   * @throws LogFailed if it could not be noted
   */
  Entry append(Draft draft, @Nullable SoundClip clip);

  /**
   * Takes a clip's sound out of the log; the entries stay, and still name it.
   *
   * @param hash SHA-256 as 64 hex digits
   * @return false when the log didn't hold it
   */
  boolean removeClip(String hash);
}
