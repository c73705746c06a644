package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.SpeechBands;
import tallyback.audio.WavWriter;
import tallyback.dialogue.Dialogue;
import tallyback.dialogue.Reply;
import tallyback.dialogue.Utterance;
import tallyback.dialogue.answers.Ways;
import tallyback.log.SoundClip;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.speech.Judgement;

/**
 * Utterances of one job on their way into the log: listened to, then noted, asked about or turned
 * down, one after the other. Listening changes nothing, so it may be done before it is known that
 * an utterance has ended; what is taken counts. One thread, that of the desk and the ear.
 */
final class Conversation {

  /** While it goes on being too noisy, that is said in words once in so long, else by the tone. */
  private static final Duration SAID_AGAIN = Duration.ofMinutes(1);

  /** "End of memo", with the attention word before it and a breath. */
  private static final long LONGEST_END_MS = 4000;

  private static final String WORD_ALONE = "the attention word; go on";

  private final Ear ear;
  private final Dialogue dialogue;
  private final Turn turn;
  private final NoiseWatch watch = new NoiseWatch();
  private @Nullable OpenMemo memo;
  private @Nullable Instant toldTooNoisy;
  private boolean noisyUntilNow;

  /** For the job at this desk, with this ear; turns as that says. */
  Conversation(JobDesk desk, Ear ear, Turn turn) {
    this.ear = ear;
    this.turn = turn;
    this.dialogue = desk.dialogue();
    // To a recording a caution would come too late.
    dialogue.sayCautions(turn.isLive());
    dialogue.asksAgain(turn.isLive());
    dialogue.hearsThrough(ear.voices());
  }

  /**
   * What was heard of an utterance.
   *
   * @param call how it stands to the attention word
   * @param follows whether it follows the attention word said alone
   * @param free whether it needed no word
   * @param memo how it stands to the word that begins a memo
   * @param heard what was said
   */
  record Listened(Ear.Call call, boolean follows, boolean free, Ear.Call memo, Ear.Heard heard) {

    Listened(Ear.Call call, boolean follows, Ear.Heard heard) {
      this(call, follows, false, Ear.Call.NONE, heard);
    }

    boolean called() {
      return call == Ear.Call.AND_MORE || follows;
    }

    private String words() {
      return heard.readings().isEmpty() ? "" : heard.readings().get(0);
    }
  }

  /**
   * What became of one utterance, or of a memo.
   *
   * @param reply what became of it
   * @param snrDb signal-to-noise ratio in dB
   * @param startMs where it begins in its stream
   * @param endMs where it ends
   * @param aloud whether it is told aloud; else somebody goes on speaking, or knows it
   * @param tooNoisy whether it was too noisy to take it
   */
  record Taken(
      Reply reply, double snrDb, long startMs, long endMs, boolean aloud, boolean tooNoisy) {

    Taken(Reply reply, double snrDb, Clip clip, boolean aloud) {
      this(reply, snrDb, clip.startMs(), clip.endMs(), aloud, false);
    }
  }

  /**
   * Listens to an utterance as the conversation stands.
   *
   * @param begin when it began
   */
  Listened listen(Clip clip, Instant begin) {
    return listen(clip, begin, false);
  }

  /**
   * Listens to an utterance as the conversation stands.
   *
   * @param begin when it began
   * @param free whether it needs no attention word
   */
  Listened listen(Clip clip, Instant begin, boolean free) {
    if (belongsToMemo(begin)) {
      return partOfMemo(clip);
    }
    boolean paused = dialogue.isPaused();
    if (!ear.needsCalling() || (free && !paused)) {
      return maybeMemo(clip, asEntry(clip, ear.entry(clip)), true);
    }
    Ear.Call call = ear.call(clip);
    if (call == Ear.Call.NONE && free) {
      return asEntry(clip, ear.entry(clip));
    }
    boolean follows = turn.wouldTakeUp(begin);
    Ear.Heard heard =
        call == Ear.Call.ALONE ? ear.passedOver(clip) : afterCall(clip, call, follows, begin);
    Listened listened = new Listened(call, follows, heard);
    return maybeMemo(clip, listened, call != Ear.Call.ALONE && listened.called());
  }

