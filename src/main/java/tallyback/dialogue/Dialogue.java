package tallyback.dialogue;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.log.Draft;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Answer;
import tallyback.model.Statement.ChangeLast;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.SameAgain;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.WasEarlier;
import tallyback.model.Unit;
import tallyback.phrase.Meaning;
import tallyback.plan.Plan;

/**
 * Takes what was understood and has it noted, asks about it, or turns it down.
 *
 * <p>Asked is whatever the recogniser doubts and every number without a unit. An answer ("yes",
 * "newton metres", "sixteen") settles the question; saying the same again does too. Whatever comes
 * instead leaves the open one noted as unconfirmed, so that it stays visible and closes nothing.
 *
 * <p>One thread per job. It reads the clock it was given only for {@code recordedAt}.
 */
public final class Dialogue {

  private final Plan plan;
  private final Interpreter interpreter;
  private final Resolver resolver;
  private final NotePad pad;
  private final Setting setting;
  private final Memory memory;
  private @Nullable OpenQuestion open;

  /**
   * Where and when a dialogue takes place.
   *
   * @param job the job noted into
   * @param device where it is said or typed
   * @param actor who speaks until somebody else says so
   * @param zone time zone of the shop
   * @param clock for {@code recordedAt}
   */
  public record Setting(
      String job, String device, String actor, ZoneId zone, InstantSource clock) {}

  /**
   * A dialogue that goes on where the job's entries stop.
   *
   * @param plan the job's plan
   * @param interpreter words to meaning
   * @param pad where entries are noted
   * @param setting where and when
   * @param before the entries noted so far, by sequence number
   */
  public Dialogue(
      Plan plan, Interpreter interpreter, NotePad pad, Setting setting, List<Entry> before) {
    this.plan = plan;
    this.interpreter = interpreter;
    this.resolver = new Resolver(plan);
    this.pad = pad;
    this.setting = setting;
    this.memory = new Memory(setting.actor());
    before.forEach(memory::add);
  }

  /** True when a question waits for its answer; listen for answers first then. */
  public boolean isWaitingForAnswer() {
    return open != null;
  }

  /** Takes one utterance. */
  public Reply take(Utterance utterance) {
    for (String words : utterance.readings()) {
      Optional<Meaning> meaning = interpreter.read(words);
      if (meaning.isPresent()) {
        return understood(utterance, meaning.get());
      }
    }
    return turnedDown(utterance, "");
  }

  /** Ends the dialogue: what is still asked is noted as unconfirmed. */
  public List<Entry> finish() {
    return leaveOpen();
  }

  private Reply understood(Utterance utterance, Meaning meaning) {
    if (memory.paused() && !(meaning.statement() instanceof Resumed)) {
      return turnedDown(utterance, Texts.PAUSED);
    }
    if (open != null) {
      Optional<Reply> settled = answered(utterance, meaning, open);
      if (settled.isPresent()) {
        return settled.get();
      }
    }
    if (meaning.statement() instanceof Answer) {
      return turnedDown(utterance, Texts.NOTHING_ASKED);
    }
    List<Entry> leftOpen = leaveOpen();
    Instant happenedAt = happenedAt(utterance, meaning.ago());
    Optional<Statement> resolved = notable(meaning.statement(), utterance.at());
    if (resolved.isEmpty()) {
      return new Reply(
          Reply.Status.REJECTED, null, leftOpen, Texts.nothingToChange(), utterance.readings());
    }
    OpenQuestion question =
        new OpenQuestion(
            utterance, meaning.words(), resolved.get(), happenedAt, utterance.doubtful(), 0);
    return noteOrAsk(question, utterance, leftOpen);
  }

  private Reply noteOrAsk(OpenQuestion question, Utterance utterance, List<Entry> leftOpen) {
    if (question.doubtful() || Amounts.lacksUnit(question.statement())) {
      open = question;
      return new Reply(
          Reply.Status.ASKED,
          null,
          leftOpen,
          Texts.question(question),
          question.asked().readings());
    }
    open = null;
    Entry entry = note(question, Certainty.CONFIRMED);
    return new Reply(Reply.Status.NOTED, entry, leftOpen, "", utterance.readings());
  }

