package tallyback.export;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.plan.Plan;
import tallyback.report.JobRecord;

/**
 * The steps as chapters, one after the other and none within another. A step goes from where it was
 * begun to where it was told as done. Of two under way the one begun last has the chapter; the
 * other goes on after it. Where only the end was told, the chapter begins where the last step mark
 * was, if nothing else was under way. Pauses that were told are chapters; other stretches without a
 * step are chapters too, short ones belong to the step before.
 *
 * <p>Only confirmed entries that still stand make chapters.
 */
final class Chapters {

  /** A stretch without a step that is shorter is no chapter of its own. */
  private static final long SHORT_GAP_MS = 30_000;

  private static final long SHORTEST_MS = 1000;

  /** A job that goes on has no end; its last chapter is a little longer than what was told. */
  private static final long AFTER_THE_LAST_MS = 10_000;

  private final JobRecord job;
  private final Film film;
  private final Map<String, String> names = new HashMap<>();
  private final List<Span> spans = new ArrayList<>();
  private final List<String> notices = new ArrayList<>();

  /**
   * A stretch of the film.
   *
   * @param key what it belongs to
   * @param rank a higher one hides a lower one
   */
  private record Span(String key, String name, long fromMs, long toMs, int rank) {}

  private Chapters(JobRecord job, Film film) {
    this.job = job;
    this.film = film;
    int number = 0;
    for (Plan.Step step : job.plan().steps()) {
      names.put(step.id(), ++number + ". " + step.label());
    }
  }

  static Written of(JobRecord job, Film film) {
    return new Chapters(job, film).written();
  }

  private Written written() {
    long end = endMs();
    gatherSteps(end);
    boolean anyStep = spans.stream().anyMatch(span -> span.toMs() > 0 && span.fromMs() < end);
    if (!anyStep) {
      return new Written("", 0, List.of(ExportText.NO_STEPS));
    }
    gatherPauses(end);
    List<WebVtt.Cue> cues = cues(joined(pieces(end), end));
    String note =
        ExportText.filmNote(
            job.heading().job(), CsvTable.time(film.begins(), job.heading().zone()));
    return new Written(WebVtt.text(note, cues), cues.size(), notices);
  }

  /** The film's end, else a little after the last that was told. */
  private long endMs() {
    if (film.length() != null) {
      return film.endMs();
    }
    return job.outcome().standing().stream()
            .mapToLong(entry -> film.place(entry.happenedAt()))
            .max()
            .orElse(0)
        + AFTER_THE_LAST_MS;
  }

  private void gatherSteps(long end) {
    Map<String, Long> open = new LinkedHashMap<>();
    long lastMark = film.place(job.heading().openedAt());
    for (Entry entry : job.outcome().standing()) {
      Statement said = entry.said();
      long at = film.place(entry.happenedAt());
      if (said instanceof Statement.Resumed) {
        lastMark = at;
      }
      if (!(said instanceof StepMarked marked) || !entry.confirmed()) {
        continue;
      }
      String step = marked.step();
      String name = names.getOrDefault(step, job.plan().label(step));
      if (marked.mark() == StepMark.STARTED) {
        open.putIfAbsent(step, at);
      } else if (marked.mark() == StepMark.SKIPPED) {
        open.remove(step);
      } else {
        String more = marked.mark() == StepMark.REDONE ? ExportText.ONCE_MORE : "";
        Long begun = open.remove(step);
        if (begun != null) {
          add(step, name + more, begun, at);
        } else if (open.isEmpty()) {
          add(step, name + more + ExportText.BEGINNING_NOT_TOLD, lastMark, at);
        } else if (at >= 0 && at < end) {
          notices.add(ExportText.noChapter(job.plan().label(step)));
        }
      }
      lastMark = at;
    }
    open.forEach(
        (step, begun) ->
            add(
                step,
                names.getOrDefault(step, job.plan().label(step)) + ExportText.NOT_TOLD_DONE,
                begun,
                Math.max(begun, end)));
  }

