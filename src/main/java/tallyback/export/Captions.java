package tallyback.export;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.phrase.ReadBackText;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;

/**
 * What was said, where it was said in the film. An entry that was withdrawn, corrected or never
 * confirmed is said in the film all the same, so it keeps its caption and the caption says what
 * became of it. What the tool made by itself nobody hears, so it has none.
 *
 * <p>Each caption can be read: it stands for 2 to 8 s by its length, unless the next one comes
 * before, and never less than 1.5 s a line. Where more is said than can be shown one after the
 * other, a caption comes up to 2 s late, then up to three share one.
 */
final class Captions {

  private static final int LEAST_MS = 1500;
  private static final int SHORTEST_MS = 2000;
  private static final int LONGEST_MS = 8000;
  private static final int LETTER_MS = 60;
  private static final int LATEST_MS = 2000;
  private static final int MOST_LINES = 3;
  private static final int LONGEST_LETTERS = 140;

  /** A caption before it is laid out. */
  record Line(long atMs, long number, String text) {}

  private Captions() {}

  static Written of(JobRecord job, Film film) {
    JobWords words = JobWords.of(job);
    ReadBackText readBack = new ReadBackText(job.plan());
    boolean several =
        job.entries().stream()
                .filter(entry -> entry.source() != Source.TOOL)
                .map(Entry::actor)
                .distinct()
                .count()
            > 1;
    List<Line> lines = new ArrayList<>();
    int before = 0;
    int after = 0;
    int ofTheTool = 0;
    for (Entry entry : job.entries()) {
      long place = film.place(words.happenedAt(entry));
      Statement said = entry.said();
      if (entry.source() == Source.TOOL) {
        boolean expected =
            said instanceof Statement.JobOpened || said instanceof Statement.JobClosed;
        ofTheTool += expected ? 0 : 1;
      } else if (place < 0) {
        before++;
      } else if (place >= film.endMs()) {
        after++;
      } else {
        String who = several ? job.plan().label(entry.actor()) + ": " : "";
        lines.add(new Line(place, entry.seq(), cut(marked(who, words, readBack, entry))));
      }
    }
    List<String> notices = new ArrayList<>();
    if (before + after > 0) {
      notices.add(ExportText.leftOut(before, after));
    }
    if (ofTheTool > 0) {
      notices.add(ExportText.ofTheTool(ofTheTool));
    }
    if (lines.isEmpty()) {
      notices.add(ExportText.NO_CAPTIONS);
    }
    lines.sort(Comparator.comparingLong(Line::atMs).thenComparingLong(Line::number));
    String note =
        ExportText.filmNote(
            job.heading().job(), CsvTable.time(film.begins(), job.heading().zone()));
    return new Written(WebVtt.text(note, laid(lines, film.endMs())), lines.size(), notices);
  }

  private static String marked(String who, JobWords words, ReadBackText readBack, Entry entry) {
    List<String> marks = new ArrayList<>();
    if (!entry.confirmed() && !(entry.statement() instanceof Statement.NotUnderstood)) {
      marks.add(ExportText.NOT_CONFIRMED);
    }
    marks.addAll(words.fate(entry));
    String mark = marks.isEmpty() ? "" : "[" + String.join("; ", marks) + "] ";
    return mark + who + said(words, readBack, entry);
  }

  /** What works on another entry is told by its number, everything else as it is read back. */
  private static String said(JobWords words, ReadBackText readBack, Entry entry) {
    Statement statement = entry.said();
    boolean ofAnother =
        statement instanceof Statement.Undone
            || statement instanceof Statement.Corrected
            || statement instanceof Statement.Retimed
            || statement instanceof Statement.NotUnderstoodSettled
            || statement instanceof Statement.NotUnderstood;
    return ofAnother ? words.meaning(entry) : readBack.of(statement).written();
  }

  private static String cut(String text) {
    if (text.codePointCount(0, text.length()) <= LONGEST_LETTERS) {
      return text;
    }
    return text.substring(0, text.offsetByCodePoints(0, LONGEST_LETTERS - 1)).strip() + "\u2026";
  }

  /** One cue in the making. */
  private static final class Draft {
    private final long fromMs;
    private final List<Line> lines = new ArrayList<>();

    Draft(long fromMs, Line line) {
      this.fromMs = fromMs;
      lines.add(line);
    }

    long leastEndMs() {
      return fromMs + (long) LEAST_MS * lines.size();
    }

    long endMs() {
      int letters = lines.stream().mapToInt(line -> line.text().length()).sum();
      int reading = Math.max(SHORTEST_MS, Math.min(LONGEST_MS, letters * LETTER_MS));
      return Math.max(leastEndMs(), fromMs + reading);
    }

    String id() {
      long first = lines.get(0).number();
      long last = lines.get(lines.size() - 1).number();
      return first == last ? Long.toString(first) : first + "-" + last;
    }
  }

  /** Lays lines out one after the other; none overlaps another. */
  static List<WebVtt.Cue> laid(List<Line> lines, long filmEndMs) {
    List<Draft> drafts = new ArrayList<>();
    for (Line line : lines) {
      Draft last = drafts.isEmpty() ? null : drafts.get(drafts.size() - 1);
      if (last == null || line.atMs() >= last.leastEndMs()) {
        drafts.add(new Draft(line.atMs(), line));
      } else if (last.leastEndMs() - line.atMs() > LATEST_MS && last.lines.size() < MOST_LINES) {
        last.lines.add(line);
      } else {
        drafts.add(new Draft(last.leastEndMs(), line));
      }
    }
    List<WebVtt.Cue> cues = new ArrayList<>();
    for (int i = 0; i < drafts.size(); i++) {
      Draft draft = drafts.get(i);
      long next = i + 1 < drafts.size() ? drafts.get(i + 1).fromMs : Long.MAX_VALUE;
      // What is said in the last moments stays a little longer than the film, which harms nobody.
      long end = Math.min(draft.endMs(), next);
      if (filmEndMs >= draft.leastEndMs()) {
        end = Math.min(end, filmEndMs);
      }
      cues.add(
          new WebVtt.Cue(
              draft.id(), draft.fromMs, end, draft.lines.stream().map(Line::text).toList()));
    }
    return cues;
  }
}
