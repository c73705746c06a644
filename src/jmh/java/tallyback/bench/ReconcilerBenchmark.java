package tallyback.bench;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.reconcile.BenchJob;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

/** How long a reconciliation takes, by the number of entries. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(
    value = 1,
    jvmArgsAppend = {"-Xms2g", "-Xmx2g"})
public class ReconcilerBenchmark {

  @Param({"1000", "10000", "100000"})
  private int entryCount;

  private Plan plan = BenchJob.plan(7);
  private List<Entry> entries = List.of();

  /** Tells the job. */
  @Setup
  public void tell() {
    plan = BenchJob.plan(7);
    entries = BenchJob.entries(plan, entryCount, 7);
  }

  /** One reconciliation. */
  @Benchmark
  public Outcome reconcile() {
    return Reconciler.reconcile(plan, entries);
  }
}
