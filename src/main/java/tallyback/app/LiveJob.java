package tallyback.app;

import java.io.IOException;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cues.Cue;
import tallyback.audio.SampleSource;
import tallyback.audio.SoundOut;
import tallyback.dialogue.Reply;
import tallyback.dialogue.answers.Answer;
import tallyback.model.Entry;
import tallyback.phrase.Question.OfVoice;
import tallyback.voice.Voice;

/**
 * A job noted live: sound comes in, what became of each utterance is told and said aloud.
 *
 * <p>While it speaks it does not listen: what comes in then is its own voice. With a headset it
 * hears when somebody speaks up all the same, stops, and asks for it again.
 *
 * <p>Threads: {@link #run} reads the sound on the caller's; hearing, the desk and the dialogue live
 * on one of their own; so does the mouth. {@link #stop} may be called from any.
 */
public final class LiveJob {

  private static final String SAY_AGAIN = "I was speaking. Say that again";
  private static final String NO_LOUDER = "louder: this is as loud as I can";
  private static final String NO_QUIETER = "quieter: you would hardly hear me";

  private final Settings settings;
  private final Consumer<Event> each;
  private final List<Entry> leftOpen = new CopyOnWriteArrayList<>();
  private final AtomicReference<@Nullable SaidBack> saidBack = new AtomicReference<>();
  private final String stream = "live-" + UUID.randomUUID();
  private final OpenEar openEar;
  private volatile @Nullable RuntimeException fault;
  private volatile boolean stopped;

  /**
   * How a job is listened to.
   *
   * @param plan the job's plan
   * @param desk opens its desk
   * @param attention the word that begins every entry, or null for none
   * @param held whether it is to listen now: a key or pedal is held; always true where none is
   *     needed
   * @param headset whether the microphone does not hear what is said aloud
   * @param voice opens the voice, or null for nothing aloud
   * @param out opens the loudspeaker, or null likewise
   * @param clock says when it begins; from there on the samples are counted
   */
  public record Settings(
      LoadedPlan plan,
      Supplier<JobDesk> desk,
      @Nullable String attention,
      BooleanSupplier held,
      boolean headset,
      @Nullable Supplier<Voice> voice,
      @Nullable Supplier<SoundOut> out,
      InstantSource clock) {}

  /** What there is to tell, in order. */
  public sealed interface Event {

    /**
     * It listens now.
     *
     * @param job the job noted into
     * @param notice what the user should know before, or empty
     */
    record Ready(String job, String notice) implements Event {}

    /**
     * An utterance was dealt with.
     *
     * @param at when it was said
     * @param reply what became of it
     * @param snrDb speech to noise in dB
     * @param aloud what is said aloud of it
     */
    record Told(Instant at, Reply reply, double snrDb, String aloud) implements Event {}

    /**
     * A reminder somebody asked for has fallen due.
     *
     * @param at when
     * @param text what to remind of
     */
    record ReminderDue(Instant at, String text) implements Event {}

    /** Somebody spoke up while it spoke: it has stopped, and what was said was not heard. */
    record SpokenInto() implements Event {}

    /**
     * What was asked and never answered when it ended, noted as unconfirmed.
     *
     * @param entry what was noted
     */
    record LeftOpen(Entry entry) implements Event {}
  }

  /** What was told, and was said aloud by then. */
  private record SaidBack(Reply.Status status, boolean called, Instant at) {}

  private record Outcome(Event.Told told, boolean called) {}

  /**
   * A job to be listened to.
   *
   * @param each told about each event, on the thread of {@link #run} or that of the telling; never
   *     on two at a time
   */
  public LiveJob(Settings settings, Consumer<Event> each) {
    this.settings = settings;
    this.each = each;
    openEar = new OpenEar(settings.clock(), settings.held(), settings.headset());
  }

  /** Ends it: what is being spoken is still heard. */
  public void stop() {
    stopped = true;
  }

  /**
   * Listens until the sound ends or {@link #stop} is called.
   *
   * @param source the sound; not closed here
   * @throws IOException if the sound stops coming
   * @throws InterruptedException if interrupted
   */
  public void run(SampleSource source) throws IOException, InterruptedException {
    Supplier<Voice> voice = settings.voice();
    Supplier<SoundOut> out = settings.out();
    try (Mouth mouth = voice == null || out == null ? null : Mouth.start(voice, out);
        LiveHearing<Outcome> hearing = LiveHearing.start(() -> listener(mouth))) {
      Thread teller = new Thread(() -> tell(hearing, mouth), "teller");
      teller.setDaemon(true);
      teller.start();
      read(source, hearing, mouth);
      hearing.finish();
      teller.join();
      while (mouth != null && !mouth.isDone()) {
        Thread.sleep(20);
      }
    }
    RuntimeException failed = fault;
    if (failed != null) {
      throw failed;
    }
    leftOpen.forEach(entry -> give(new Event.LeftOpen(entry)));
  }