  /** What was not understood may be a memo in the same breath as its word. */
  private Listened maybeMemo(Clip clip, Listened listened, boolean may) {
    if (!may || dialogue.isPaused() || listened.heard().judgement() == Judgement.NOTE) {
      return listened;
    }
    Ear.Call begun = ear.memo(clip, listened.call() == Ear.Call.AND_MORE);
    return new Listened(
        listened.call(), listened.follows(), listened.free(), begun, listened.heard());
  }

  private boolean belongsToMemo(Instant begin) {
    OpenMemo open = memo;
    return open != null && open.takes(begin);
  }

  /** Nothing of a memo is heard but its end, which is short. */
  private Listened partOfMemo(Clip clip) {
    return new Listened(
        Ear.Call.NONE,
        false,
        clip.durationMs() > LONGEST_END_MS ? ear.passedOver(clip) : ear.entry(clip));
  }

  /** What was heard of a clip by somebody who may have to be called first. */
  private Ear.Heard afterCall(Clip clip, Ear.Call call, boolean follows, Instant begin) {
    boolean asked = dialogue.isWaitingForAnswer();
    if (call == Ear.Call.AND_MORE) {
      Ear.Heard entry = ear.calledEntry(clip);
      return asked ? Ear.better(ear.calledAnswer(clip), entry) : entry;
    }
    if (follows) {
      return asked ? Ear.better(ear.answer(clip), ear.entry(clip)) : ear.entry(clip);
    }
    return asked && turn.mayAnswer(begin) ? uncalledAnswer(clip) : ear.passedOver(clip);
  }

  /**
   * An answer needs no word, and neither does what was offered, said again, nor what is to be said
   * again because it was too noisy, nor an order to the voice that asked; nothing else.
   */
  private Ear.Heard uncalledAnswer(Clip clip) {
    Ear.Heard answer = ear.answer(clip);
    Ear.Heard better = Ear.better(answer, ear.entry(clip));
    String words = better.readings().isEmpty() ? "" : better.readings().get(0);
    boolean offered =
        dialogue.isSayingAgain()
            || dialogue.offered().contains(words)
            || dialogue.isOrderToTheVoice(words);
    return offered ? better : better.equals(answer) ? answer : ear.passedOver(clip);
  }

  /** What was heard of a clip as an entry before this conversation came to it. */
  Listened asEntry(Clip clip, Ear.Heard entry) {
    return new Listened(
        Ear.Call.NONE,
        false,
        true,
        Ear.Call.NONE,
        dialogue.isWaitingForAnswer() ? Ear.better(ear.answer(clip), entry) : entry);
  }

  /**
   * Takes what was listened to last.
   *
   * @param stream names where it was said, so that a retry notes nothing twice
   * @param at when the stream began
   * @return empty while a memo goes on
   */
  Optional<Taken> take(String stream, Instant at, Clip clip, Listened listened) {
    turn.over();
    Instant begin = at.plusMillis(clip.startMs());
    if (belongsToMemo(begin)) {
      return takeForMemo(clip, begin, listened);
    }
    Instant end = at.plusMillis(clip.endMs());
    if (listened.call() == Ear.Call.ALONE) {
      turn.called(end);
      boolean paused = dialogue.isPaused();
      return Optional.of(
          new Taken(
              new Reply(
                  Reply.Status.REJECTED,
                  null,
                  List.of(),
                  paused ? dialogue.pausedText() : WORD_ALONE,
                  List.of(),
                  ""),
              LevelMeter.measure(clip).snrDb(),
              clip,
              paused));
    }
    String id = stream + "-" + clip.startMs() * Clip.SAMPLE_RATE_HZ / 1000;
    if (beginsMemo(listened)) {
      String names = dialogue.memoSubject(listened.words());
      return beginMemo(new OpenMemo(id, begin, clip, names), clip, listened);
    }
    lapse(begin);
    Ear.Heard heard = listened.heard();
    boolean meant = listened.called() || !heard.readings().isEmpty();
    boolean trusted = !meant || isTrusted(clip, listened);
    boolean kept = trusted ? listened.called() : isKeptInNoise(listened);
    Utterance utterance =
        new Utterance(
            id,
            begin,
            Source.SPOKEN,
            heard.readings(),
            heard.judgement() == Judgement.ASK,
            meant ? new SoundClip(WavWriter.toBytes(clip)) : null,
            kept,
            Double.isFinite(heard.snrDb()) ? (int) Math.round(heard.snrDb()) : null);
    if (!trusted) {
      Reply reply = dialogue.tooNoisy(utterance);
      return Optional.of(
          new Taken(reply, heard.snrDb(), clip.startMs(), clip.endMs(), saysTooNoisy(begin), true));
    }
    Reply reply = dialogue.take(utterance);
    expectWhoSpeaks(reply);
    saidBack(reply.status(), listened.called(), end);
    return Optional.of(new Taken(reply, heard.snrDb(), clip, true));
  }

