package tallyback.audio;

/**
 * Counts the seconds of one channel in which the microphone was overdriven: more than a five
 * hundredth of the samples stand at full scale beside another one that does (a choice of our own,
 * no source). A single sample at full scale is only the peak of a recording that was turned up as
 * far as it goes. What was clipped before it was turned down can't be told this way.
 *
 * <p>Thread rule: one thread.
 */
final class FullScale {

  private static final int SHARE = 500;

  private final int rateHz;
  private long samples;
  private int clipped;
  private boolean before;
  private long seconds;
  private long firstSecond = -1;

  FullScale(int rateHz) {
    this.rateHz = rateHz;
  }

  void accept(int sample) {
    boolean full = reaches(sample);
    if (full && before) {
      clipped++;
    }
    before = full;
    if (++samples % rateHz == 0) {
      endSecond();
    }
  }

  static boolean reaches(int sample) {
    return sample >= Short.MAX_VALUE || sample <= -Short.MAX_VALUE;
  }

  private void endSecond() {
    if (clipped > rateHz / SHARE) {
      seconds++;
      firstSecond = firstSecond < 0 ? (samples - 1) / rateHz : firstSecond;
    }
    clipped = 0;
  }

  /** How many seconds were overdriven, the last one counted even if it is not whole. */
  long seconds() {
    return clipped > rateHz / SHARE ? seconds + 1 : seconds;
  }

  /** The first of them, from 0; only if there is one. */
  long firstSecond() {
    return firstSecond < 0 ? (samples - 1) / rateHz : firstSecond;
  }
}
