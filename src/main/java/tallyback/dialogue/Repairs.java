package tallyback.dialogue;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.ChangeNamed;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.OtherReading;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.UndoNamed;
import tallyback.model.Statement.Undone;
import tallyback.phrase.Meaning;
import tallyback.phrase.ReadBackText;
import tallyback.plan.Plan;

/**
 * Putting an earlier entry right: by naming it, or by what else it may have been heard as. And what
 * is said of any correction besides the read-back: what it puts right. One thread.
 */
final class Repairs {

  private final Interpreter interpreter;
  private final Resolver resolver;
  private final EarlierEntries earlier;
  private final ReadBackText readBack;
  private final JobSoFar soFar;
  private @Nullable LastHeard last;

  /**
   * The last entry, and what else it may have been.
   *
   * @param entry the entry as it was noted
   * @param others the readings that have not been tried yet
   */
  private record LastHeard(Entry entry, List<String> others) {}

  Repairs(Plan plan, Interpreter interpreter, Resolver resolver, JobSoFar soFar) {
    this.interpreter = interpreter;
    this.resolver = resolver;
    this.earlier = new EarlierEntries(plan);
    this.readBack = new ReadBackText(plan);
    this.soFar = soFar;
  }

  /** Keeps what else a noted entry may have been. */
  void noted(Entry entry, OpenQuestion from) {
    List<String> readings = from.asked().readings();
    int next = Math.min(readings.size(), Math.max(0, readings.indexOf(from.words())) + 1);
    LastHeard before = last;
    if (before != null && entry.statement() instanceof Corrected corrected) {
      boolean sameOne = corrected.target().equals(before.entry.id());
      last = sameOne ? before : null;
    } else {
      last =
          from.further().isEmpty()
              ? new LastHeard(entry, readings.subList(next, readings.size()))
              : null;
    }
  }

  /** True for what is only ever a repair. */
  static boolean isOne(Statement said) {
    return said instanceof ChangeNamed || said instanceof UndoNamed || said instanceof OtherReading;
  }

  /** What is to be noted, or why nothing is. */
  EarlierEntries.Found found(Statement said) {
    if (said instanceof ChangeNamed change) {
      return earlier.change(soFar.standing(), change);
    }
    if (said instanceof UndoNamed undo) {
      return earlier.undo(soFar.standing(), undo);
    }
    return otherReading()
        .map(statement -> new EarlierEntries.Found(statement, ""))
        .orElseGet(() -> EarlierEntries.Found.none(Texts.NO_OTHER_READING));
  }

  /** The next reading that means something else and stands for itself. */
  private Optional<Statement> otherReading() {
    LastHeard heard = last;
    Optional<Standing> stands = heard == null ? Optional.empty() : soFar.standing(heard.entry.id());
    if (heard == null || stands.isEmpty()) {
      return Optional.empty();
    }
    Statement was = stands.get().statement();
    for (int i = 0; i < heard.others.size(); i++) {
      Optional<Statement> other =
          interpreter
              .read(heard.others.get(i))
              .filter(meaning -> standsAlone(meaning))
              .flatMap(meaning -> resolver.resolve(meaning.statement(), null))
              .filter(statement -> !statement.equals(was));
      if (other.isPresent()) {
        last = new LastHeard(heard.entry, heard.others.subList(i + 1, heard.others.size()));
        return other.map(statement -> new Corrected(heard.entry.id(), statement));
      }
    }
    return Optional.empty();
  }

  private static boolean standsAlone(Meaning meaning) {
    Statement said = meaning.statement();
    return said.notable()
        && meaning.further().isEmpty()
        && !(said instanceof Undone || said instanceof Corrected);
  }

  /**
   * What a repair puts right, to be said with it; empty for anything else. To be asked before the
   * repair is noted.
   */
  Optional<String> putsRight(Statement statement) {
    if (statement instanceof Corrected corrected) {
      return soFar.standing(corrected.target()).flatMap(was -> instead(was, corrected.now()));
    }
    return statement instanceof Undone undone && undone.target() != null
        ? soFar
            .standing(undone.target())
            .map(was -> Texts.takenBack(readBack.of(was.statement()).spoken(), timeUnlessLast(was)))
        : Optional.empty();
  }

  private Optional<String> instead(Standing was, Statement now) {
    String before = value(was.statement(), now);
    return before.isEmpty()
        ? Optional.empty()
        : Optional.of(Texts.instead(before, timeUnlessLast(was)));
  }

  /** When it was, unless it is the last entry there is: that one everybody has in mind. */
  private String timeUnlessLast(Standing said) {
    boolean isLast =
        soFar.standing().stream().allMatch(each -> each.entry().seq() <= said.entry().seq());
    return isLast ? "" : soFar.clockTime(said.entry().happenedAt());
  }

  /** The value that goes, in words; the whole statement when it becomes another altogether. */
  private String value(Statement was, Statement now) {
    if (!was.getClass().equals(now.getClass())) {
      return readBack.of(was).spoken();
    }
    Integer count = count(was);
    if (count != null && !count.equals(count(now))) {
      return ReadBackText.aloud(count);
    }
    Amount amount = amount(was);
    return amount != null && !amount.equals(amount(now)) ? ReadBackText.aloud(amount) : "";
  }

  private static @Nullable Integer count(Statement statement) {
    if (statement instanceof ItemsMoved moved) {
      return moved.count();
    }
    if (statement instanceof TemporaryMoved moved) {
      return moved.count();
    }
    return statement instanceof Tightened tightened ? tightened.count() : null;
  }

  private static @Nullable Amount amount(Statement statement) {
    return statement instanceof ItemsMoved moved
        ? moved.headSize()
        : Amounts.of(statement).orElse(null);
  }
}
