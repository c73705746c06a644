package tallyback.log;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A question to the log: which jobs. Everything given must fit.
 *
 * <p>Words are plain words: of each it is looked for what begins with it, whatever its case and
 * accents, and all of them must be there: each either in one and the same entry (what was said or
 * typed, and the names the plan has for what it is about) or in the job's own names (its id, plan,
 * machine, serial number, owner). Signs that are no letters and no digits part words and mean
 * nothing.
 *
 * @param words looked for everywhere; empty for every job
 * @param machine looked for in the machine's name, serial number and owner; empty for every one
 * @param plan looked for in the plan's name; empty for every one
 * @param since opened at this time or later, or null
 * @param until opened before this time, or null
 * @param onlyOpen only those that are not closed
 * @param before only those older than this job, to go on a list; null to begin it
 * @param count how many at most, from 1 to {@link #MOST}
 */
public record JobSearch(
    String words,
    String machine,
    String plan,
    @Nullable Instant since,
    @Nullable Instant until,
    boolean onlyOpen,
    @Nullable String before,
    int count) {

  /** No answer is longer. */
  public static final int MOST = 1000;

  /** No text to look for is longer, in characters. */
  public static final int MOST_CHARACTERS = 400;

  /** How many jobs a page of a list has, unless said otherwise. */
  public static final int USUAL = 20;

  /** The newest of all jobs. */
  public static final JobSearch ALL = new JobSearch("", "", "", null, null, false, null, USUAL);

  /**
   * Checks what was asked.
   *
   * @throws LogRefused if the count is out of range or a text too long
   */
  public JobSearch {
    if (count < 1 || count > MOST) {
      throw new LogRefused("count: expected 1 to " + MOST + ", found " + count);
    }
    for (String text : new String[] {words, machine, plan}) {
      if (text.length() > MOST_CHARACTERS) {
        throw new LogRefused(
            "to look for: expected at most "
                + MOST_CHARACTERS
                + " characters, found "
                + text.length()
                + "; name fewer words");
      }
    }
  }

  /** The same for words. */
  public JobSearch withWords(String text) {
    return new JobSearch(text, machine, plan, since, until, onlyOpen, before, count);
  }

  /** The same for a machine. */
  public JobSearch withMachine(String text) {
    return new JobSearch(words, text, plan, since, until, onlyOpen, before, count);
  }

  /** The same for a plan. */
  public JobSearch withPlan(String text) {
    return new JobSearch(words, machine, text, since, until, onlyOpen, before, count);
  }

  /** The same for jobs opened in a time. */
  public JobSearch withTime(@Nullable Instant from, @Nullable Instant to) {
    return new JobSearch(words, machine, plan, from, to, onlyOpen, before, count);
  }

  /** The same for open jobs alone, or not. */
  public JobSearch withOnlyOpen(boolean open) {
    return new JobSearch(words, machine, plan, since, until, open, before, count);
  }

  /** The same from after a job on. */
  public JobSearch withBefore(@Nullable String job) {
    return new JobSearch(words, machine, plan, since, until, onlyOpen, job, count);
  }

  /** The same for so many. */
  public JobSearch withCount(int many) {
    return new JobSearch(words, machine, plan, since, until, onlyOpen, before, many);
  }
}
