package tallyback.log;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;

/**
 * The log for whoever only looks. May be used from several threads (calls take turns), beside a
 * writer in this or another process; each call sees the log as it stands at that moment.
 *
 * <p>Every method throws {@link LogRefused} for wrong use and {@link LogFailed} when the file can't
 * be read or what it holds was altered after it was noted.
 *
 * <p>{@link #close} releases the file; it is safe to close twice, and any other call after it is an
 * {@link IllegalStateException}.
 */
public interface LogReader extends AutoCloseable {

  /**
   * All jobs, oldest opening first. Of one that this version can't read, what can be told of it
   * stands here all the same.
   */
  List<JobSummary> jobs();

  /**
   * The jobs that fit, newest opening first, with the entries in which words were found.
   *
   * @throws LogRefused if the job to go on from is unknown
   */
  JobsFound find(JobSearch search);

  /**
   * A job as a list shows it.
   *
   * @throws LogRefused if the job is unknown
   */
  JobRow row(String job);

  /**
   * The job meant: the named one; without a name the only open one, else the newest.
   *
   * @throws LogRefused if there is no job of that name, or none at all
   */
  default JobSummary choose(@Nullable String job) {
    List<JobSummary> all = jobs();
    if (job != null) {
      return all.stream()
          .filter(each -> each.id().equals(job))
          .findFirst()
          .orElseThrow(() -> UnknownJob.among(all, job));
    }
    List<JobSummary> open = all.stream().filter(each -> !each.closed()).toList();
    if (open.size() == 1) {
      return open.get(0);
    }
    return all.stream()
        .max(Comparator.comparing(JobSummary::openedAt).thenComparing(JobSummary::id))
        .orElseThrow(
            () -> new LogRefused("this log holds no job yet; note something first to open one"));
  }

  /**
   * The entries of a job in the order of their sequence numbers, checked against their hash chain.
   *
   * @throws LogRefused if the job is unknown
   * @throws LogFailed if an entry was altered or is missing
   */
  List<Entry> entries(String job);

  /**
   * The seals of a job, one for each time it was closed, the first first.
   *
   * @throws LogRefused if the job is unknown
   */
  List<Seal> seals(String job);

  /**
   * The whole hash of one of a job's entries, as it stands in the file; empty when the job has no
   * entry of that number.
   *
   * @throws LogRefused if the job is unknown
   */
  Optional<String> hashOf(String job, long seq);

  /**
   * The plan's text as frozen when the job was opened; empty when the job has no plan.
   *
   * @throws LogRefused if the job is unknown
   */
  Optional<String> planText(String job);

  /**
   * The bytes of a sound clip, checked against their hash; empty when the log doesn't hold it (any
   * more).
   *
   * @param hash SHA-256 as 64 hex digits
   * @throws ClipAltered if the bytes were altered
   */
  Optional<byte[]> clip(String hash);

  /**
   * Checks the whole file and lists all that is wrong. Damage is a result here, not an exception.
   */
  VerifyReport verify();

  /**
   * Writes a sound copy of the whole log, while it may be in use.
   *
   * @param target a file that doesn't exist yet
   * @throws LogRefused if the target exists, or its folder doesn't
   * @throws LogFailed if the copy can't be written, or doesn't verify; nothing is left at the
   *     target then
   */
  void backup(Path target);

  @Override
  void close();
}