  // ---- too noisy

  /** By its sound, whatever its words; but some words may be taken in any noise. */
  private boolean isTrusted(Clip clip, Listened listened) {
    return watch.takes(SpeechBands.of(clip))
        || (listened.heard().judgement() == Judgement.NOTE
            && dialogue.isSafeInNoise(listened.words()));
  }

  /**
   * What is called out is kept; so is, where no word is needed, what was heard as an entry. With a
   * key that is held that is all that was meant; where everything is listened to, other people's
   * talk is not kept for having been loud. An answer is worth nothing without its question, which
   * is asked again.
   */
  private boolean isKeptInNoise(Listened listened) {
    boolean answers =
        listened.heard().judgement() == Judgement.NOTE && dialogue.isAnswer(listened.words());
    return (listened.called() || listened.free()) && !answers;
  }

  private boolean saysTooNoisy(Instant at) {
    Instant last = toldTooNoisy;
    boolean now = last == null || at.isAfter(last.plus(SAID_AGAIN));
    toldTooNoisy = now ? at : last;
    return now;
  }

  /** What was to be said again is not meant any more by what is said so much later. */
  private boolean lapse(Instant now) {
    boolean over = dialogue.isSayingAgain() && turn.isTooLateToSayAgain(now);
    if (over) {
      dialogue.notSaidAgain(now);
    }
    return over;
  }

  /**
   * Nobody speaks.
   *
   * @param roomDb how loud the room is in each band; none when nobody knows
   * @return whether something that was asked is asked no more
   */
  boolean silence(Instant now, List<Double> roomDb) {
    watch.room(now, roomDb);
    noisyUntilNow |= isTooNoisy();
    return lapse(now);
  }

  /** How far what is heard can be trusted now. */
  Noisiness noisiness() {
    return watch.state();
  }

  private boolean isTooNoisy() {
    return watch.state() == Noisiness.TOO_NOISY;
  }

  /** What is to be asked again now that it is quiet; empty when it isn't, or for nothing. */
  Optional<Reply> sayAgain(Instant now) {
    if (!watch.isKnownQuiet() || memo != null || !turn.isLive()) {
      return Optional.empty();
    }
    Optional<Reply> again = dialogue.sayAgain(now, noisyUntilNow);
    noisyUntilNow = false;
    again.ifPresent(reply -> turn.asked(now));
    return again;
  }

  /** Who says that he or she speaks is listened for, if taught; else anybody is. */
  private void expectWhoSpeaks(Reply reply) {
    Entry entry = reply.entry();
    if (reply.status() == Reply.Status.NOTED
        && entry != null
        && entry.statement() instanceof Statement.SpeakerIs speaker) {
      boolean known = ear.voices().expect(speaker.person()) || ear.voices().expect(null);
      assert known : "anybody's voice can always be expected";
    }
  }

  // ---- memos

  private boolean beginsMemo(Listened listened) {
    return !dialogue.isPaused()
        && (listened.memo() != Ear.Call.NONE || dialogue.beginsMemo(listened.words()));
  }

  private Optional<Taken> beginMemo(OpenMemo begun, Clip clip, Listened listened) {
    memo = begun;
    boolean sure = listened.heard().judgement() == Judgement.NOTE;
    if (listened.memo() == Ear.Call.AND_MORE || (!sure && listened.memo() == Ear.Call.NONE)) {
      begun.add(clip, begun.begin());
    }
    if (!begun.isEmpty()) {
      return begun.isFull() ? Optional.of(endMemo(begun)) : Optional.empty();
    }
    Reply reply = dialogue.memoBegun(List.of("memo"));
    return Optional.of(new Taken(reply, LevelMeter.measure(clip).snrDb(), clip, false));
  }

