package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tallyback.books.Standing;
import tallyback.model.Statement.CautionAnswered;
import tallyback.model.Statement.FilmMark;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.LookAgain;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.PictureTaken;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.TimerSet;
import tallyback.model.Statement.TimersCancelled;
import tallyback.model.Statement.VisitBegun;
import tallyback.model.Statement.Written;

/** The job was left with something open. Judged last: what is only unfinished hangs under it. */
final class NightRule implements Rule {

  private static final Kind HALF_OPEN = Kind.stop("left-half-open", Kind.ALL);

  @Override
  public List<Kind> kinds() {
    return List.of(HALF_OPEN);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    Optional<Standing> left = leftForNight(job);
    List<Draft> open = found.all().stream().filter(each -> each.kind().unfinished()).toList();
    if (left.isPresent() && !open.isEmpty()) {
      List<String> about = new ArrayList<>();
      open.forEach(each -> about.addAll(each.anchors()));
      found
          .add(HALF_OPEN, "job", FindingText.JOB)
          .about(about)
          .with("when", FindingText.when(left.get()))
          .with("number", open.size())
          .seenIn(left.get());
    }
  }

  /** The entry by which the job was left, when no work came after it. */
  private static Optional<Standing> leftForNight(JobView job) {
    List<Standing> entries = job.entries();
    for (int last = entries.size() - 1; last >= 0; last--) {
      Standing said = entries.get(last);
      if (said.statement() instanceof LeftForNight) {
        return Optional.of(said);
      }
      boolean idle =
          said.statement() instanceof Memo
              || said.statement() instanceof Written
              || said.statement() instanceof PhotoMarked
              || said.statement() instanceof PictureTaken
              || said.statement() instanceof NotUnderstood
              || said.statement() instanceof NotUnderstoodSettled
              || said.statement() instanceof CautionAnswered
              || said.statement() instanceof TimerSet
              || said.statement() instanceof TimersCancelled
              || said.statement() instanceof LookAgain
              || said.statement() instanceof FilmMark
              || said.statement() instanceof FindingAnswered
              || said.statement() instanceof SpeakerIs
              || said.statement() instanceof JobClosed
              || said.statement() instanceof VisitBegun;
      if (!idle) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }
}
