package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Draft;
import tallyback.log.EntryJson;
import tallyback.log.JobLog;
import tallyback.log.LogReader;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement.JobOpened;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.reconcile.BenchJob;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

/** What is judged while the job goes on is judged again, to the letter, from the log. */
class ReplayTest {

  private static final long SEED = Long.getLong("seed", 31L);
  private static final int JOBS = 2_000;

  @TempDir private Path folder;

  @Test
  void twoThousandJobsReadBackFromTheirJsonAreJudgedAlike() {
    for (int run = 0; run < JOBS; run++) {
      Plan plan = BenchJob.plan(SEED + run);
      List<Entry> live = BenchJob.faultyJob(plan, SEED + run);
      List<Entry> replayed = live.stream().map(EntryJson::text).map(EntryJson::read).toList();
      assertEquals(
          Reconciler.reconcile(plan, live),
          Reconciler.reconcile(plan, replayed),
          "seed " + SEED + ", run " + run);
    }
  }

  @Test
  void aJobReadBackFromItsFileIsJudgedAsItWasLive() {
    Path file = folder.resolve("jobs.tallyback");
    String text = "tallyback-plan: 1\nname: replay\n";
    Plan written = PlanReader.read("replay.yaml", text).plan().orElseThrow();
    for (int run = 0; run < 3; run++) {
      Plan plan = BenchJob.plan(SEED + run);
      String job = "replay-" + run;
      List<Outcome> live = new ArrayList<>();
      List<Entry> noted = new ArrayList<>();
      try (JobLog log = SqliteLogs.openForWriting(file)) {
        List<Entry> told = BenchJob.faultyJob(plan, SEED + run);
        JobOpened opened = new JobOpened(written.name(), written.hash(), written.text());
        noted.add(log.openJob(draft(job, told.get(0), "opening", opened)));
        for (Entry entry : told) {
          noted.add(log.append(draft(job, entry, entry.id(), entry.statement()), null));
          live.add(Reconciler.reconcile(plan, noted));
        }
      }
      try (LogReader log = SqliteLogs.openForReading(file)) {
        List<Entry> stored = log.entries(job);
        for (int count = 0; count < live.size(); count++) {
          assertEquals(
              live.get(count), Reconciler.reconcile(plan, stored.subList(0, count + 2)), job);
        }
      }
    }
  }

  private static Draft draft(
      String job, Entry entry, String id, tallyback.model.Statement statement) {
    return new Draft(
        job + " " + id,
        job,
        entry.happenedAt(),
        entry.recordedAt(),
        ZoneOffset.UTC,
        "anna",
        "bench",
        Source.TYPED,
        entry.certainty(),
        "said",
        statement);
  }
}
