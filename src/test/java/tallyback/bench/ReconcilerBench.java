package tallyback.bench;

import java.util.Arrays;
import java.util.List;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.reconcile.BenchJob;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

/**
 * How long a reconciliation takes after warm-up, for 1,000, 10,000 and 100,000 entries: median of
 * 21 and quartiles.
 */
public final class ReconcilerBench {

  private static final int ROUNDS = 21;
  private static final int WARM_UP = 40;

  private ReconcilerBench() {}

  /** Prints one line per size. */
  public static void main(String[] arguments) {
    for (int size : new int[] {1_000, 10_000, 100_000}) {
      Plan plan = BenchJob.plan(7);
      List<Entry> entries = BenchJob.entries(plan, size, 7);
      int findings = 0;
      for (int round = 0; round < WARM_UP; round++) {
        findings += Reconciler.reconcile(plan, entries).findings().size();
      }
      double[] milliseconds = new double[ROUNDS];
      for (int round = 0; round < ROUNDS; round++) {
        long start = System.nanoTime();
        Outcome outcome = Reconciler.reconcile(plan, entries);
        milliseconds[round] = (System.nanoTime() - start) / 1e6;
        findings += outcome.findings().size();
      }
      Arrays.sort(milliseconds);
      System.out.printf(
          java.util.Locale.ROOT,
          "%,7d entries: median %.1f ms, quartiles %.1f and %.1f ms (%d findings a round)%n",
          size,
          milliseconds[ROUNDS / 2],
          milliseconds[ROUNDS / 4],
          milliseconds[ROUNDS * 3 / 4],
          findings / (ROUNDS + WARM_UP));
    }
  }
}
