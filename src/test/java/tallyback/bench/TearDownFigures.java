package tallyback.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.planning.RandomTearDown;
import tallyback.planning.TearDownPlan;
import tallyback.speech.CmuLexicon;

/** Processor time to turn a tear-down of 60 items, and of more, into the text of a plan. */
public final class TearDownFigures {

  private static final int ROUNDS = 21;
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private TearDownFigures() {}

  /** Prints one line per size: the first time, and the median after that. */
  public static void main(String[] arguments) throws Exception {
    Plan names = PlanReader.read(Path.of("grammars/names.yaml")).plan().orElseThrow();
    CmuLexicon lexicon = CmuLexicon.load();
    for (int parts : new int[] {30, 60, 120}) {
      List<Entry> entries = RandomTearDown.of(names, new SplittableRandom(parts), parts);
      double[] milliseconds = new double[ROUNDS];
      int items = 0;
      for (int round = 0; round < ROUNDS; round++) {
        long start = THREADS.getCurrentThreadCpuTime();
        TearDownPlan drawn = TearDownPlan.of("job", names, entries, lexicon);
        milliseconds[round] = (THREADS.getCurrentThreadCpuTime() - start) / 1e6;
        items = PlanReader.read("drawn", drawn.text()).plan().orElseThrow().items().size();
      }
      double first = milliseconds[0];
      Arrays.sort(milliseconds);
      System.out.printf(
          Locale.ROOT,
          "%d items of %d entries: first %.0f ms, median %.1f ms of processor time%n",
          items,
          entries.size(),
          first,
          milliseconds[ROUNDS / 2]);
    }
  }
}