  /** What an utterance does to the open question; empty when it is no answer to it. */
  private Optional<Reply> answered(Utterance utterance, Meaning meaning, OpenQuestion question) {
    Statement said = meaning.statement();
    if (said instanceof Answer answer) {
      return Optional.of(answer(utterance, answer, question));
    }
    if (said instanceof ChangeLast change && change.value() != null) {
      return Optional.of(change(utterance, question, change.value()));
    }
    return said instanceof Undone ? Optional.of(dropped(utterance)) : repeated(utterance, question);
  }

  private Reply answer(Utterance utterance, Answer answer, OpenQuestion question) {
    if (answer.value() != null) {
      return change(utterance, question, answer.value());
    }
    if (answer.unit() != null) {
      return unit(utterance, question, answer.unit());
    }
    boolean yes = Boolean.TRUE.equals(answer.yes());
    if (yes) {
      return noteOrAsk(question.confirmed(), utterance, List.of());
    }
    if (!question.doubtful()) {
      return dropped(utterance);
    }
    return otherReading(question)
        .map(other -> noteOrAsk(other, utterance, List.of()))
        .orElseGet(() -> dropped(utterance));
  }

  private Reply change(Utterance utterance, OpenQuestion question, Amount value) {
    return Amounts.with(question.statement(), value)
        .map(now -> noteOrAsk(question.saying(now), utterance, List.of()))
        .orElseGet(() -> askAgain(utterance, question));
  }

  private Reply unit(Utterance utterance, OpenQuestion question, Unit unit) {
    return Amounts.withUnit(question.statement(), unit)
        .map(now -> noteOrAsk(question.saying(now), utterance, List.of()))
        .orElseGet(() -> askAgain(utterance, question));
  }

  private Reply askAgain(Utterance utterance, OpenQuestion question) {
    return new Reply(
        Reply.Status.ASKED, null, List.of(), Texts.question(question), utterance.readings());
  }

  private Reply dropped(Utterance utterance) {
    open = null;
    return turnedDown(utterance, Texts.DROPPED);
  }

  /** The next reading that means something, offered after a "no". */
  private Optional<OpenQuestion> otherReading(OpenQuestion question) {
    List<String> readings = question.asked().readings();
    for (int next = question.reading() + 1; next < readings.size(); next++) {
      Optional<Meaning> meaning = interpreter.read(readings.get(next));
      if (meaning.isPresent()) {
        Optional<Statement> statement = notable(meaning.get().statement(), question.asked().at());
        if (statement.isPresent()) {
          return Optional.of(
              new OpenQuestion(
                  question.asked(),
                  meaning.get().words(),
                  statement.get(),
                  happenedAt(question.asked(), meaning.get().ago()),
                  true,
                  next));
        }
      }
    }
    return Optional.empty();
  }

  /** Said twice alike is sure, whatever the recogniser thought of each. */
  private Optional<Reply> repeated(Utterance utterance, OpenQuestion question) {
    if (!question.doubtful() || utterance.readings().isEmpty()) {
      return Optional.empty();
    }
    String again = utterance.readings().get(0);
    int offered = question.asked().readings().indexOf(again);
    if (offered < 0) {
      return Optional.empty();
    }
    return interpreter
        .read(again)
        .flatMap(meaning -> notable(meaning.statement(), question.asked().at()))
        .map(statement -> noteOrAsk(question.saying(statement, again), utterance, List.of()));
  }

  private List<Entry> leaveOpen() {
    OpenQuestion question = open;
    if (question == null) {
      return List.of();
    }
    open = null;
    return List.of(note(question, Certainty.UNCONFIRMED));
  }

  private Entry note(OpenQuestion question, Certainty certainty) {
    Utterance asked = question.asked();
    Draft draft =
        new Draft(
            asked.id(),
            setting.job(),
            question.happenedAt(),
            setting.clock().instant(),
            setting.zone(),
            memory.actor(),
            setting.device(),
            asked.source(),
            certainty,
            question.words(),
            question.statement());
    Entry entry = pad.note(draft, asked.clip());
    memory.add(entry);
    return entry;
  }

