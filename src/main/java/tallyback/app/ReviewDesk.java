package tallyback.app;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.Seal;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.plan.Plan;
import tallyback.review.Act;
import tallyback.review.Proposal;
import tallyback.review.Proposal.Piece;
import tallyback.review.Review;
import tallyback.review.ReviewRefused;

/**
 * Where jobs are reviewed. What a reviewer does is noted like everything else, behind what is
 * there; a job that was closed is gone back to by a visit first, which leaves its seal good. May be
 * used from several threads; calls take turns.
 */
public final class ReviewDesk {

  private @Nullable LoadedPlan lastPlan;

  /**
   * Who reviews.
   *
   * @param name as it stands beside what he does
   * @param device where it is written
   * @param clock the clock
   */
  public record Reviewer(String name, String device, InstantSource clock) {}

  /** What is to become of an act. */
  public enum Manner {
    /** Note it, unless it can hardly be so. */
    NOTE,
    /** Note it although it can hardly be so. */
    NOTE_ALL_THE_SAME
  }

  /**
   * What became of an act.
   *
   * @param plan the job's plan
   * @param proposal what it comes to; null when it was noted before under the same id
   * @param noted the entries, in their order; empty when it can hardly be so
   * @param visit whether a closed job was gone back to for it
   */
  public record Done(Plan plan, @Nullable Proposal proposal, List<Entry> noted, boolean visit) {

    /** Copies its list. */
    public Done {
      noted = List.copyOf(noted);
    }
  }

  /** A job to be looked at; words about it are understood by its own plan. */
  public synchronized Review review(LogReader log, String job) {
    return review(log, job, log.entries(job));
  }

  private Review review(LogReader log, String job, List<Entry> entries) {
    JobSummary summary = log.choose(job);
    String text = log.planText(job).orElse("");
    Plan plan = CheckedJob.frozenPlan(job, text);
    return new Review(
        plan,
        () -> loaded(job, plan, text).grammar(),
        entries,
        EarlierFills.of(log, summary, plan));
  }

  /** Making what can be said out of a plan takes its time, and the next act is of the same job. */
  private LoadedPlan loaded(String job, Plan plan, String text) {
    LoadedPlan last = lastPlan;
    if (last == null || !last.plan().hash().equals(plan.hash())) {
      last = LoadedPlan.of("the plan frozen in job " + job, text);
      lastPlan = last;
    }
    return last;
  }

  /**
   * Closes a job that was gone back to, once more.
   *
   * @param log the log
   * @param job the job
   * @param reviewer who closes it
   * @return its new seal
   * @throws ReviewRefused if it never was closed: that is done where it is noted
   */
  public synchronized Seal close(JobLog log, String job, Reviewer reviewer) {
    if (log.seals(job).isEmpty()) {
      throw new ReviewRefused(
          "this job never was closed; that is done at the machine, by \"close the job\"");
    }
    return JobFrame.close(log, job, by(reviewer, log.entries(job).get(0).zone()));
  }

  private static JobFrame.By by(Reviewer reviewer, ZoneId zone) {
    return new JobFrame.By(
        reviewer.name().strip(), reviewer.device(), zone, reviewer.clock().instant());
  }

  /**
   * What an act would note and change; nothing is noted.
   *
   * @throws ReviewRefused if it can't be done
   */
  public synchronized Proposal look(LogReader log, String job, Act act, Reviewer reviewer) {
    return review(log, job).propose(act, reviewer.name().strip(), reviewer.clock().instant());
  }

  /**
   * Does what a reviewer asks for.
   *
   * @param log the log
   * @param job the job
   * @param act what is asked for
   * @param reviewer who asks
   * @param manner what is to become of it
   * @param id names it, so that a retry notes nothing twice, and goes on where the log failed
   * @throws ReviewRefused if it can't be done, or something else was noted under that id
   */
  public synchronized Done act(
      JobLog log, String job, Act act, Reviewer reviewer, Manner manner, String id) {
    List<Entry> entries = log.entries(job);
    List<Entry> already =
        entries.stream()
            .filter(entry -> entry.id().equals(id) || entry.id().startsWith(id + "/"))
            .toList();
    // A retry comes to the same as the first time: of the job as it was, at the time it was.
    Entry first = already.isEmpty() ? null : already.get(0);
    Review review =
        review(
            log,
            job,
            first == null
                ? entries
                : entries.stream().filter(entry -> entry.seq() < first.seq()).toList());
    Plan plan = review.plan();
    Instant now = first == null ? reviewer.clock().instant() : first.recordedAt();
    Proposal proposal = review.propose(act, reviewer.name().strip(), now);
    if (first == null && manner == Manner.NOTE && !proposal.doubt().isEmpty()) {
      return new Done(plan, proposal, List.of(), false);
    }
    ZoneId zone = entries.get(0).zone();
    boolean visit = already.size() < proposal.pieces().size() && log.choose(job).closed();
    if (visit) {
      JobFrame.visit(log, job, id + "-visit", "review", by(reviewer, zone));
    }
    List<Entry> noted = new ArrayList<>();
    for (Piece piece : proposal.pieces()) {
      String before = noted.isEmpty() ? "" : noted.get(noted.size() - 1).id();
      Draft draft =
          new Draft(
              noted.isEmpty() ? id : id + "/" + (noted.size() + 1),
              job,
              piece.happenedAt(),
              reviewer.clock().instant(),
              zone,
              reviewer.name().strip(),
              reviewer.device(),
              Source.TYPED,
              Certainty.CONFIRMED,
              piece.words().strip(),
              piece.after(before));
      noted.add(note(log, draft, already));
    }
    return new Done(plan, first == null ? proposal : null, noted, visit);
  }

  /** Notes it, unless it is there; what is there under its id and is another is no answer. */
  private static Entry note(JobLog log, Draft draft, List<Entry> already) {
    try {
      return log.append(draft, null);
    } catch (LogRefused refused) {
      for (Entry entry : already) {
        if (entry.id().equals(draft.id())) {
          throw new ReviewRefused(
              "this was noted before as no. "
                  + entry.seq()
                  + ", other than it is asked for now; load the job anew, and change that");
        }
      }
      throw refused;
    }
  }
}
