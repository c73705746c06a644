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
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Answer;
import tallyback.model.Statement.ChangeLast;
import tallyback.model.Statement.Chosen;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.MeantAt;
import tallyback.model.Statement.MoreOfSame;
import tallyback.model.Statement.Named;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
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
  private final Elsewhere elsewhere;
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
    this.elsewhere = new Elsewhere(resolver);
    this.pad = pad;
    this.setting = setting;
    this.memory = new Memory(setting.actor());
    before.forEach(memory::add);
  }

  /** True when a question waits for its answer; listen for answers first then. */
  public boolean isWaitingForAnswer() {
    return open != null;
  }

  /**
   * Takes one utterance. Only its best reading counts: when that means nothing, another with
   * another value must not slip in unasked.
   */
  public Reply take(Utterance utterance) {
    Reply reply = heard(utterance);
    boolean noted = reply.status() == Reply.Status.NOTED;
    return noted
        ? memory.missed.reminder(utterance.snrDb()).map(reply::reminding).orElse(reply)
        : reply;
  }

  private Reply heard(Utterance utterance) {
    if (utterance.readings().isEmpty()) {
      return notUnderstood(utterance);
    }
    String words = utterance.readings().get(0);
    Optional<Meaning> answer = interpreter.readAnswer(words);
    OpenQuestion question = open;
    if (question != null && !memory.paused()) {
      Optional<Reply> settled = answer.flatMap(meaning -> answered(utterance, meaning, question));
      if (settled.isPresent()) {
        return settled.get();
      }
    }
    return interpreter
        .read(words)
        .map(meaning -> understood(utterance, meaning))
        .orElseGet(
            () ->
                answer.isPresent()
                    ? turnedDown(utterance, Texts.NOTHING_ASKED)
                    : notUnderstood(utterance));
  }

  /** Keeps what was called out with the attention word; of anything else nothing, ever. */
  private Reply notUnderstood(Utterance utterance) {
    if (!utterance.called() || memory.paused()) {
      return turnedDown(utterance, "");
    }
    Entry entry =
        note(
            utterance,
            utterance.id(),
            utterance.at(),
            new NotUnderstood(utterance.snrDb()),
            "",
            Certainty.UNCONFIRMED);
    return new Reply(
        Reply.Status.REJECTED,
        entry,
        List.of(),
        Texts.notUnderstood(Missed.noisy(utterance.snrDb())),
        utterance.readings());
  }

  /** The readings offered by the open question; empty when none waits. */
  public List<String> offered() {
    OpenQuestion question = open;
    return question == null || !question.doubtful() ? List.of() : question.asked().readings();
  }

  /**
   * Words that answer the open question, the likeliest first, for whoever would rather press than
   * speak; empty when none waits.
   */
  public List<String> answers() {
    OpenQuestion question = open;
    return question == null ? List.of() : Texts.answers(question);
  }

  /** Ends the dialogue: what is still asked is noted as unconfirmed. */
  public List<Entry> finish() {
    return leaveOpen();
  }

  private Reply understood(Utterance utterance, Meaning meaning) {
    if (memory.paused() && !(meaning.statement() instanceof Resumed)) {
      return turnedDown(utterance, Texts.PAUSED);
    }
    if (meaning.statement() instanceof NotUnderstoodSettled && memory.missed.isEmpty()) {
      return turnedDown(utterance, Texts.NOTHING_MISSED);
    }
    if (open != null) {
      Optional<Reply> settled = answered(utterance, meaning, open);
      if (settled.isPresent()) {
        return settled.get();
      }
    }
    List<Entry> leftOpen = leaveOpen();
    return question(utterance, meaning, 0)
        .map(question -> noteOrAsk(question, utterance, leftOpen))
        .orElseGet(
            () ->
                new Reply(
                    Reply.Status.REJECTED,
                    null,
                    leftOpen,
                    Texts.NOTHING_BEFORE,
                    utterance.readings()));
  }

  /**
   * What is to be noted of a reading, and what must be asked first; empty when it refers to
   * something that isn't there.
   */
  private Optional<OpenQuestion> question(Utterance utterance, Meaning meaning, int reading) {
    return notable(meaning.statement(), utterance.at())
        .map(
            statement ->
                new OpenQuestion(
                    utterance,
                    meaning.words(),
                    statement,
                    meaning.further(),
                    meaning.unitChoices(),
                    happenedAt(utterance, meaning.ago()),
                    utterance.doubtful() || reading > 0 || isFinal(utterance, statement),
                    reading));
  }

  /** Closing a job can't be taken back, so what was only heard is asked about. */
  private static boolean isFinal(Utterance utterance, Statement statement) {
    return utterance.source() == Source.SPOKEN && statement instanceof JobClosed;
  }

  private Reply noteOrAsk(OpenQuestion question, Utterance utterance, List<Entry> leftOpen) {
    if (question.doubtful()
        || Amounts.lacksUnit(question.statement())
        || WrenchOrBolt.unsaid(plan, question.statement())) {
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
    if (utterance.doubtful()) {
      // What is in doubt itself settles nothing, but the same said twice does.
      return repeated(utterance, question);
    }
    if (said instanceof Answer answer) {
      return Optional.of(answer(utterance, answer, meaning.unitChoices(), question));
    }
    if (said instanceof Chosen chosen) {
      return Optional.of(chosen(utterance, chosen, question));
    }
    if (said instanceof Named named) {
      return Optional.of(
          settle(utterance, question, elsewhere.moved(question.statement(), null, named.id())));
    }
    if (said instanceof MeantAt meant) {
      return Optional.of(
          settle(utterance, question, WrenchOrBolt.said(question.statement(), meant.at())));
    }
    if (said instanceof ChangeLast change && change.value() != null) {
      return Optional.of(change(utterance, question, change.value()));
    }
    return said instanceof Undone ? Optional.of(dropped(utterance)) : repeated(utterance, question);
  }

  private Reply answer(
      Utterance utterance, Answer answer, List<Unit> choices, OpenQuestion question) {
    if (answer.value() != null) {
      return change(utterance, question, answer.value());
    }
    if (answer.unit() != null) {
      return settle(utterance, question, Amounts.withUnit(question.statement(), answer.unit()));
    }
    if (answer.yes() == null) {
      return settle(utterance, question, unitAmong(choices, question));
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

  /** "American", "pounds": one unit is left when the words and the question allow only that. */
  private static Optional<Statement> unitAmong(List<Unit> choices, OpenQuestion question) {
    List<Unit> left = question.unitChoices().stream().filter(choices::contains).toList();
    return left.size() == 1
        ? Amounts.withUnit(question.statement(), left.get(0))
        : Optional.empty();
  }

  private Reply chosen(Utterance utterance, Chosen chosen, OpenQuestion question) {
    int reading = chosen.number() - 1;
    List<String> readings = question.asked().readings();
    if (!question.doubtful() || reading >= readings.size()) {
      return askAgain(utterance, question);
    }
    return interpreter
        .read(readings.get(reading))
        .flatMap(meaning -> question(question.asked(), meaning, reading))
        .map(meant -> noteOrAsk(meant.confirmed(), utterance, List.of()))
        .orElseGet(() -> askAgain(utterance, question));
  }

  private Reply settle(Utterance utterance, OpenQuestion question, Optional<Statement> now) {
    return now.map(statement -> noteOrAsk(question.saying(statement), utterance, List.of()))
        .orElseGet(() -> askAgain(utterance, question));
  }

  private Reply change(Utterance utterance, OpenQuestion question, Amount value) {
    return settle(utterance, question, Amounts.with(question.statement(), value));
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
      int reading = next;
      Optional<OpenQuestion> other =
          interpreter
              .read(readings.get(next))
              .flatMap(meaning -> question(question.asked(), meaning, reading));
      if (other.isPresent()) {
        return other;
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
    Entry entry =
        note(question, question.asked().id(), question.statement(), question.words(), certainty);
    for (int i = 0; i < question.further().size(); i++) {
      // Each fact of one breath is an entry of its own, named after the first so that a retry notes
      // none twice.
      String id = question.asked().id() + "/" + (i + 2);
      note(question, id, question.further().get(i), question.words(), certainty);
    }
    return entry;
  }

  private Entry note(
      OpenQuestion question, String id, Statement statement, String words, Certainty certainty) {
    return note(question.asked(), id, question.happenedAt(), statement, words, certainty);
  }

  private Entry note(
      Utterance asked,
      String id,
      Instant happenedAt,
      Statement statement,
      String words,
      Certainty certainty) {
    Draft draft =
        new Draft(
            id,
            setting.job(),
            happenedAt,
            setting.clock().instant(),
            setting.zone(),
            memory.actor(),
            setting.device(),
            asked.source(),
            certainty,
            words,
            statement);
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
      return memory.lastContent().flatMap(last -> elsewhere.again(last.statement(), again));
    }
    if (said instanceof MoreOfSame more) {
      return memory.lastContent().flatMap(last -> elsewhere.more(last.statement(), more));
    }
    if (said instanceof Corrected corrected) {
      return memory
          .lastContent()
          .flatMap(
              last ->
                  resolver
                      .resolve(corrected.now(), last.statement())
                      .map(now -> new Corrected(last.id(), now)));
    }
    return resolver.resolve(said, memory.lastStatement());
  }

  private Optional<Statement> correction(Memory.Act last, ChangeLast change) {
    Optional<Statement> now = Optional.of(last.statement());
    Amount value = change.value();
    if (value != null) {
      now = now.flatMap(statement -> Amounts.with(statement, value));
    }
    return now.flatMap(statement -> elsewhere.moved(statement, change.item(), change.place()))
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
    private final Missed missed = new Missed();
    private String actor;
    private boolean paused;

    Memory(String actor) {
      this.actor = actor;
    }

    void add(Entry entry) {
      Statement said = entry.statement();
      missed.add(entry);
      if (said instanceof NotUnderstood) {
        // Nobody saw what it says, so "scratch that" and "make that" mean what came before it.
        return;
      }
      if (said instanceof Undone undone) {
        acts.removeIf(act -> act.id().equals(undone.target()));
      } else if (said instanceof Corrected corrected) {
        replaceContent(corrected);
        acts.add(new Act(entry.id(), corrected.now(), false));
      } else if (said instanceof Retimed || said instanceof NotUnderstoodSettled) {
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
