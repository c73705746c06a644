package tallyback.web;

/**
 * How far the clock of a page is from this machine's, from messages that go there and back: the one
 * that was fastest among the latest tells best. One that contradicts it, however slow it was, shows
 * that one of the clocks was set or stood still while its machine slept: what was measured before
 * tells nothing then. One thread at a time.
 */
final class PageClock {

  private static final int KEPT = 12;

  /** Clocks that are put right bit by bit move so far between two messages. */
  private static final double PUT_RIGHT_MS = 250;

  private final double[] offsetMs = new double[KEPT];
  private final double[] tripMs = new double[KEPT];
  private int count;

  /** From the first message: it went one way only, so that any other tells better. */
  PageClock(double pageMs, long receivedMs) {
    add(receivedMs - pageMs, Double.MAX_VALUE);
  }

  /**
   * A message came back.
   *
   * @param sentMs when it was sent, by this machine's clock
   * @param pageMs when the page answered, by its own
   * @param receivedMs when the answer came
   * @return how far one of the clocks was set since the last, in ms; 0 when neither was
   */
  double measured(long sentMs, double pageMs, long receivedMs) {
    double offset = (sentMs + receivedMs) / 2.0 - pageMs;
    double trip = (double) Math.max(0, receivedMs - sentMs);
    int best = best();
    double moved = offset - offsetMs[best];
    boolean contradicts = Math.abs(moved) > trip / 2 + tripMs[best] / 2 + PUT_RIGHT_MS;
    if (contradicts) {
      count = 0;
    }
    add(offset, trip);
    return contradicts ? moved : 0;
  }

  private void add(double offset, double trip) {
    offsetMs[count % KEPT] = offset;
    tripMs[count % KEPT] = trip;
    count++;
  }

  private int best() {
    int best = 0;
    for (int i = 1; i < Math.min(count, KEPT); i++) {
      best = tripMs[i] < tripMs[best] ? i : best;
    }
    return best;
  }

  /** What to add to a time of the page. */
  double offsetMs() {
    return offsetMs[best()];
  }
}
