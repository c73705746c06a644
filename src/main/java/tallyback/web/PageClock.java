package tallyback.web;

/**
 * How far the clock of a page is from this machine's, from messages that go there and back: the one
 * that was fastest among the latest tells best. One thread at a time.
 */
final class PageClock {

  private static final int KEPT = 12;

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
   */
  void measured(long sentMs, double pageMs, long receivedMs) {
    add((sentMs + receivedMs) / 2.0 - pageMs, (double) (receivedMs - sentMs));
  }

  private void add(double offset, double trip) {
    offsetMs[count % KEPT] = offset;
    tripMs[count % KEPT] = trip;
    count++;
  }

  /** What to add to a time of the page. */
  double offsetMs() {
    int best = 0;
    for (int i = 1; i < Math.min(count, KEPT); i++) {
      best = tripMs[i] < tripMs[best] ? i : best;
    }
    return offsetMs[best];
  }
}
