package tallyback.model;

/**
 * The answer in three stages. Never a bare yes: {@link Answer#CLEAR} means that nothing said speaks
 * against it.
 *
 * @param startForTest may it be started for test
 * @param work may it go to work
 * @param handOver may it be handed over
 */
public record Verdict(Answer startForTest, Answer work, Answer handOver) {

  /** What can be said of one stage. */
  public enum Answer {
    /** Nothing against it in what was said. */
    CLEAR,
    /** At least one finding stands against it. */
    STOP,
    /** Nobody said enough to judge. */
    OPEN
  }
}
