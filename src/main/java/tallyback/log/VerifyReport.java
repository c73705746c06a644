package tallyback.log;

import java.util.List;

/**
 * What a check of the whole data file found.
 *
 * @param jobCount jobs looked at
 * @param entryCount entries looked at
 * @param clipCount sound clips looked at
 * @param pictureCount pictures looked at
 * @param problems all that is wrong, in the order found; empty for a sound file
 * @param notices what a reader should know though nothing is wrong, such as removed sound
 */
public record VerifyReport(
    long jobCount,
    long entryCount,
    long clipCount,
    long pictureCount,
    List<Problem> problems,
    List<String> notices) {

  /**
   * One thing that is wrong.
   *
   * @param where the place, in words
   * @param expected what belongs there
   * @param found what is there
   */
  public record Problem(String where, String expected, String found) {

    /** One line: where, expected, found. */
    @Override
    public String toString() {
      return OneLine.of(where + ": expected " + expected + ", found " + found);
    }
  }

  /** Keeps copies of the lists. */
  public VerifyReport {
    problems = List.copyOf(problems);
    notices = List.copyOf(notices);
  }

  /** True when nothing is wrong. */
  public boolean sound() {
    return problems.isEmpty();
  }
}
