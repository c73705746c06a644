package tallyback.dialogue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FilmMark;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Meaning;
import tallyback.plan.Plan;

/**
 * Reads typed words by themselves, long after the work: nothing that was said before fills in what
 * they leave out, and nobody can be asked back. So they must say everything, or are turned down
 * with what is missing. Used by one thread.
 */
public final class ReadAlone {

  private final Plan plan;
  private final EntryGrammar grammar;
  private final Resolver resolver;
  private final JobSoFar soFar;
  private final Impossible impossible;

  /** What became of the words. */
  public sealed interface Read {}

  /**
   * They mean this.
   *
   * @param statement what can be noted
   * @param doubt why it can hardly be so, as a sentence; empty when nothing speaks against it
   */
  public record Meant(Statement statement, String doubt) implements Read {}

  /**
   * They can't be noted as they are.
   *
   * @param why with the remedy
   */
  public record TurnedDown(String why) implements Read {}

  /**
   * For words about a job.
   *
   * @param plan its plan
   * @param grammar how words are understood
   * @param zone time zone of the shop
   * @param entries what was noted so far, by sequence number
   */
  public ReadAlone(Plan plan, EntryGrammar grammar, ZoneId zone, List<Entry> entries) {
    this.plan = plan;
    this.grammar = grammar;
    this.resolver = new Resolver(plan);
    this.soFar = new JobSoFar(plan, zone);
    entries.forEach(soFar::add);
    this.impossible = new Impossible(plan, soFar);
  }

  /**
   * Reads words.
   *
   * @param words as typed
   * @param happenedAt when it happened
   * @param now when they are typed
   * @param instead the entry in whose place it is to stand, as it holds now; null for none
   */
  public Read read(String words, Instant happenedAt, Instant now, @Nullable Entry instead) {
    String line = words.strip();
    Optional<Statement> asWritten = WrittenWords.of(line, plan);
    if (asWritten.isPresent()) {
      return new Meant(asWritten.get(), "");
    }
    Optional<Meaning> read = grammar.read(line);
    if (read.isEmpty()) {
      return new TurnedDown(
          grammar.readQuestion(line).isPresent() || grammar.readAnswer(line).isPresent()
              ? Texts.NO_ENTRY_BY_ITSELF
              : grammar.whyNot(line).toString());
    }
    Meaning meaning = read.get();
    if (meaning.ago() != null) {
      return new TurnedDown(Texts.TIME_BY_ITSELF);
    }
    if (!meaning.further().isEmpty()) {
      return new TurnedDown(Texts.ONE_AT_A_TIME);
    }
    return meant(meaning, happenedAt, now, instead);
  }

  private Read meant(Meaning meaning, Instant happenedAt, Instant now, @Nullable Entry instead) {
    Statement words = meaning.statement();
    if (words instanceof Memo memo && memo.text() == null) {
      return new TurnedDown(Texts.MEMO_OF_WHAT);
    }
    if (!standsAlone(words)) {
      return new TurnedDown(Texts.NO_ENTRY_BY_ITSELF);
    }
    Optional<Statement> resolved = resolver.resolve(words, null);
    if (resolved.isEmpty() || namesNothing(resolved.get())) {
      return new TurnedDown(Texts.SAY_OF_WHAT);
    }
    Statement statement = resolved.get();
    if (Amounts.lacksUnit(statement)) {
      return new TurnedDown(Texts.unitToo(units(meaning.unitChoices())));
    }
    if (WrenchOrBolt.unsaid(plan, statement)) {
      return new TurnedDown(Texts.WRENCH_OR_BOLT_TOO);
    }
    Statement tried = instead == null ? statement : new Corrected(instead.id(), statement);
    // When it happened is not said anew where something else stands in its place.
    Instant said = instead == null ? now : happenedAt;
    return new Meant(statement, impossible.why(tried, happenedAt, said).orElse(""));
  }

  /**
   * Why an entry can hardly have happened at a time, as a sentence; empty when it can.
   *
   * @param entry the entry
   * @param to the time
   * @param now when that is said
   */
  public String doubtOfTime(Entry entry, Instant to, Instant now) {
    return impossible.why(new Retimed(entry.id(), to), now, now).orElse("");
  }

  private static String units(List<Unit> choices) {
    return choices.stream().map(Unit::symbol).collect(Collectors.joining(" or "));
  }

  private static boolean standsAlone(Statement said) {
    boolean ofTheLog =
        said instanceof Undone
            || said instanceof Corrected
            || said instanceof Retimed
            || said instanceof JobOpened
            || said instanceof JobClosed
            || said instanceof NotUnderstoodSettled
            || said instanceof PhotoMarked
            || said instanceof FilmMark;
    return said.notable() && !ofTheLog;
  }

  /** "Two back on" speaks of what was in the hand, and there is no hand here. */
  private static boolean namesNothing(Statement said) {
    if (said instanceof Statement.ItemsMoved moved) {
      return moved.item() == null && moved.place() == null && moved.headSize() == null;
    }
    return said instanceof Statement.Tightened tightened
        && tightened.item() == null
        && tightened.place() == null;
  }
}
