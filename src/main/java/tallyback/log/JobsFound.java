package tallyback.log;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;

/**
 * The answer to a {@link JobSearch}.
 *
 * @param jobs the jobs, the one opened last first
 * @param all how many fit in all, those of earlier pages too
 * @param more whether older ones are left: ask again, before the last one
 */
public record JobsFound(List<Found> jobs, long all, boolean more) {

  /** So many entries of a job are told at most. */
  public static final int MOST_HITS = 3;

  /** Copies the list. */
  public JobsFound {
    jobs = List.copyOf(jobs);
  }

  /**
   * A job that fits.
   *
   * @param job the job
   * @param hits how many of its entries hold the words; 0 when its own names do, or none were given
   * @param first the first of those entries
   */
  public record Found(JobRow job, long hits, List<Hit> first) {

    /** Copies the list. */
    public Found {
      first = List.copyOf(first);
    }
  }

  /**
   * An entry that holds the words.
   *
   * @param seq its number
   * @param at when it happened
   * @param zone its time zone
   * @param words what was said or typed
   * @param withdrawn true when it was taken back or put right by a later entry
   */
  public record Hit(long seq, Instant at, ZoneId zone, String words, boolean withdrawn) {}
}
