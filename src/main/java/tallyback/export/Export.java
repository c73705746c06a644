package tallyback.export;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import tallyback.log.EntryJson;
import tallyback.model.Entry;
import tallyback.model.Statement.FilmMark;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;

/** The one way to every form. Stateless; safe for any thread. */
public final class Export {

  private Export() {}

  /**
   * A camera mark that stands in a job.
   *
   * @param number which
   * @param at when it was said
   * @param entry the number of its entry
   */
  public record Mark(int number, Instant at, long entry) {}

  /** Every entry as a row: RFC 4180, see {@code CsvTable}. */
  public static Written csv(JobRecord job) {
    return new Written(CsvTable.text(job), job.entries().size(), List.of());
  }

  /**
   * Every entry as one line of JSON, withdrawn ones too, exactly as {@code entry.schema.json} in
   * the jar says; lines end with a line feed.
   */
  public static Written jsonLines(JobRecord job) {
    String text =
        job.entries().stream()
            .map(entry -> EntryJson.text(entry) + "\n")
            .collect(Collectors.joining());
    return new Written(text, job.entries().size(), List.of());
  }

  /** What is to be looked at again, as events: RFC 5545. Without any it is no calendar. */
  public static Written calendar(JobRecord job) {
    return LookAgainCalendar.of(job);
  }

  /** The job as a text to read: CommonMark with tables. */
  public static Written markdown(JobRecord job) {
    return new Written(MarkdownLog.text(job), job.entries().size(), List.of());
  }

  /** What was said, as captions of a film: WebVTT. */
  public static Written captions(JobRecord job, Film film) {
    return Captions.of(job, film);
  }

  /** The steps, as chapters of a film: WebVTT. */
  public static Written chapters(JobRecord job, Film film) {
    return Chapters.of(job, film);
  }

  /** The camera marks that stand, by when they were said. */
  public static List<Mark> filmMarks(JobRecord job) {
    JobWords words = JobWords.of(job);
    List<Mark> marks = new ArrayList<>();
    for (Entry entry : job.outcome().standing()) {
      if (entry.statement() instanceof FilmMark mark && mark.number() != null) {
        marks.add(new Mark(mark.number(), words.happenedAt(entry), entry.seq()));
      }
    }
    marks.sort(Comparator.comparing(Mark::at));
    return marks;
  }
}
