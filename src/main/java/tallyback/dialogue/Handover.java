package tallyback.dialogue;

import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tallyback.dialogue.answers.Aloud;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Weight;
import tallyback.phrase.ReadBackText;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.Reconciler;

/**
 * What is read out when the job is left for the night, and to whoever takes it up again: what is
 * open, and where it was. One thread.
 */
final class Handover {

  private static final DateTimeFormatter DAY_AND_TIME =
      DateTimeFormatter.ofPattern("EEEE 'at' HH:mm", Locale.ENGLISH);

  /** More than three things at once nobody keeps in mind. */
  private static final int READ_OUT = 3;

  private static final String HALF_OPEN = "left-half-open";

  private final Plan plan;
  private final JobSoFar soFar;
  private final ReadBackText readBack;

  Handover(Plan plan, JobSoFar soFar) {
    this.plan = plan;
    this.soFar = soFar;
    this.readBack = new ReadBackText(plan);
  }

  /** What is to be told with an entry that was just noted; empty for nothing. */
  Optional<String> with(Entry noted) {
    if (noted.statement() instanceof LeftForNight) {
      return Optional.of(leaving());
    }
    boolean takesUp =
        noted.statement() instanceof Resumed || noted.statement() instanceof SpeakerIs;
    return takesUp ? leftBefore(noted).map(this::takingUp) : Optional.empty();
  }

  private String leaving() {
    List<Finding> open = open();
    return open.isEmpty()
        ? Texts.NOTHING_OPEN
        : Texts.open(readOut(open), open.size() - READ_OUT) + ". " + Texts.HANG_A_TAG;
  }

  /** The entry by which the job was left, when nothing came after it but pictures and memos. */
  private Optional<Entry> leftBefore(Entry noted) {
    List<Entry> entries = soFar.entries();
    for (int i = entries.size() - 1; i >= 0; i--) {
      Entry entry = entries.get(i);
      if (entry.statement() instanceof LeftForNight) {
        return soFar.standing(entry.id()).isPresent() ? Optional.of(entry) : Optional.empty();
      }
      boolean idle =
          entry.id().equals(noted.id())
              || entry.statement() instanceof Memo
              || entry.statement() instanceof Statement.Written
              || entry.statement() instanceof PhotoMarked
              || entry.statement() instanceof Statement.PictureTaken
              || entry.statement() instanceof Statement.LookAgain
              || entry.statement() instanceof Statement.FilmMark
              || entry.statement() instanceof Statement.FindingAnswered
              || entry.statement() instanceof NotUnderstood;
      if (!idle) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  private String takingUp(Entry left) {
    List<String> parts = new ArrayList<>();
    parts.add(
        Texts.leftOn(
            Aloud.of(DAY_AND_TIME.format(left.happenedAt().atZone(left.zone()))),
            plan.label(left.actor())));
    lastWork(left)
        .ifPresent(entry -> parts.add(Texts.last(readBack.of(entry.statement()).spoken())));
    underWay().ifPresent(step -> parts.add(Texts.underWay(step.label())));
    List<Finding> open = open();
    parts.add(
        open.isEmpty() ? Texts.NOTHING_OPEN : Texts.open(readOut(open), open.size() - READ_OUT));
    return String.join(". ", parts);
  }

  private Optional<Entry> lastWork(Entry left) {
    Entry last = null;
    for (var said : soFar.standing()) {
      Statement statement = said.statement();
      boolean work =
          !statement.getClass().equals(LeftForNight.class)
              && !(statement instanceof Memo)
              && !(statement instanceof Statement.Written)
              && !(statement instanceof PhotoMarked)
              && !(statement instanceof Statement.PictureTaken)
              && !(statement instanceof NotUnderstood)
              && !(statement instanceof Resumed)
              && !(statement instanceof SpeakerIs)
              && !(statement instanceof Statement.Paused)
              && !(statement instanceof Statement.JobOpened)
              && !(statement instanceof Statement.TimerSet)
              && !(statement instanceof Statement.TimersCancelled)
              && !(statement instanceof Statement.LookAgain)
              && !(statement instanceof Statement.FilmMark)
              && !(statement instanceof Statement.NotUnderstoodSettled)
              && !(statement instanceof Statement.CautionAnswered);
      last = work && said.entry().seq() < left.seq() ? said.entry() : last;
    }
    return Optional.ofNullable(last);
  }

  /** The step that was begun last and is not done. */
  private Optional<Step> underWay() {
    List<String> begun = new ArrayList<>();
    for (var said : soFar.standing()) {
      if (said.statement() instanceof StepMarked marked) {
        begun.remove(marked.step());
        if (marked.mark() == StepMark.STARTED) {
          begun.add(marked.step());
        }
      }
    }
    return begun.isEmpty() ? Optional.empty() : plan.step(begun.get(begun.size() - 1));
  }

  /**
   * What stands against the job by what was said of it, stops first; what is open in a job left
   * half open counts one by one. What nobody has come to yet is not open.
   */
  private List<Finding> open() {
    List<Finding> open = new ArrayList<>();
    for (Finding finding : Reconciler.reconcile(plan, soFar.entries()).findings()) {
      if (finding.kind().equals(HALF_OPEN)) {
        open.addAll(finding.followers());
      } else {
        open.add(finding);
      }
    }
    open.removeIf(finding -> finding.weight() == Weight.NOTE || finding.entries().isEmpty());
    open.sort(Comparator.comparing(Finding::weight));
    return open;
  }

  private static List<String> readOut(List<Finding> open) {
    return open.stream().limit(READ_OUT).map(Aloud::finding).toList();
  }
}
