package tallyback.log;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.model.Statement;

/**
 * The stable names of the statement kinds in JSON and in the data file. A name once published is
 * never used for another kind.
 */
final class StatementKind {

  private static final Map<String, Class<? extends Statement>> TYPES = new LinkedHashMap<>();
  private static final Map<Class<? extends Statement>, String> NAMES = new LinkedHashMap<>();

  static {
    kind("fluid", Statement.FluidMoved.class);
    kind("items", Statement.ItemsMoved.class);
    kind("temporary", Statement.TemporaryMoved.class);
    kind("tightness", Statement.Tightened.class);
    kind("step", Statement.StepMarked.class);
    kind("reading", Statement.Measured.class);
    kind("part", Statement.PartFitted.class);
    kind("alignment", Statement.Aligned.class);
    kind("state", Statement.StateSaid.class);
    kind("speaker", Statement.SpeakerIs.class);
    kind("second-check", Statement.SecondCheck.class);
    kind("problem", Statement.ProblemSeen.class);
    kind("memo", Statement.Memo.class);
    kind("written", Statement.Written.class);
    kind("not-understood", Statement.NotUnderstood.class);
    kind("not-understood-settled", Statement.NotUnderstoodSettled.class);
    kind("caution", Statement.CautionAnswered.class);
    kind("timer", Statement.TimerSet.class);
    kind("timers-cancelled", Statement.TimersCancelled.class);
    kind("photo", Statement.PhotoMarked.class);
    kind("picture", Statement.PictureTaken.class);
    kind("look-again", Statement.LookAgain.class);
    kind("film-mark", Statement.FilmMark.class);
    kind("undo", Statement.Undone.class);
    kind("correction", Statement.Corrected.class);
    kind("retimed", Statement.Retimed.class);
    kind("added-later", Statement.AddedLater.class);
    kind("finding-answered", Statement.FindingAnswered.class);
    kind("pause", Statement.Paused.class);
    kind("resume", Statement.Resumed.class);
    kind("night", Statement.LeftForNight.class);
    kind("job-opened", Statement.JobOpened.class);
    kind("job-closed", Statement.JobClosed.class);
    kind("visit", Statement.VisitBegun.class);
  }

  private StatementKind() {}

  private static void kind(String name, Class<? extends Statement> type) {
    TYPES.put(name, type);
    NAMES.put(type, name);
  }

  /** All kinds by name, in the order above. */
  static Map<String, Class<? extends Statement>> types() {
    return Collections.unmodifiableMap(TYPES);
  }

  static @Nullable Class<? extends Statement> typeOf(String name) {
    return TYPES.get(name);
  }

  static String nameOf(Statement statement) {
    String name = NAMES.get(statement.getClass());
    if (name == null) {
      throw new LogRefused(
          statement.getClass().getSimpleName()
              + " can't be noted: it only answers or changes another statement");
    }
    return name;
  }
}
