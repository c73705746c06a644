package tallyback.bench;

import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.stream.LongStream;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.BigPlan;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/**
 * Size of the compiled entry grammar and the processor time to make it, for the demo plan, for the
 * names of a job without a plan and for a plan of 150 items.
 */
public final class GrammarFigures {

  private static final int ROUNDS = 9;

  private GrammarFigures() {}

  /** Prints the figures. */
  public static void main(String[] args) throws Exception {
    Plan demo = PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    print("demo plan", demo);
    print("without a plan", PlanReader.read(Path.of("grammars/names.yaml")).plan().orElseThrow());
    print("plan of " + BigPlan.ITEMS + " items", BigPlan.plan());
  }

  private static void print(String what, Plan plan) {
    EntryGrammar grammar = EntryGrammar.of(plan);
    long medianMs =
        LongStream.range(0, ROUNDS).map(round -> cpuMs(plan)).sorted().toArray()[ROUNDS / 2];
    System.out.println(
        what
            + ": entries "
            + grammar.entries()
            + ", answers "
            + grammar.answers()
            + ", median "
            + medianMs
            + " ms of processor time to make");
  }

  private static long cpuMs(Plan plan) {
    long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    EntryGrammar.of(plan);
    return (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before) / 1_000_000;
  }
}
