package tallyback.dialogue;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.dialogue.answers.Answer;
import tallyback.dialogue.answers.Answers;
import tallyback.dialogue.answers.Voices;
import tallyback.dialogue.answers.Ways;
import tallyback.log.Draft;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.CancelTimer;
import tallyback.model.Statement.CautionAnswered;
import tallyback.model.Statement.ChangeLast;
import tallyback.model.Statement.Chosen;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.Fell;
import tallyback.model.Statement.Hindrance;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.MeantAt;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.MoreOfSame;
import tallyback.model.Statement.Named;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.OtherReading;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.PutOff;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.SameAgain;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.TimerSet;
import tallyback.model.Statement.TimersCancelled;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.WasEarlier;
import tallyback.model.Unit;
import tallyback.phrase.Meaning;
import tallyback.phrase.Question;
import tallyback.phrase.Question.OfJob;
import tallyback.phrase.Question.OfListening;
import tallyback.phrase.Question.OfMemo;
import tallyback.phrase.Question.OfSpeaker;
import tallyback.phrase.Question.OfVoice;
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
  private final Answers answers;
  private final Resolver resolver;
  private final Elsewhere elsewhere;
  private final NotePad pad;
  private final Setting setting;
  private final Memory memory;
  private final JobSoFar soFar;
  private final Impossible impossible;
  private final Repairs repairs;
  private final Fallen fallen = new Fallen();
  private final Cautions cautions;
  private final Timers timers;
  private final Handover handover;
  private final SayAgain sayAgain = new SayAgain();
  private boolean asksAgain;
  private Ways ways = way -> Ways.Outcome.NOT_LIVE;
  private @Nullable Voices voices;
  private String saidLast = "";
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
   * @param answers what is answered to the speaker's questions
   * @param pad where entries are noted
   * @param setting where and when
   * @param before the entries noted so far, by sequence number
   */
  public Dialogue(
      Plan plan,
      Interpreter interpreter,
      Answers answers,
      NotePad pad,
      Setting setting,
      List<Entry> before) {
    this.plan = plan;
    this.interpreter = interpreter;
    this.answers = answers;
    this.resolver = new Resolver(plan);
    this.elsewhere = new Elsewhere(resolver);
    this.pad = pad;
    this.setting = setting;
    this.memory = new Memory(setting.actor());
    this.soFar = new JobSoFar(plan, setting.zone());
    this.impossible = new Impossible(plan, soFar);
    this.repairs = new Repairs(plan, interpreter, resolver, soFar);
    this.cautions = new Cautions(plan);
    this.timers = new Timers(plan, soFar);
    this.handover = new Handover(plan, soFar);
    before.forEach(this::remember);
    before.stream().map(Entry::recordedAt).max(Instant::compareTo).ifPresent(timers::toldUntil);
  }

  /** Takes in what was noted into the same job without being said here. */
  public void notedElsewhere(Entry entry) {
    remember(entry);
  }

  private void remember(Entry entry) {
    memory.add(entry);
    soFar.add(entry);
    cautions.add(entry);
    timers.add(entry);
    sayAgain.add(entry);
  }

  /**
   * Says whether cautions are to be said: only where somebody hears them before he goes on. At
   * first they are not.
   */
  public void sayCautions(boolean now) {
    cautions.speak(now);
  }

  /**
   * Says whether {@link #sayAgain} is called when it is quiet: only where somebody is there to
   * answer. At first it is not.
   */
  public void asksAgain(boolean now) {
    asksAgain = now;
  }

  /** Says who carries out an order to listen in another way; nobody at first. */
  public void listensThrough(Ways live) {
    ways = live;
  }

  /** Says who knows whose voice is listened for; nobody does where all is typed. */
  public void hearsThrough(Voices heard) {
    voices = heard;
  }

  /** The reminders that have fallen due since the last call, in words. */
  public List<String> remindersDue(Instant now) {
    return timers.over(now);
  }

  /** True when what was said last is not noted before a question about it is answered. */
  public boolean isUndecided() {
    return open != null;
  }

  /** True when a question waits for its answer; listen for answers first then. */
  public boolean isWaitingForAnswer() {
    return open != null || fallen.isOpen() || cautions.isWaiting() || sayAgain.isOpen();
  }

  /**
   * Takes one utterance. Only its best reading counts: when that means nothing, another with
   * another value must not slip in unasked.
   */
  public Reply take(Utterance utterance) {
    Reply heard = heard(utterance);
    boolean noted = heard.status() == Reply.Status.NOTED;
    Reply reply = noted ? withReminders(heard, utterance) : heard;
    keepForSayingAgain(reply);
    return reply;
  }

  private Reply withReminders(Reply noted, Utterance utterance) {
    Reply reply = noted;
    for (String due : timers.over(utterance.at())) {
      reply = reply.alsoReminding(due);
    }
    return memory
        .missed
        .reminder(utterance.snrDb(), asksAgain)
        .map(reply::alsoReminding)
        .orElse(reply);
  }

  private void keepForSayingAgain(Reply reply) {
    Answer answer = reply.answer();
    boolean ofTheVoice = answer != null && answer.question() instanceof OfVoice;
    Entry entry = reply.entry();
    String said =
        reply.status() == Reply.Status.NOTED && entry != null
            ? answers.readBack(entry.statement())
            : reply.say();
    if (!said.isEmpty() && !ofTheVoice) {
      saidLast = reply.reminder().isEmpty() ? said : said + ". " + reply.reminder();
    }
  }

  private Reply heard(Utterance utterance) {
    if (utterance.readings().isEmpty()) {
      return notUnderstood(utterance);
    }
    String words = utterance.readings().get(0);
    Optional<Statement> asWritten =
        utterance.source() == Source.TYPED ? WrittenWords.of(words, plan) : Optional.empty();
    if (asWritten.isPresent()) {
      return understood(utterance, new Meaning(words, asWritten.get(), null));
    }
    Optional<Meaning> answer = interpreter.readAnswer(words);
    OpenQuestion question = open;
    if (question != null && !memory.paused()) {
      Optional<Reply> settled = answer.flatMap(meaning -> answered(utterance, meaning, question));
      if (settled.isPresent()) {
        return settled.get();
      }
    }
    if (question == null && sayAgain.isOpen() && !memory.paused()) {
      Optional<Reply> put = answer.flatMap(meaning -> putOff(utterance, meaning));
      if (put.isPresent()) {
        return put.get();
      }
    }
    if (question == null && !memory.paused()) {
      Optional<Reply> said = answer.flatMap(meaning -> answeredAfterwards(utterance, meaning));
      if (said.isPresent()) {
        return said.get();
      }
    }
    Optional<Question> asked = interpreter.readQuestion(words);
    if (asked.isPresent()) {
      return asked(utterance, asked.get());
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
    if (!utterance.called()) {
      return turnedDown(utterance, "");
    }
    if (memory.paused()) {
      return turnedDown(utterance, Texts.PAUSED);
    }
    return kept(utterance, null, Texts.notUnderstood(Missed.noisy(utterance.snrDb())));
  }

  /** Its sound is kept, and why its words were not taken. */
  private Reply kept(Utterance utterance, @Nullable Hindrance hindrance, String say) {
    Entry entry =
        note(
            utterance,
            utterance.id(),
            utterance.at(),
            new NotUnderstood(utterance.snrDb(), hindrance),
            "",
            Certainty.UNCONFIRMED);
    return new Reply(Reply.Status.REJECTED, entry, List.of(), say, utterance.readings());
  }

  // ---- too noisy

  /**
   * Takes what was said where it is too noisy to trust what was heard: it is not noted and not
   * asked about. What was called out is kept as sound.
   */
  public Reply tooNoisy(Utterance utterance) {
    if (memory.paused()) {
      return turnedDown(utterance, utterance.called() ? Texts.PAUSED : "");
    }
    return utterance.called()
        ? kept(utterance, Hindrance.NOISE, Texts.keptInNoise(asksAgain))
        : turnedDown(utterance, Texts.TOO_NOISY + ": say it when it is quieter");
  }

  /**
   * Whether words may be taken although it is too noisy to note anything, if they were heard
   * without doubt. Those are the ones by which nothing new comes to stand in the log: "no" to a
   * question, "scratch that", "skip it", a question to the tool. Misheard, they cost a word: what
   * is taken back is said back in full and can be said again, and what was asked is asked again.
   * "Yes" is none of them: misheard it would have noted what was doubtful in the first place. Nor
   * is an order to listen in another way, or one that ends the job.
   */
  public boolean isSafeInNoise(String words) {
    Optional<Statement> answer = interpreter.readAnswer(words).map(Meaning::statement);
    if (isWaitingForAnswer() && answer.filter(Dialogue::turnsDown).isPresent()) {
      return true;
    }
    return interpreter
            .read(words)
            .map(Meaning::statement)
            .filter(Undone.class::isInstance)
            .isPresent()
        || interpreter
            .readQuestion(words)
            .filter(asked -> !(asked instanceof OfListening))
            .isPresent();
  }

  /** Whether words can only be an answer to what is asked now. */
  public boolean isAnswer(String words) {
    return isWaitingForAnswer()
        && interpreter.readAnswer(words).isPresent()
        && interpreter.read(words).isEmpty();
  }

  private static boolean turnsDown(Statement said) {
    return said instanceof Undone
        || said instanceof PutOff
        || (said instanceof Statement.Answer answer
            && Boolean.FALSE.equals(answer.yes())
            && answer.value() == null
            && answer.unit() == null);
  }

  /**
   * It is quiet and nobody speaks: a question that was left in the noise is asked again, else what
   * was kept in the noise is asked for, each once.
   *
   * @param wasNoisy whether it was too noisy until now
   * @return what is to be said; empty for nothing
   */
  public Optional<Reply> sayAgain(Instant now, boolean wasNoisy) {
    OpenQuestion question = open;
    if (question != null) {
      return wasNoisy
          ? Optional.of(
              new Reply(
                  Reply.Status.ASKED,
                  null,
                  List.of(),
                  Texts.question(question),
                  question.asked().readings()))
          : Optional.empty();
    }
    return memory.paused() || isWaitingForAnswer()
        ? Optional.empty()
        : sayAgain
            .next(now)
            .map(
                wanted ->
                    new Reply(
                        Reply.Status.ASKED,
                        null,
                        List.of(),
                        Texts.sayAgain(wanted.count(), at(wanted.entry().happenedAt()), true),
                        List.of()));
  }

  /** Whether something is to be said again now: then that needs no attention word. */
  public boolean isSayingAgain() {
    return open == null && sayAgain.isOpen();
  }

  /** What was to be said again was not. */
  public void notSaidAgain(Instant now) {
    if (open == null) {
      sayAgain.lapse(now);
    }
  }

  private String at(Instant time) {
    return soFar.clockTime(time);
  }

  /** "Skip it", "ask me later", or another answer that means as much; empty for anything else. */
  private Optional<Reply> putOff(Utterance utterance, Meaning meaning) {
    Statement said = meaning.statement();
    boolean undoes = said instanceof Undone && interpreter.read(meaning.words()).isPresent();
    if (said instanceof Statement.Answer answer && answer.isYes()) {
      return sayAgain
          .saidAt()
          .map(
              then ->
                  new Reply(
                      Reply.Status.ASKED,
                      null,
                      List.of(),
                      Texts.stillWanted(at(then)),
                      utterance.readings()));
    }
    if (undoes || !turnsDown(said)) {
      return Optional.empty();
    }
    boolean later = said instanceof PutOff off && off.later();
    return sayAgain
        .putOff(later, utterance.at())
        .map(then -> turnedDown(utterance, later ? Texts.ASKED_LATER : Texts.skipped(at(then))))
        .map(reply -> later ? reply : withNextToSayAgain(reply, utterance));
  }

  private Reply withNextToSayAgain(Reply reply, Utterance utterance) {
    return sayAgain
        .next(utterance.at())
        .map(
            wanted ->
                reply.alsoReminding(
                    Texts.sayAgain(wanted.count(), at(wanted.entry().happenedAt()), false)))
        .orElse(reply);
  }

  // ---- memos

  /** Whether nothing is to be kept. */
  public boolean isPaused() {
    return memory.paused();
  }

  /** What is answered to whoever calls meanwhile. */
  public String pausedText() {
    return Texts.PAUSED;
  }

  /** Whether words begin a memo. */
  public boolean beginsMemo(String words) {
    return interpreter
        .read(words)
        .map(Meaning::statement)
        .filter(Memo.class::isInstance)
        .isPresent();
  }

  /** Plan id of the place or item that a memo begun by these words gives a name to, or null. */
  public @Nullable String memoSubject(String words) {
    return interpreter.read(words).map(Meaning::statement).orElse(null) instanceof Memo memo
        ? memo.subject()
        : null;
  }

  /** Whether words end one. */
  public boolean endsMemo(String words) {
    return interpreter.readQuestion(words).filter(OfMemo.END_OF_MEMO::equals).isPresent();
  }

  /** A memo has begun: whatever is asked stays open. Nothing is noted of it yet. */
  public Reply memoBegun(List<String> readings) {
    return new Reply(Reply.Status.ASKED, null, leaveOpen(), Texts.MEMO_GOES_ON, readings);
  }

  /** Nothing was said after "memo". */
  public Reply memoEmpty() {
    return new Reply(Reply.Status.REJECTED, null, List.of(), Texts.MEMO_EMPTY, List.of());
  }

  /**
   * Notes a spoken memo.
   *
   * @param memo what began it, with the sound of all of it
   * @param seconds how long it is
   * @param cut whether more was said than a memo holds
   */
  public Reply memo(Utterance memo, int seconds, boolean cut) {
    return memo(memo, seconds, cut, null);
  }

  /**
   * Notes a spoken memo.
   *
   * @param memo what began it, with the sound of all of it
   * @param seconds how long it is
   * @param cut whether more was said than a memo holds
   * @param subject plan id of the place or item that it gives a name to, or null
   */
  public Reply memo(Utterance memo, int seconds, boolean cut, @Nullable String subject) {
    if (memory.paused()) {
      return turnedDown(memo, Texts.PAUSED);
    }
    List<Entry> leftOpen = leaveOpen();
    Entry entry =
        note(memo, memo.id(), memo.at(), new Memo(seconds, null, subject), "", Certainty.CONFIRMED);
    Reply noted = new Reply(Reply.Status.NOTED, entry, leftOpen, "", List.of());
    Reply reply = withReminders(cut ? noted.alsoReminding(Texts.MEMO_FULL) : noted, memo);
    keepForSayingAgain(reply);
    return reply;
  }

  // ---- questions of the speaker's

  /**
   * Answers. A question that was misheard does little harm, so doubt between questions is no reason
   * to ask; doubt whether it was an entry is.
   */
  private Reply asked(Utterance utterance, Question question) {
    boolean order = question instanceof OfVoice || opensOrShutsTheEar(question);
    if (memory.paused() && !order) {
      return turnedDown(utterance, Texts.PAUSED);
    }
    if (open != null) {
      Optional<Reply> settled = repeated(utterance, open);
      if (settled.isPresent()) {
        return settled.get();
      }
    }
    // Who was asked something and says "say again" hardly means "same again".
    boolean wantsItAgain = open != null && question instanceof OfVoice;
    // A question that was misheard does little harm; an ear that opens or shuts does some.
    boolean harmless =
        !opensOrShutsTheEar(question)
            && utterance.readings().stream()
                .noneMatch(words -> interpreter.read(words).isPresent());
    return utterance.doubtful() && !wantsItAgain && !harmless
        ? noteOrAsk(maybeAsked(utterance, utterance.readings().get(0), 0), utterance, leaveOpen())
        : answer(utterance, question, List.of());
  }

  private static boolean opensOrShutsTheEar(Question question) {
    return question instanceof OfListening
        || (question instanceof OfSpeaker speaker && speaker.voice() != null);
  }

  /** Of a question nothing can be noted; left open, it may have been an entry not understood. */
  private static OpenQuestion maybeAsked(Utterance utterance, String words, int reading) {
    return new OpenQuestion(
        utterance,
        words,
        new NotUnderstood(utterance.snrDb()),
        List.of(),
        List.of(),
        utterance.at(),
        true,
        reading,
        "",
        false,
        List.of());
  }

  private Reply answer(Utterance utterance, Question question, List<Entry> leftOpen) {
    Answer answer = answerTo(question, utterance.at());
    String stillOpen = open == null ? "" : Texts.question(open);
    boolean saidAnyway = question == OfVoice.SAY_AGAIN && saidLast.endsWith(stillOpen);
    return new Reply(
        Reply.Status.ANSWERED,
        null,
        leftOpen,
        answer.spoken(),
        utterance.readings(),
        saidAnyway ? "" : stillOpen,
        answer);
  }

  private Answer answerTo(Question question, Instant at) {
    if (question instanceof OfListening way) {
      return answers.carriedOut(way, ways.listen(way));
    }
    if (question instanceof OfSpeaker speaker) {
      return answers.whoSpeaks(speaker, memory.actor(), voices);
    }
    if (question == OfMemo.END_OF_MEMO) {
      return new Answer(question, Texts.NO_MEMO, Texts.NO_MEMO);
    }
    if (question == OfJob.TIMERS) {
      String running = timers.running(at);
      return new Answer(question, running, running);
    }
    return answers.answer(question, soFar.entries(), saidLast);
  }

  /**
   * True for what may be said without the attention word while a question waits: who did not hear
   * it can't answer it.
   */
  public boolean isOrderToTheVoice(String words) {
    return interpreter.readQuestion(words).filter(OfVoice.class::isInstance).isPresent();
  }

  /** A reading as something to ask about; empty when it means nothing here. */
  private Optional<OpenQuestion> toAskAbout(Utterance asked, String words, int reading) {
    return interpreter
        .read(words)
        .flatMap(meaning -> question(asked, meaning, reading))
        .or(() -> interpreter.readQuestion(words).map(any -> maybeAsked(asked, words, reading)));
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
    if (question == null && sayAgain.isOpen()) {
      return List.of(Texts.SKIP_IT, Texts.ASK_LATER);
    }
    return question == null ? List.of() : Texts.answers(question);
  }

  /** Ends the dialogue: what is still asked is noted as unconfirmed. */
  public List<Entry> finish() {
    sayAgain.lapse(setting.clock().instant());
    return leaveOpen();
  }

  private Reply understood(Utterance utterance, Meaning meaning) {
    if (memory.paused() && !(meaning.statement() instanceof Resumed)) {
      return turnedDown(utterance, Texts.PAUSED);
    }
    if (meaning.statement() instanceof Statement.Answer) {
      return turnedDown(utterance, Texts.NOTHING_ASKED);
    }
    if (utterance.source() == Source.TYPED
        && meaning.statement() instanceof Memo typed
        && typed.text() == null) {
      return turnedDown(utterance, Texts.MEMO_OF_WHAT);
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
                    whyNothing(meaning.statement(), utterance.at()),
                    utterance.readings()));
  }

  private String whyNothing(Statement said, Instant at) {
    if (said instanceof CancelTimer) {
      return timers.whyNot(at);
    }
    return Repairs.isOne(said) ? repairs.found(said).why() : Texts.NOTHING_BEFORE;
  }

  /** An answer to what was asked of an entry that is noted already; empty when it is none. */
  private Optional<Reply> answeredAfterwards(Utterance utterance, Meaning meaning) {
    Optional<Statement> settled = Optional.empty();
    if (meaning.statement() instanceof Fell fell) {
      settled = fallen.at(fell.where());
    } else if (meaning.statement() instanceof Statement.Answer answer && answer.isYes()) {
      settled = cautions.understood();
    }
    return settled
        .flatMap(now -> question(utterance, new Meaning(meaning.words(), now, null), 0))
        .map(question -> noteOrAsk(question, utterance, List.of()));
  }

  /**
   * What is to be noted of a reading, and what must be asked first; empty when it refers to
   * something that isn't there.
   */
  private Optional<OpenQuestion> question(Utterance utterance, Meaning meaning, int reading) {
    return notable(meaning.statement(), utterance.at())
        .filter(statement -> Amounts.hasUnitAmong(statement, meaning.unitChoices()))
        .map(
            statement ->
                new OpenQuestion(
                    utterance,
                    meaning.words(),
                    statement,
                    meaning.further(),
                    meaning.unitChoices(),
                    sayAgain
                        .repeatedBy(utterance.id(), statement)
                        .map(then -> before(then, meaning.ago()))
                        .orElseGet(() -> before(utterance.at(), meaning.ago())),
                    utterance.doubtful() || reading > 0 || isFinal(utterance, statement),
                    reading,
                    "",
                    false,
                    List.of()));
  }

  /** Closing a job can't be taken back, so what was only heard is asked about. */
  private static boolean isFinal(Utterance utterance, Statement statement) {
    return utterance.source() == Source.SPOKEN && statement instanceof JobClosed;
  }

  private Reply noteOrAsk(OpenQuestion now, Utterance utterance, List<Entry> leftOpen) {
    OpenQuestion before = open;
    OpenQuestion said =
        before != null && before.asked().id().equals(now.asked().id())
            ? now.after(before.answeredBy(String.join(" ", utterance.readings().subList(0, 1))))
            : now;
    Optional<Question> asked =
        said.doubtful() ? Optional.empty() : interpreter.readQuestion(said.words());
    if (asked.isPresent()) {
      open = null;
      return answer(utterance, asked.get(), leftOpen);
    }
    OpenQuestion question =
        said.accepted()
            ? said
            : impossible
                .why(said.statement(), said.happenedAt(), said.asked().at())
                .map(said::doubtedBecause)
                .orElse(said);
    if (question.doubtful()
        || !question.why().isEmpty()
        || Amounts.lacksUnit(question.statement())
        || WrenchOrBolt.unsaid(plan, question.statement())) {
      String text = Texts.question(question);
      open = question.asking(text);
      return new Reply(Reply.Status.ASKED, null, leftOpen, text, question.asked().readings());
    }
    open = null;
    Optional<String> putsRight = repairs.putsRight(question.statement());
    boolean goneOn = notePassedOver(question);
    Entry entry = note(question, Certainty.CONFIRMED);
    Reply reply = new Reply(Reply.Status.NOTED, entry, leftOpen, "", utterance.readings());
    Optional<Entry> saidBefore = sayAgain.noted(question.asked().id(), question.happenedAt());
    saidBefore.ifPresent(missed -> noteSaidAgain(question, missed, entry));
    reply =
        saidBefore
            .map(missed -> Texts.saidLate(at(question.happenedAt())))
            .map(reply::alsoReminding)
            .orElse(reply);
    reply = putsRight.map(reply::alsoReminding).orElse(reply);
    reply = goneOn ? reply.alsoReminding(Texts.GONE_ON) : reply;
    reply = handover.with(entry).map(reply::alsoReminding).orElse(reply);
    reply = fallen.isOpen() ? reply.alsoReminding(Texts.FELL_WHERE) : reply;
    reply = cautions.due(entry).map(reply::alsoReminding).orElse(reply);
    boolean mayGoOn = saidBefore.isPresent() && !fallen.isOpen() && !cautions.isWaiting();
    return mayGoOn ? withNextToSayAgain(reply, utterance) : reply;
  }

  /** What was kept in the noise is settled by what was said again. */
  private void noteSaidAgain(OpenQuestion question, Entry missed, Entry again) {
    note(
        question.asked(),
        Source.TOOL,
        again.id() + "/again",
        question.asked().at(),
        new NotUnderstoodSettled(missed.id(), again.id()),
        "",
        Certainty.CONFIRMED);
  }

  /** Work goes on although a caution waits for its answer: that is noted before it. */
  private boolean notePassedOver(OpenQuestion next) {
    Optional<Statement> passed = cautions.passedOver(next.statement());
    passed.ifPresent(
        statement ->
            note(
                next.asked(),
                Source.TOOL,
                next.asked().id() + "/caution",
                next.asked().at(),
                statement,
                "",
                Certainty.CONFIRMED));
    return passed.isPresent();
  }

  /** What an utterance does to the open question; empty when it is no answer to it. */
  private Optional<Reply> answered(Utterance utterance, Meaning meaning, OpenQuestion question) {
    Statement said = meaning.statement();
    if (utterance.doubtful()) {
      // What is in doubt itself settles nothing, but the same said twice does.
      return repeated(utterance, question);
    }
    if (said instanceof Statement.Answer answer) {
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
    if (said instanceof OtherReading && question.doubtful()) {
      return Optional.of(
          otherReading(question)
              .map(other -> noteOrAsk(other, utterance, List.of()))
              .orElseGet(() -> askAgain(utterance, question)));
    }
    if (said instanceof ChangeLast change && change.value() != null) {
      return Optional.of(change(utterance, question, change.value()));
    }
    return said instanceof Undone ? Optional.of(dropped(utterance)) : repeated(utterance, question);
  }

  private Reply answer(
      Utterance utterance, Statement.Answer answer, List<Unit> choices, OpenQuestion question) {
    if (answer.value() != null) {
      return settle(
          utterance,
          question,
          Amounts.with(question.statement(), answer.value())
              .filter(statement -> Amounts.hasUnitAmong(statement, choices)));
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
    return toAskAbout(question.asked(), readings.get(reading), reading)
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
      Optional<OpenQuestion> other = toAskAbout(question.asked(), readings.get(next), next);
      if (other.isPresent()) {
        return other;
      }
    }
    return Optional.empty();
  }

  /** Said twice alike is sure, whatever the recogniser thought of each. */
  private Optional<Reply> repeated(Utterance utterance, OpenQuestion question) {
    if (utterance.readings().isEmpty()) {
      return Optional.empty();
    }
    String again = utterance.readings().get(0);
    if (!question.doubtful()) {
      return !question.why().isEmpty() && again.equals(question.words())
          ? Optional.of(noteOrAsk(question.confirmed(), utterance, List.of()))
          : Optional.empty();
    }
    int offered = question.asked().readings().indexOf(again);
    if (offered < 0) {
      return Optional.empty();
    }
    return interpreter
        .read(again)
        .flatMap(meaning -> notable(meaning.statement(), question.asked().at()))
        .or(() -> interpreter.readQuestion(again).map(any -> question.statement()))
        .map(statement -> noteOrAsk(question.saying(statement, again), utterance, List.of()));
  }

  private List<Entry> leaveOpen() {
    OpenQuestion question = open;
    if (question == null) {
      return List.of();
    }
    open = null;
    if (question.statement() instanceof NotUnderstood missed) {
      Utterance asked = question.asked();
      return asked.called()
          ? List.of(note(question, asked.id(), missed, "", Certainty.UNCONFIRMED))
          : List.of();
    }
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
    repairs.noted(entry, question);
    fallen.noted(entry);
    return entry;
  }

  private Entry note(
      OpenQuestion question, String id, Statement statement, String words, Certainty certainty) {
    Utterance asked = question.asked();
    return note(
        asked,
        asked.source(),
        id,
        question.happenedAt(),
        statement,
        words,
        certainty,
        heard(words, asked, question.talk()));
  }

  private Entry note(
      Utterance asked,
      String id,
      Instant happenedAt,
      Statement statement,
      String words,
      Certainty certainty) {
    return note(
        asked,
        asked.source(),
        id,
        happenedAt,
        statement,
        words,
        certainty,
        heard(words, asked, List.of()));
  }

  private Entry note(
      Utterance asked,
      Source source,
      String id,
      Instant happenedAt,
      Statement statement,
      String words,
      Certainty certainty) {
    return note(asked, source, id, happenedAt, statement, words, certainty, null);
  }

  private Entry note(
      Utterance asked,
      Source source,
      String id,
      Instant happenedAt,
      Statement statement,
      String words,
      Certainty certainty,
      @Nullable HowHeard heard) {
    Draft draft =
        new Draft(
            id,
            setting.job(),
            happenedAt,
            setting.clock().instant(),
            setting.zone(),
            memory.actor(),
            setting.device(),
            source,
            certainty,
            words,
            statement,
            heard);
    Entry entry = pad.note(draft, source == Source.TOOL ? null : asked.clip());
    remember(entry);
    return entry;
  }

  /** What was typed was not taken for anything else. */
  private static @Nullable HowHeard heard(
      String words, Utterance asked, List<HowHeard.Asked> talk) {
    if (asked.source() == Source.SPOKEN) {
      return HowHeard.of(words, asked.readings(), talk);
    }
    return talk.isEmpty() ? null : new HowHeard(List.of(), talk);
  }

  private static Reply turnedDown(Utterance utterance, String why) {
    return new Reply(Reply.Status.REJECTED, null, List.of(), why, utterance.readings());
  }

  private static Instant before(Instant then, @Nullable Amount ago) {
    return ago == null ? then : then.minus(duration(ago));
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
    if (Repairs.isOne(said)) {
      return Optional.ofNullable(repairs.found(said).statement());
    }
    if (said instanceof CancelTimer cancel) {
      return timers.cancel(cancel, at);
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
                      .map(now -> sameNumber(last.statement(), now))
                      .map(now -> new Corrected(last.id(), now)));
    }
    return resolver
        .resolve(Timers.aboutSomething(fallen.found(said)), memory.lastStatement())
        .map(memory::numbered);
  }

  /** A photo keeps its number, whatever it was of. */
  private static Statement sameNumber(Statement was, Statement now) {
    return was instanceof PhotoMarked before && now instanceof PhotoMarked photo
        ? new PhotoMarked(photo.subject(), before.number())
        : now;
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
    private int photos;
    private int filmMarks;

    Memory(String actor) {
      this.actor = actor;
    }

    void add(Entry entry) {
      Statement said = entry.said();
      missed.add(entry);
      if (said instanceof PhotoMarked photo) {
        photos = Math.max(photos + 1, photo.number() == null ? 0 : photo.number());
      }
      if (said instanceof Statement.FilmMark mark && mark.number() != null) {
        filmMarks = Math.max(filmMarks, mark.number());
      }
      boolean ofTheTool =
          said instanceof CautionAnswered
              || said instanceof Statement.PictureTaken
              || (said instanceof NotUnderstoodSettled settled && settled.by() != null);
      if (said instanceof NotUnderstood || ofTheTool) {
        // Nobody saw what it says, or the tool noted it, so "scratch that" and "make that" mean
        // what came before it.
        return;
      }
      if (said instanceof Undone undone) {
        acts.removeIf(act -> act.id().equals(undone.target()));
      } else if (said instanceof Corrected corrected) {
        replaceContent(corrected);
        acts.add(new Act(entry.id(), corrected.now(), false));
      } else if (said instanceof Retimed
          || said instanceof NotUnderstoodSettled
          || said instanceof TimerSet
          || said instanceof TimersCancelled
          || said instanceof Statement.LookAgain
          || said instanceof Statement.FindingAnswered
          || said instanceof Statement.FilmMark) {
        acts.add(new Act(entry.id(), said, false));
      } else if (said instanceof SpeakerIs speaker) {
        actor = speaker.person();
      } else if (said instanceof Paused || said instanceof Resumed) {
        paused = said instanceof Paused;
      } else if (!(said instanceof JobOpened || said instanceof JobClosed)) {
        acts.add(new Act(entry.id(), said, true));
      }
    }

    /** A number once given is never given again, even when the photo is taken back. */
    Statement numbered(Statement said) {
      if (said instanceof Statement.FilmMark mark && mark.number() == null) {
        return new Statement.FilmMark(filmMarks + 1);
      }
      return said instanceof PhotoMarked photo && photo.number() == null
          ? new PhotoMarked(photo.subject(), photos + 1)
          : said;
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