  private void add(String key, String name, long from, long to) {
    spans.add(new Span(key + " " + from, name, from, Math.max(to, from + SHORTEST_MS), 0));
  }

  private void gatherPauses(long end) {
    Long since = null;
    String name = ExportText.PAUSE;
    for (Entry entry : job.outcome().standing()) {
      Statement said = entry.said();
      long at = film.place(entry.happenedAt());
      boolean night = said instanceof Statement.LeftForNight;
      if (night || said instanceof Statement.Paused) {
        since = since == null ? at : since;
        name = night ? ExportText.NIGHT : name;
      } else if (since != null && !(said instanceof Statement.Memo)) {
        spans.add(new Span("pause " + since, name, since, at, 1));
        since = null;
        name = ExportText.PAUSE;
      }
    }
    if (since != null && since < end) {
      spans.add(new Span("pause " + since, name, since, end, 1));
    }
  }

  private List<Span> pieces(long end) {
    TreeSet<Long> edges = new TreeSet<>(List.of(0L, end));
    for (Span span : spans) {
      for (long edge : new long[] {span.fromMs(), span.toMs()}) {
        if (edge > 0 && edge < end) {
          edges.add(edge);
        }
      }
    }
    List<Span> pieces = new ArrayList<>();
    Long from = null;
    for (Long to : edges) {
      if (from != null) {
        add(pieces, over(from), from, to);
      }
      from = to;
    }
    return pieces;
  }

  /** What is under way at a moment: a pause, else what was begun last. */
  private @Nullable Span over(long at) {
    return spans.stream()
        .filter(span -> span.fromMs() <= at && at < span.toMs())
        .max(Comparator.comparingInt(Span::rank).thenComparingLong(Span::fromMs))
        .orElse(null);
  }

  private static void add(List<Span> pieces, @Nullable Span over, long from, long to) {
    String key = over == null ? "" : over.key();
    String name = over == null ? "" : over.name();
    int last = pieces.size() - 1;
    if (last >= 0 && pieces.get(last).key().equals(key)) {
      pieces.set(last, new Span(key, name, pieces.get(last).fromMs(), to, 0));
    } else {
      pieces.add(new Span(key, name, from, to, 0));
    }
  }

  /** Short gaps go to what is beside them; long ones get a name. */
  private static List<Span> joined(List<Span> pieces, long end) {
    List<Span> joined = new ArrayList<>();
    for (Span piece : pieces) {
      boolean gap = piece.key().isEmpty();
      int last = joined.size() - 1;
      if (gap && piece.toMs() - piece.fromMs() < SHORT_GAP_MS && last >= 0) {
        Span before = joined.get(last);
        joined.set(last, new Span(before.key(), before.name(), before.fromMs(), piece.toMs(), 0));
      } else if (gap) {
        String name =
            piece.fromMs() == 0
                ? ExportText.BEFORE_STEPS
                : piece.toMs() == end ? ExportText.AFTER_STEPS : ExportText.BETWEEN_STEPS;
        joined.add(new Span("", name, piece.fromMs(), piece.toMs(), 0));
      } else {
        joined.add(piece);
      }
    }
    if (joined.size() > 1 && joined.get(0).key().isEmpty() && joined.get(0).toMs() < SHORT_GAP_MS) {
      Span second = joined.get(1);
      joined.set(1, new Span(second.key(), second.name(), 0, second.toMs(), 0));
      joined.remove(0);
    }
    return joined;
  }

  private static List<WebVtt.Cue> cues(List<Span> chapters) {
    List<WebVtt.Cue> cues = new ArrayList<>();
    Map<String, Boolean> shown = new HashMap<>();
    for (Span chapter : chapters) {
      boolean again = !chapter.key().isEmpty() && shown.put(chapter.key(), Boolean.TRUE) != null;
      String name = chapter.name() + (again ? ExportText.GOES_ON : "");
      cues.add(
          new WebVtt.Cue(
              Integer.toString(cues.size() + 1), chapter.fromMs(), chapter.toMs(), List.of(name)));
    }
    return cues;
  }
}
