package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import tallyback.model.Entry;
import tallyback.plan.Plan;

/** Long jobs for measuring: one perfect job of a random plan, told over and over. */
public final class BenchJob {

  private BenchJob() {}

  /** A plan for {@link #entries}. */
  public static Plan plan(long seed) {
    return RandomPlan.of(new Random(seed));
  }

  /** So many entries of one job, in order. */
  public static List<Entry> entries(Plan plan, int count, long seed) {
    Random random = new Random(seed);
    Telling job = new Telling();
    while (job.size() < count) {
      PerfectJob.of(plan, random).told().forEach(told -> job.say(told.statement));
    }
    return new ArrayList<>(job.entries().subList(0, count));
  }

  /** One job in which one thing went wrong, where the plan has a place for it. */
  public static List<Entry> faultyJob(Plan plan, long seed) {
    Random random = new Random(seed);
    Telling job = PerfectJob.of(plan, random);
    List<String> kinds = Fault.kinds();
    Fault.inject(kinds.get(random.nextInt(kinds.size())), plan, job, random);
    return job.entries();
  }
}