  private static Reply turnedDown(Utterance utterance, String why) {
    return new Reply(Reply.Status.REJECTED, null, List.of(), why, utterance.readings());
  }

  private static Instant happenedAt(Utterance utterance, @Nullable Amount ago) {
    return ago == null ? utterance.at() : utterance.at().minus(duration(ago));
  }

  private static Duration duration(Amount time) {
    return Duration.ofMillis(time.in(Unit.SECOND).toBigDecimal().movePointRight(3).longValue());
  }

  /**
   * The statement as it can stand in the log; empty when it refers to something that is not there.
   */
  private Optional<Statement> notable(Statement said, Instant at) {
    if (said instanceof Undone) {
      return memory.lastAct().map(act -> new Undone(act.id()));
    }
    if (said instanceof ChangeLast change) {
      return memory.lastContent().flatMap(last -> correction(last, change));
    }
    if (said instanceof WasEarlier earlier) {
      return memory
          .lastContent()
          .map(last -> new Retimed(last.id(), at.minus(duration(earlier.ago()))));
    }
    if (said instanceof SameAgain again) {
      return memory
          .lastContent()
          .flatMap(last -> Elsewhere.of(last.statement(), again.item(), again.place(), resolver));
    }
    return Optional.of(resolver.resolve(said, memory.lastStatement()));
  }

  private Optional<Statement> correction(Memory.Act last, ChangeLast change) {
    Optional<Statement> now = Optional.of(last.statement());
    Amount value = change.value();
    if (value != null) {
      now = now.flatMap(statement -> Amounts.with(statement, value));
    }
    return now.flatMap(
            statement -> Elsewhere.of(statement, change.item(), change.place(), resolver))
        .map(statement -> new Corrected(last.id(), statement));
  }

  /** The plan of the job. */
  public Plan plan() {
    return plan;
  }

  /** Who speaks now. */
  public String actor() {
    return memory.actor();
  }

  /**
   * What is remembered of the entries so far: who speaks, whether work is paused, what "that"
   * means.
   */
  private static final class Memory {

    /** An entry that later ones may refer to. */
    record Act(String id, Statement statement, boolean content) {}

    private final List<Act> acts = new ArrayList<>();
    private String actor;
    private boolean paused;

    Memory(String actor) {
      this.actor = actor;
    }

    void add(Entry entry) {
      Statement said = entry.statement();
      if (said instanceof Undone undone) {
        acts.removeIf(act -> act.id().equals(undone.target()));
      } else if (said instanceof Corrected corrected) {
        replaceContent(corrected);
        acts.add(new Act(entry.id(), corrected.now(), false));
      } else if (said instanceof Retimed) {
        acts.add(new Act(entry.id(), said, false));
      } else if (said instanceof SpeakerIs speaker) {
        actor = speaker.person();
      } else if (said instanceof Paused || said instanceof Resumed) {
        paused = said instanceof Paused;
      } else if (!(said instanceof JobOpened || said instanceof JobClosed)) {
        acts.add(new Act(entry.id(), said, true));
      }
    }

    private void replaceContent(Corrected corrected) {
      for (int i = 0; i < acts.size(); i++) {
        Act act = acts.get(i);
        if (act.content() && act.id().equals(corrected.target())) {
          acts.set(i, new Act(act.id(), corrected.now(), true));
        }
      }
    }

    Optional<Act> lastAct() {
      return acts.isEmpty() ? Optional.empty() : Optional.of(acts.get(acts.size() - 1));
    }

    Optional<Act> lastContent() {
      for (int i = acts.size() - 1; i >= 0; i--) {
        if (acts.get(i).content()) {
          return Optional.of(acts.get(i));
        }
      }
      return Optional.empty();
    }

    @Nullable Statement lastStatement() {
      return lastContent().map(Act::statement).orElse(null);
    }

    String actor() {
      return actor;
    }

    boolean paused() {
      return paused;
    }
  }
}
