package tallyback.log;

/** Told how far something is that may take long. */
@FunctionalInterface
public interface Progress {

  /** Nobody wants to know. */
  Progress UNTOLD = (done, all) -> {};

  /**
   * Called now and then.
   *
   * @param done how many entries are done
   * @param all of how many
   */
  void at(long done, long all);
}
