package tallyback.app;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.WavWriter;
import tallyback.dialogue.Dialogue;
import tallyback.dialogue.Reply;
import tallyback.dialogue.Utterance;
import tallyback.log.SoundClip;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.speech.Judgement;

/**
 * Utterances of one job on their way into the log: listened to, then noted, asked about or turned
 * down, one after the other. Listening changes nothing, so it may be done before it is known that
 * an utterance has ended; what is taken counts. One thread, that of the desk and the ear.
 */
final class Conversation {

  private static final String WORD_ALONE = "the attention word; go on";

  private final Ear ear;
  private final Dialogue dialogue;
  private final Turn turn;

  /** For the job at this desk, with this ear; turns as that says. */
  Conversation(JobDesk desk, Ear ear, Turn turn) {
    this.ear = ear;
    this.turn = turn;
    this.dialogue = desk.dialogue();
    // To a recording a caution would come too late.
    dialogue.sayCautions(turn.isLive());
  }

  /**
   * What was heard of an utterance.
   *
   * @param call how it stands to the attention word
   * @param follows whether it follows the attention word said alone
   * @param heard what was said
   */
  record Listened(Ear.Call call, boolean follows, Ear.Heard heard) {

    boolean called() {
      return call == Ear.Call.AND_MORE || follows;
    }
  }

  /**
   * What became of one utterance.
   *
   * @param reply what became of it
   * @param snrDb signal-to-noise ratio in dB
   */
  record Taken(Reply reply, double snrDb) {}

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
    if (free || !ear.needsCalling()) {
      return asEntry(clip, ear.entry(clip));
    }
    Ear.Call call = ear.call(clip);
    boolean follows = turn.wouldTakeUp(begin);
    Ear.Heard heard =
        call == Ear.Call.ALONE ? ear.passedOver(clip) : afterCall(clip, call, follows, begin);
    return new Listened(call, follows, heard);
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
   * An answer needs no word, and neither does what was offered, said again, nor an order to the
   * voice that asked; nothing else.
   */
  private Ear.Heard uncalledAnswer(Clip clip) {
    Ear.Heard answer = ear.answer(clip);
    Ear.Heard better = Ear.better(answer, ear.entry(clip));
    String words = better.readings().isEmpty() ? "" : better.readings().get(0);
    boolean offered = dialogue.offered().contains(words) || dialogue.isOrderToTheVoice(words);
    return offered ? better : better.equals(answer) ? answer : ear.passedOver(clip);
  }

  /** What was heard of a clip as an entry before this conversation came to it. */
  Listened asEntry(Clip clip, Ear.Heard entry) {
    return new Listened(
        Ear.Call.NONE,
        false,
        dialogue.isWaitingForAnswer() ? Ear.better(ear.answer(clip), entry) : entry);
  }

  /**
   * Takes what was listened to last.
   *
   * @param stream names where it was said, so that a retry notes nothing twice
   * @param at when the stream began
   */
  Taken take(String stream, Instant at, Clip clip, Listened listened) {
    turn.over();
    Instant end = at.plusMillis(clip.endMs());
    if (listened.call() == Ear.Call.ALONE) {
      turn.called(end);
      return new Taken(
          new Reply(Reply.Status.REJECTED, null, List.of(), WORD_ALONE, List.of(), ""),
          LevelMeter.measure(clip).snrDb());
    }
    Ear.Heard heard = listened.heard();
    boolean kept = listened.called() || !heard.readings().isEmpty();
    Reply reply =
        dialogue.take(
            new Utterance(
                stream + "-" + clip.startMs() * Clip.SAMPLE_RATE_HZ / 1000,
                at.plusMillis(clip.startMs()),
                Source.SPOKEN,
                heard.readings(),
                heard.judgement() == Judgement.ASK,
                kept ? new SoundClip(WavWriter.toBytes(clip)) : null,
                listened.called(),
                Double.isFinite(heard.snrDb()) ? (int) Math.round(heard.snrDb()) : null));
    saidBack(reply.status(), listened.called(), end);
    return new Taken(reply, heard.snrDb());
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

  /** Words that answer the open question; empty when none waits. */
  List<String> answers() {
    return dialogue.answers();
  }

  /** Whether something was asked about that is noted only when that is answered. */
  boolean isAsking() {
    return dialogue.isUndecided();
  }

  /** Ends it; returns what was asked and never answered, now noted as unconfirmed. */
  List<Entry> finish() {
    return new ArrayList<>(dialogue.finish());
  }
}
