package tallyback.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.reconcile.BenchJob;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

/**
 * How long a reconciliation takes after warm-up, for 1,000 to 100,000 entries: median of 21 and
 * quartiles.
 */
public final class ReconcilerBench {

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
  private static final int ROUNDS = 21;
  private static final int WARM_UP_ENTRIES = 2_000_000;

  private ReconcilerBench() {}

  /** Prints one line per size; other sizes may be given. */
  public static void main(String[] arguments) {
    int[] sizes =
        arguments.length == 0
            ? new int[] {1_000, 3_000, 10_000, 30_000, 100_000}
            : Arrays.stream(arguments).mapToInt(Integer::parseInt).toArray();
    for (int size : sizes) {
      Plan plan = BenchJob.plan(7);
      List<Entry> entries = BenchJob.entries(plan, size, 7);
      int findings = 0;
      int warmUp = Math.max(20, WARM_UP_ENTRIES / size);
      for (int round = 0; round < warmUp; round++) {
        findings += Reconciler.reconcile(plan, entries).findings().size();
      }
      double[] milliseconds = new double[ROUNDS];
      double[] byTheClock = new double[ROUNDS];
      for (int round = 0; round < ROUNDS; round++) {
        long clock = System.nanoTime();
        long start = THREADS.getCurrentThreadCpuTime();
        Outcome outcome = Reconciler.reconcile(plan, entries);
        milliseconds[round] = (THREADS.getCurrentThreadCpuTime() - start) / 1e6;
        byTheClock[round] = (System.nanoTime() - clock) / 1e6;
        findings += outcome.findings().size();
      }
      Arrays.sort(milliseconds);
      Arrays.sort(byTheClock);
      System.out.printf(
          Locale.ROOT,
          "%,7d entries: median %.1f ms, quartiles %.1f and %.1f ms, %.2f µs an entry; by the clock"
              + " %.1f ms (%d findings)%n",
          size,
          milliseconds[ROUNDS / 2],
          milliseconds[ROUNDS / 4],
          milliseconds[ROUNDS * 3 / 4],
          milliseconds[ROUNDS / 2] * 1e3 / size,
          byTheClock[ROUNDS / 2],
          findings / (ROUNDS + warmUp));
    }
  }
}
