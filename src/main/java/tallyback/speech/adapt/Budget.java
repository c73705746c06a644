package tallyback.speech.adapt;

/**
 * How much of a core may be worked in the mean: what is not worked is saved up, so that there is
 * enough for a piece of work when one comes, and that is done at half a core at most.
 *
 * <p>Thread rule: one owner.
 */
final class Budget {

  private final double share;
  private final long mostNanos;
  private double savedNanos;

  /**
   * All that can be saved up is there at first.
   *
   * @param share the share of one core
   * @param mostNanos so much work can be saved up
   */
  Budget(double share, long mostNanos) {
    this.share = share;
    this.mostNanos = mostNanos;
    savedNanos = (double) mostNanos;
  }

  /**
   * Pays for work.
   *
   * @param elapsedNanos the time since what was paid for last, rests included
   * @param workedNanos how much of it a core was busy
   * @return how long to rest now
   */
  long restNanos(long elapsedNanos, long workedNanos) {
    double earned = share * (double) elapsedNanos - (double) workedNanos;
    savedNanos = Math.min((double) mostNanos, savedNanos + earned);
    long owed = savedNanos < 0 ? (long) (-savedNanos / share) : 0;
    return Math.max(workedNanos, owed);
  }
}
