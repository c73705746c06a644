package tallyback.export;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.StepMark;
import tallyback.plan.Plan;
import tallyback.reconcile.Reconciler;
import tallyback.report.JobRecord;
import tallyback.report.OrchardJob;

/** A job told entry by entry, on the plan of the orchard job. */
final class Told {

  static final ZoneId ZONE = ZoneId.of("Europe/Oslo");

  /** Nine o'clock in that zone. */
  static final Instant NINE = Instant.parse("2026-03-02T08:00:00Z");

  private final Plan plan;
  private final List<Entry> entries = new ArrayList<>();
  private final String everywhere;

  Told() {
    this(OrchardJob.record().plan(), "");
  }

  private Told(Plan plan, String everywhere) {
    this.plan = plan;
    this.everywhere = everywhere;
    add(
        0,
        Source.TOOL,
        Certainty.CONFIRMED,
        new Statement.JobOpened(plan.name(), plan.hash(), plan.text()));
  }

  /** The same with one text wherever somebody can put one. */
  static Told named(String hostile) {
    return new Told(OrchardJob.named(hostile).plan(), hostile);
  }

  /** At so many seconds after nine. */
  Told at(double seconds, Statement statement) {
    return add(seconds, Source.SPOKEN, Certainty.CONFIRMED, statement);
  }

  Told unsure(double seconds, Statement statement) {
    return add(seconds, Source.SPOKEN, Certainty.UNCONFIRMED, statement);
  }

  Told step(double seconds, String step, StepMark mark) {
    return at(seconds, new Statement.StepMarked(step, mark));
  }

  private Told add(double seconds, Source source, Certainty certainty, Statement statement) {
    long seq = entries.size() + 1L;
    entries.add(
        new Entry(
            id(seq),
            everywhere.isEmpty() ? "job-1" : everywhere,
            seq,
            NINE.plusMillis(Math.round(seconds * 1000)),
            NINE.plusMillis(Math.round(seconds * 1000) + 700),
            ZONE,
            everywhere.isEmpty() ? "vera" : everywhere,
            everywhere.isEmpty() ? "bench" : everywhere,
            source,
            certainty,
            everywhere.isEmpty() ? "words " + seq : everywhere,
            null,
            statement));
    return this;
  }

  static String id(long seq) {
    return "bench-" + seq;
  }

  JobRecord record() {
    String job = entries.get(0).job();
    return new JobRecord(
        plan,
        new JobRecord.Heading(job, NINE, null, NINE.plusSeconds(9000), ZONE),
        Reconciler.reconcile(plan, entries),
        entries,
        null);
  }
}