  private void read(SampleSource source, LiveHearing<Outcome> hearing, @Nullable Mouth mouth)
      throws IOException, InterruptedException {
    short[] block = new short[OpenEar.BLOCK];
    for (int count = source.read(block);
        count >= 0 && !stopped && fault == null;
        count = source.read(block)) {
      if (mouth != null) {
        mouth.requireUsable();
      }
      boolean speaking = mouth != null && mouth.isSpeaking();
      OpenEar.Sound sound = openEar.take(block, count, speaking, hearing.isSpeechUnderWay());
      if (sound.spokenInto() && mouth != null) {
        mouth.hush();
        give(new Event.SpokenInto());
      }
      if (sound.askAgain() && mouth != null) {
        mouth.say(Cue.REJECTED, SAY_AGAIN, () -> {});
      }
      short[] heard = sound.heard();
      hearing.accept(heard, heard.length);
      if (mouth != null) {
        mouth.somebodySpeaks(hearing.isSpeechUnderWay());
      }
    }
  }

  private void tell(LiveHearing<Outcome> hearing, @Nullable Mouth mouth) {
    try {
      for (Optional<LiveHearing.Caught<Outcome>> next = hearing.next();
          next.isPresent();
          next = hearing.next()) {
        Outcome outcome = next.get().heard();
        Event.Told told = outcome.told();
        give(told);
        Reply.Status status = told.reply().status();
        if (mouth != null && !told.aloud().isEmpty()) {
          mouth.say(
              cue(status),
              asOrdered(told, mouth),
              () -> saidBack.set(new SaidBack(status, outcome.called(), openEar.now())));
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (RuntimeException e) {
      fault = e;
    }
  }

  /** Carries out an order to the voice, and returns what is said then. */
  private static String asOrdered(Event.Told told, Mouth mouth) {
    Answer answer = told.reply().answer();
    if (answer != null && answer.question() == OfVoice.LOUDER) {
      return mouth.louder() ? told.aloud() : NO_LOUDER;
    }
    if (answer != null && answer.question() == OfVoice.QUIETER) {
      return mouth.quieter() ? told.aloud() : NO_QUIETER;
    }
    return told.aloud();
  }

  /** An answer needs no sound before it: it is what was asked for. */
  private static Cue cue(Reply.Status status) {
    return switch (status) {
      case NOTED -> Cue.NOTED;
      case ASKED -> Cue.ASKED;
      case REJECTED -> Cue.REJECTED;
      case ANSWERED -> Cue.NONE;
    };
  }

  /** Everything here lives on the thread of the hearing. */
  private LiveHearing.Listener<Conversation.Listened, Outcome> listener(@Nullable Mouth mouth) {
    JobDesk desk = settings.desk().get();
    Ear ear;
    try {
      ear = Ear.open(settings.plan(), settings.attention());
    } catch (RuntimeException e) {
      desk.close();
      throw e;
    }
    give(new Event.Ready(desk.job(), desk.notice().orElse("")));
    Conversation conversation = new Conversation(desk, ear, new Turn(true));
    return new LiveHearing.Listener<>() {
      @Override
      public Conversation.Listened hear(Clip clip) {
        SaidBack last = saidBack.getAndSet(null);
        if (last != null) {
          conversation.saidBack(last.status(), last.called(), last.at());
        }
        return conversation.listen(clip, openEar.at(clip.startMs()));
      }

      @Override
      public Outcome take(Clip clip, Conversation.Listened listened) {
        Instant at = openEar.at(clip.startMs());
        Conversation.Taken taken =
            conversation.take(stream, at.minusMillis(clip.startMs()), clip, listened);
        Reply reply = taken.reply();
        String aloud = listened.call() == Ear.Call.ALONE ? "" : aloud(reply);
        return new Outcome(new Event.Told(at, reply, taken.snrDb(), aloud), listened.called());
      }

      @Override
      public void idle() {
        Instant now = openEar.now();
        for (String due : conversation.remindersDue(now)) {
          give(new Event.ReminderDue(now, due));
          if (mouth != null) {
            mouth.say(Cue.ASKED, due, () -> {});
          }
        }
      }

      @Override
      public void close() {
        leftOpen.addAll(conversation.finish());
        ear.close();
        desk.close();
      }
    };
  }

  private String aloud(Reply reply) {
    Entry entry = reply.entry();
    String text =
        reply.status() == Reply.Status.NOTED && entry != null
            ? settings.plan().grammar().readBack(entry.statement()).spoken()
            : reply.say();
    return reply.reminder().isEmpty() ? text : text + ". " + reply.reminder();
  }

  private synchronized void give(Event event) {
    each.accept(event);
  }
}
