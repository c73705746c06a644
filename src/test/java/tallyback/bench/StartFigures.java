package tallyback.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import tallyback.app.Ear;
import tallyback.app.LoadedPlan;
import tallyback.audio.WavSource;
import tallyback.plan.BigPlan;

/**
 * How long it takes from the start of the virtual machine until the tool listens, and how much heap
 * is in use after garbage collection once it has heard something. Argument: {@code demo} for the
 * demo plan or {@code big} for a plan of 150 items with two-word names. Each run is one start; run
 * it several times and take the median.
 */
public final class StartFigures {

  private static final int CLIPS = 10;

  private StartFigures() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    Ear.loadAhead();
    boolean big = args[0].equals("big");
    Path demo = Path.of("demo-data");
    LoadedPlan plan =
        big ? LoadedPlan.of("big.yaml", BigPlan.text()) : LoadedPlan.of(demo.resolve("plan.yaml"));
    long planReadyMs = sinceStartMs();
    try (Ear ear = Ear.open(plan, null)) {
      long listeningMs = sinceStartMs();
      long cpuMs = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1_000_000;
      for (Path file : clips(demo.resolve("audio"))) {
        try (WavSource source = WavSource.open(file)) {
          ear.entry(source.readAll());
        }
      }
      System.gc();
      System.gc();
      long used = Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
      System.out.printf(
          "%s: plan and grammar ready %d ms, listening %d ms after the start of the virtual machine"
              + " (main thread %d ms of processor time); heap %d MB after %d clips%n",
          args[0], planReadyMs, listeningMs, cpuMs, used / (1 << 20), CLIPS);
    }
  }

  private static List<Path> clips(Path folder) throws IOException {
    try (var files = Files.list(folder)) {
      return files.sorted().limit(CLIPS).toList();
    }
  }

  private static long sinceStartMs() {
    return System.currentTimeMillis() - ManagementFactory.getRuntimeMXBean().getStartTime();
  }
}
