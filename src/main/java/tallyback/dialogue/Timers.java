package tallyback.dialogue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.CancelTimer;
import tallyback.model.Statement.TimerSet;
import tallyback.model.Statement.TimersCancelled;
import tallyback.model.Unit;
import tallyback.phrase.ReadBackText;
import tallyback.plan.Plan;

/**
 * The reminders somebody asked for, and when they are due. They are entries, so they outlast a
 * restart; what fell due before the last entry of an earlier run was told then. The time comes in.
 * One thread.
 */
final class Timers {

  private final Plan plan;
  private final JobSoFar soFar;
  private final List<Entry> set = new ArrayList<>();
  private final Set<String> told = new HashSet<>();

  Timers(Plan plan, JobSoFar soFar) {
    this.plan = plan;
    this.soFar = soFar;
  }

  /** "The left" says nothing by itself that could be looked at. */
  static Statement aboutSomething(Statement said) {
    if (said instanceof Statement.LookAgain again && Sides.isSide(again.subject())) {
      return new Statement.LookAgain(again.count(), again.span(), null, again.level());
    }
    return said instanceof TimerSet timer && Sides.isSide(timer.subject())
        ? new TimerSet(timer.after(), null, timer.level())
        : said;
  }

  /** Takes every entry of the job in order. */
  void add(Entry entry) {
    if (entry.statement() instanceof TimerSet) {
      set.add(entry);
    } else if (entry.statement() instanceof TimersCancelled && entry.confirmed()) {
      set.clear();
    }
  }

  /** What was due by then has been told. */
  void toldUntil(Instant time) {
    set.stream().filter(entry -> !due(entry).isAfter(time)).forEach(entry -> told.add(entry.id()));
  }

  /** What is due and was not told yet, in words; it counts as told from now on. */
  List<String> over(Instant now) {
    List<String> over = new ArrayList<>();
    for (Entry entry : List.copyOf(set)) {
      if (!due(entry).isAfter(now) && told.add(entry.id()) && stands(entry)) {
        boolean late = due(entry).isBefore(now.minus(Duration.ofMinutes(1)));
        over.add(
            Texts.timerOver(
                ReadBackText.lapse(of(entry).after()),
                what(of(entry)),
                late ? soFar.clockTime(due(entry)) : ""));
      }
    }
    return over;
  }

  /** "What timers are running?" */
  String running(Instant now) {
    List<String> each = new ArrayList<>();
    for (Entry entry : runningAt(now)) {
      long seconds = Duration.between(now, due(entry)).toSeconds();
      each.add(
          Texts.timerRuns(
              ReadBackText.lapse(of(entry).after()), what(of(entry)), (seconds + 59) / 60));
    }
    return each.isEmpty() ? Texts.NO_TIMER : String.join(". ", each);
  }

  /** What is noted for "cancel the timer"; empty when none runs, or several and one was meant. */
  Optional<Statement> cancel(CancelTimer said, Instant now) {
    int running = runningAt(now).size();
    return running == 1 || (running > 1 && said.all())
        ? Optional.of(new TimersCancelled())
        : Optional.empty();
  }

  /** Why nothing is cancelled. */
  String whyNot(Instant now) {
    return runningAt(now).isEmpty() ? Texts.NO_TIMER : Texts.SEVERAL_TIMERS;
  }

  private List<Entry> runningAt(Instant now) {
    return set.stream().filter(entry -> due(entry).isAfter(now) && stands(entry)).toList();
  }

  private boolean stands(Entry entry) {
    return soFar.standing(entry.id()).isPresent();
  }

  private static TimerSet of(Entry entry) {
    return (TimerSet) entry.statement();
  }

  private static Instant due(Entry entry) {
    return entry
        .happenedAt()
        .plusMillis(of(entry).after().in(Unit.SECOND).toBigDecimal().movePointRight(3).longValue());
  }

  private String what(TimerSet timer) {
    String subject = timer.subject();
    return timer.level()
        ? "check the level"
        : subject == null ? "" : "check the " + plan.label(subject);
  }
}
