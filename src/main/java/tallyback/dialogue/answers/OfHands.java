package tallyback.dialogue.answers;

import java.util.ArrayList;
import java.util.List;
import tallyback.books.Books;
import tallyback.books.ItemAccount;
import tallyback.model.Account;
import tallyback.model.Entry;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;

/**
 * What hands have taken off and not put back, or put back and not tightened: by confirmed entries.
 */
final class OfHands {

  private final Plan plan;
  private final Outcome outcome;
  private final Books books;

  OfHands(Plan plan, List<Entry> entries, Outcome outcome) {
    this.plan = plan;
    this.outcome = outcome;
    this.books = Books.of(plan, entries);
  }

  private static boolean isTemporary(ItemAccount account) {
    return account.item().map(Item::temporary).orElse(false);
  }

  private List<ItemAccount> accounts() {
    return List.copyOf(books.confirmed().items().values());
  }

  /** What only went in for the job and isn't out again. */
  List<String> stillIn() {
    return accounts().stream()
        .filter(account -> isTemporary(account) && account.count(Account.MACHINE) > 0)
        .map(ItemAccount::label)
        .toList();
  }

  /** What the machine lacks. */
  List<String> stillOff() {
    return accounts().stream()
        .filter(account -> !isTemporary(account) && account.mentioned() && account.lacking() > 0)
        .map(ItemAccount::label)
        .toList();
  }

  /**
   * What is in the tray: first what the machine lacks, then old ones, then what belongs nowhere.
   */
  Told inTheTray() {
    List<String> lacking = new ArrayList<>();
    List<String> spare = new ArrayList<>();
    for (ItemAccount account : accounts()) {
      int count = account.count(Account.TRAY);
      if (count > 0 && !isTemporary(account)) {
        boolean old = account.lacking() == 0 && !account.fittedNew().isEmpty();
        String what = things(account, count);
        (account.lacking() > 0 ? lacking : spare).add(old ? AnswerText.oldOnes(what) : what);
      }
    }
    lacking.addAll(spare);
    Told told =
        lacking.isEmpty()
            ? Told.same(AnswerText.TRAY_EMPTY)
            : new Told(
                Aloud.few(lacking.stream().map(Aloud::of).toList(), ", "),
                "\n  " + String.join("\n  ", lacking));
    return withUnconfirmed(
        told,
        outcome.standing().stream()
            .filter(entry -> !entry.confirmed())
            .filter(
                entry ->
                    entry.statement() instanceof ItemsMoved
                        || entry.statement() instanceof PartFitted
                        || entry.statement() instanceof TemporaryMoved)
            .count());
  }

  private static Told withUnconfirmed(Told told, long count) {
    if (count == 0) {
      return told;
    }
    String aloud = AnswerText.notCounted(EntryGrammar.spoken((int) count));
    String shown = AnswerText.notCounted(Long.toString(count));
    return new Told(told.spoken() + ". " + aloud, told.shown() + "\n  " + shown);
  }

  /** "2 splash guard bolts", "all 6 pump bolts", "one of the outlet nuts", "coolant pump". */
  private static String things(ItemAccount account, int count) {
    int all = account.item().map(Item::count).orElse(0);
    if (count == 1) {
      return all > 1 ? AnswerText.oneOf(account.label()) : account.label();
    }
    if (count == 2 && all == 2) {
      return AnswerText.bothOf(account.label());
    }
    return count == all
        ? AnswerText.allOf(Integer.toString(count), account.label())
        : count + " " + account.label();
  }

  /** Fastener groups that were touched and are not as tight as the plan wants them. */
  private List<TightnessLine> open() {
    return outcome.tightness().stream()
        .filter(line -> line.status() != TightnessStatus.RIGHT && touched(line))
        .toList();
  }

  List<String> untight() {
    return open().stream().map(TightnessLine::label).toList();
  }

  Told notTight() {
    // What is in the tray is no surprise; what is on the machine and loose is.
    List<TightnessLine> lines = new ArrayList<>(open());
    lines.sort((one, other) -> Boolean.compare(lacking(one), lacking(other)));
    List<String> spoken = lines.stream().map(line -> Aloud.of(state(line))).toList();
    List<String> shown = lines.stream().map(this::state).toList();
    Told told =
        lines.isEmpty()
            ? Told.same(
                outcome.tightness().stream().anyMatch(this::touched)
                    ? AnswerText.ALL_TIGHT
                    : AnswerText.NOTHING_LOOSENED)
            : new Told(Aloud.few(spoken, ". "), "\n  " + String.join("\n  ", shown));
    return withUnconfirmed(
        told,
        outcome.standing().stream()
            .filter(entry -> !entry.confirmed() && entry.statement() instanceof Tightened)
            .count());
  }

  private boolean lacking(TightnessLine line) {
    return books.confirmed().item(line.item()).map(ItemAccount::lacking).orElse(0) > 0;
  }

  private boolean touched(TightnessLine line) {
    return !line.entries().isEmpty()
        || books.confirmed().item(line.item()).map(ItemAccount::mentioned).orElse(false)
        || plan.steps().stream()
            .filter(step -> step.off().contains(line.item()) || step.on().contains(line.item()))
            .map(Step::id)
            .anyMatch(this::begun);
  }

  private boolean begun(String step) {
    return outcome.steps().stream()
        .anyMatch(
            line ->
                line.step().equals(step)
                    && (line.status() == StepStatus.DONE || line.status() == StepStatus.STARTED));
  }

  private String state(TightnessLine line) {
    int off = books.confirmed().item(line.item()).map(ItemAccount::lacking).orElse(0);
    if (off > 0) {
      return AnswerText.off(line.label(), Integer.toString(off));
    }
    return switch (line.status()) {
      case WRONG -> AnswerText.outsideThePlan(line.label(), line.told());
      case PARTLY -> AnswerText.notFinished(line.label(), line.told());
      case UNSAID, RIGHT -> AnswerText.nothingToldOf(line.label());
    };
  }
}
