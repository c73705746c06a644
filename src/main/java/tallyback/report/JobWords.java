package tallyback.report;

import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tallyback.model.Entry;
import tallyback.model.Finding.Stage;
import tallyback.model.Weight;

/**
 * The words of a report, part by part, for whoever puts them into another form, so that one thing
 * is called the same in all of them. Immutable, so any thread may use it.
 */
public final class JobWords {

  private final JobRecord job;
  private final Trail trail;
  private final ShopTime time;
  private final StatementText text;

  private JobWords(JobRecord job) {
    this.job = job;
    this.trail = Trail.of(job.entries());
    this.time = ShopTime.of(job);
    this.text = new StatementText(job.plan(), trail, time);
  }

  /** The words for a job. */
  public static JobWords of(JobRecord job) {
    return new JobWords(job);
  }

  /**
   * One stage of the verdict.
   *
   * @param question what is asked
   * @param answer never a bare yes
   * @param reason why
   */
  public record Verdict(String question, String answer, String reason) {}

  /** What was done to which machine. */
  public String title() {
    return job.plan().name() + " \u00b7 " + job.plan().machine().name();
  }

  /** Which job, when, how much was said and by whom. */
  public String jobLine() {
    return Wording.jobLine(job);
  }

  /** The three stages. */
  public List<Verdict> verdict() {
    return Stream.of(Stage.values())
        .map(
            stage ->
                new Verdict(
                    Wording.question(stage),
                    Wording.answer(Wording.answer(job.outcome().verdict(), stage)),
                    Wording.reason(job.outcome(), stage)))
        .toList();
  }

  /** Who decides. */
  public static String deferral() {
    return Wording.DEFERRAL;
  }

  /** A weight as a word. */
  public static String weight(Weight weight) {
    return Wording.weight(weight);
  }

  /** What an entry says. */
  public String meaning(Entry entry) {
    return text.of(entry);
  }

  /** What became of it, such as {@code withdrawn by no. 20}; empty when nothing did. */
  public List<String> fate(Entry entry) {
    return trail.fate(entry);
  }

  /** True when the entry as it was said no longer holds. */
  public boolean struck(Entry entry) {
    return trail.struck(entry);
  }

  /** When it happened, by the last time that was said for it. */
  public Instant happenedAt(Entry entry) {
    return trail.happenedAt(entry);
  }

  /** The same as a shop writes it. */
  public String clock(Entry entry) {
    return time.at(trail.happenedAt(entry), entry.zone());
  }

  /** The same with its day, such as {@code Monday 2 March 2026, 09:42}. */
  public String dayAndClock(Entry entry) {
    return ShopTime.full(trail.happenedAt(entry), entry.zone());
  }

  /** The step that was under way at a time; empty when none was. */
  public String stepAt(Instant at) {
    return JobPictures.step(job, at);
  }

  /** The numbers and times of entries. */
  public String told(List<String> ids) {
    return ids.stream()
        .map(
            id ->
                trail
                    .entry(id)
                    .map(entry -> "no. " + entry.seq() + " at " + clock(entry))
                    .orElseGet(() -> trail.number(id)))
        .collect(Collectors.joining(", "));
  }

  /** Text that can do nothing but be read: it steers no terminal and turns no line around. */
  public static String harmless(String text) {
    return SafeText.visible(text);
  }
}
