package tallyback.app;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.Seal;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;

/** Notes what frames the work of a job: its closings, and the visits after them. Stateless. */
final class JobFrame {

  private JobFrame() {}

  /**
   * Who does it, and when.
   *
   * @param zone time zone of the shop
   */
  record By(String actor, String device, ZoneId zone, Instant at) {}

  /**
   * Closes a job.
   *
   * @return its seal
   */
  static Seal close(JobLog log, String job, By by) {
    note(
        log,
        job,
        job + "-closing-" + UUID.randomUUID(),
        "job closed",
        by,
        new Statement.JobClosed());
    List<Seal> seals = log.seals(job);
    return seals.get(seals.size() - 1);
  }

  /**
   * Goes back to a job that was closed.
   *
   * @param id of the entry
   * @param why what for, or null
   */
  static void visit(JobLog log, String job, String id, @Nullable String why, By by) {
    String words = why == null ? "visit" : "visit: " + why;
    note(log, job, id, words, by, new Statement.VisitBegun(why));
  }

  private static void note(
      JobLog log, String job, String id, String words, By by, Statement statement) {
    Entry unused =
        log.append(
            new Draft(
                id,
                job,
                by.at(),
                by.at(),
                by.zone(),
                by.actor(),
                by.device(),
                Source.TOOL,
                Certainty.CONFIRMED,
                words,
                statement),
            null);
  }
}