  private Optional<Taken> takeForMemo(Clip clip, Instant begin, Listened listened) {
    OpenMemo open = Objects.requireNonNull(memo);
    if (dialogue.endsMemo(listened.words())) {
      return Optional.of(endMemo(open));
    }
    open.add(clip, begin);
    return open.isFull() ? Optional.of(endMemo(open)) : Optional.empty();
  }

  /**
   * Ends a memo after which nobody spoke for long enough.
   *
   * @param now the time up to which nobody spoke
   */
  Optional<Taken> memoOver(Instant now) {
    OpenMemo open = memo;
    return open != null && open.isOver(now) ? Optional.of(endMemo(open)) : Optional.empty();
  }

  /** Ends a memo to which what begins then does not belong. */
  Optional<Taken> memoBefore(Instant begin) {
    OpenMemo open = memo;
    return open != null && !open.takes(begin) ? Optional.of(endMemo(open)) : Optional.empty();
  }

  /** Ends the memo that is being taken, whatever comes; empty when none is. */
  Optional<Taken> endMemo() {
    return Optional.ofNullable(memo).map(this::endMemo);
  }

  private Taken endMemo(OpenMemo open) {
    memo = null;
    Clip sound = open.sound();
    if (open.isEmpty()) {
      return new Taken(dialogue.memoEmpty(), Double.NaN, open.startMs(), open.endMs(), true, false);
    }
    double snrDb = LevelMeter.measure(sound).snrDb();
    Reply reply =
        dialogue.memo(
            new Utterance(
                open.id(),
                open.begin(),
                Source.SPOKEN,
                List.of(),
                false,
                new SoundClip(WavWriter.toBytes(sound)),
                true,
                Double.isFinite(snrDb) ? (int) Math.round(snrDb) : null),
            open.seconds(),
            open.isFull(),
            open.subject());
    saidBack(reply.status(), true, open.end());
    return new Taken(reply, snrDb, open.startMs(), open.endMs(), true, false);
  }

  /**
   * What became of the last utterance has been told: the time for an answer, or for going on,
   * begins then.
   *
   * @param called whether the utterance was called out
   */
  void saidBack(Reply.Status status, boolean called, Instant at) {
    boolean noted = status == Reply.Status.NOTED;
    boolean goesOn = noted || status == Reply.Status.ANSWERED;
    if (status == Reply.Status.ASKED || (goesOn && dialogue.isWaitingForAnswer())) {
      // Beside what is noted something may be asked: where it fell, whether a caution is
      // understood. Beside an answer the question that is still open is asked again.
      turn.asked(at);
    }
    if (noted && called) {
      turn.noted(at);
    }
  }

  /** Says who carries out an order to listen in another way. */
  void listensThrough(Ways live) {
    dialogue.listensThrough(live);
  }

  /** The reminders that have fallen due, in words. */
  List<String> remindersDue(Instant now) {
    return dialogue.remindersDue(now);
  }

  /**
   * Takes words that were typed.
   *
   * @param id names them, so that a retry notes nothing twice
   * @param at when
   */
  Reply typed(String id, Instant at, String words) {
    if (memo != null && dialogue.endsMemo(words)) {
      return endMemo(memo).reply();
    }
    return dialogue.take(new Utterance(id, at, Source.TYPED, List.of(words), false, null));
  }

  /**
   * Takes down that sound from the shop never arrived: what was said in it is not known.
   *
   * @param id names it
   * @param at when it began
   */
  Reply undelivered(String id, Instant at) {
    return dialogue.take(new Utterance(id, at, Source.SPOKEN, List.of(), false, null, true, null));
  }

  /** Takes in what was noted into the same job without being said here. */
  void notedElsewhere(Entry entry) {
    dialogue.notedElsewhere(entry);
  }

  /** Words that answer the open question; empty when none waits. */
  List<String> answers() {
    return dialogue.answers();
  }

  /** Whether something waits to be noted: until it is answered, or a memo is ended. */
  boolean isAsking() {
    return dialogue.isUndecided() || memo != null;
  }

  /** Ends it; returns what was asked and never answered, now noted as unconfirmed. */
  List<Entry> finish() {
    return new ArrayList<>(dialogue.finish());
  }
}
