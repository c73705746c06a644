package tallyback.app;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cues.Cue;
import tallyback.audio.SampleSource;
import tallyback.audio.SoundOut;
import tallyback.dialogue.Reply;
import tallyback.dialogue.answers.Answer;
import tallyback.dialogue.answers.Ways;
import tallyback.log.JobLog;
import tallyback.model.Entry;
import tallyback.phrase.Question.OfListening;
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

  /** So far back the beginning of an utterance may lie that is not yet known to be one. */
  private static final long LOOK_BACK = 2L * Clip.SAMPLE_RATE_HZ;

  private static final Duration NO_SOUND = Duration.ofSeconds(2);

  private static final String SAY_AGAIN = "I was speaking. Say that again";
  private static final String NO_LOUDER = "louder: this is as loud as I can";
  private static final String NO_QUIETER = "quieter: you would hardly hear me";

  private final Settings settings;
  private final Consumer<Event> each;
  private final List<Entry> leftOpen = new CopyOnWriteArrayList<>();
  private final AtomicReference<@Nullable SaidBack> saidBack = new AtomicReference<>();
  private final String stream = "live-" + UUID.randomUUID();
  private final OpenEar openEar;
  private volatile @Nullable LiveHearing<Outcome> running;
  private volatile @Nullable Conversation conversation;
  private volatile @Nullable JobDesk atDesk;
  private volatile @Nullable LiveSound placed;
  private volatile OfListening way;
  private final AtomicReference<@Nullable OfListening> ordered = new AtomicReference<>();
  private volatile boolean underWay;
  private volatile boolean asking;
  private Noisiness noise = Noisiness.QUIET;
  private volatile @Nullable RuntimeException fault;
  private volatile boolean stopped;

  /**
   * How a job is listened to.
   *
   * @param plan the job's plan
   * @param desk opens its desk
   * @param attention the word that begins every entry, or null for none
   * @param way how it listens at first; a {@link LiveSound} says itself what of it is held, and
   *     what needs no word
   * @param key what is held to be heard
   * @param headset whether the microphone does not hear what is said aloud
   * @param voice opens the voice, or null for nothing aloud
   * @param out opens the loudspeaker, or null likewise
   * @param clock says when it begins; from there on the samples are counted
   * @param second a second recogniser, or null for none
   * @param noises where is written down what was learned of the shop's noises; null to learn none
   */
  public record Settings(
      LoadedPlan plan,
      Supplier<JobDesk> desk,
      @Nullable String attention,
      OfListening way,
      Key key,
      boolean headset,
      @Nullable Supplier<Voice> voice,
      @Nullable Supplier<SoundOut> out,
      InstantSource clock,
      @Nullable Second second,
      @Nullable NoiseDiary noises) {

    /** With one recogniser, which learns no noise. */
    public Settings(
        LoadedPlan plan,
        Supplier<JobDesk> desk,
        @Nullable String attention,
        OfListening way,
        Key key,
        boolean headset,
        @Nullable Supplier<Voice> voice,
        @Nullable Supplier<SoundOut> out,
        InstantSource clock) {
      this(plan, desk, attention, way, key, headset, voice, out, clock, null, null);
    }
  }

  /** A key, a pedal or a button that is held to be heard. May be asked from any thread. */
  @FunctionalInterface
  public interface Key {

    /** Whether it is held now. */
    boolean isHeld();

    /** Whether there is one at all, let go now: asked before only what is held is listened to. */
    default boolean isThere() {
      return true;
    }
  }

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

    /**
     * A noise of the shop was tried.
     *
     * @param tried what came of it
     */
    record NoiseTried(NoiseDiary.Tried tried) implements Event {}

    /** Somebody spoke up while it spoke: it has stopped, and what was said was not heard. */
    record SpokenInto() implements Event {}

    /**
     * What was asked and never answered when it ended, noted as unconfirmed.
     *
     * @param entry what was noted
     */
    record LeftOpen(Entry entry) implements Event {}

    /**
     * It was ordered to listen in another way, and does; follows what was told of it.
     *
     * @param way the way from now on
     */
    record Listens(OfListening way) implements Event {}

    /**
     * How far what is heard can be trusted has changed; at first it is quiet.
     *
     * @param now how far from now on
     */
    record Noise(Noisiness now) implements Event {}

    /**
     * A question waits for its answer, or none does any more; follows what was told of it.
     *
     * @param answers words that answer it; empty when none waits
     */
    record Standing(List<String> answers) implements Event {

      /** Copies the list. */
      public Standing {
        answers = List.copyOf(answers);
      }
    }
  }

  /** What was told, and was said aloud by then. */
  private record SaidBack(Reply.Status status, boolean called, Instant at) {}

  private record Outcome(
      Event.@Nullable Told told,
      boolean called,
      List<Entry> left,
      List<String> answers,
      @Nullable OfListening way,
      boolean tooNoisy) {

    Outcome(
        Event.@Nullable Told told,
        boolean called,
        List<Entry> left,
        List<String> answers,
        @Nullable OfListening way) {
      this(told, called, left, answers, way, false);
    }
  }

  /**
   * A job to be listened to.
   *
   * @param each told about each event, on the thread of {@link #run} or that of the telling; never
   *     on two at a time
   */
  public LiveJob(Settings settings, Consumer<Event> each) {
    this.settings = settings;
    this.each = each;
    way = settings.way();
    openEar = new OpenEar(settings.clock(), this::isHeld, settings.headset());
  }

  /**
   * Takes words that were typed, as if they had been said. May be called from any thread.
   *
   * @param id names them, so that a retry notes nothing twice
   * @return false when it isn't listening yet, or has too much to do; nothing was taken then
   */
  public boolean enter(String id, Instant at, String words) {
    return errand(
        id,
        talk -> {
          Reply reply = talk.typed(id, at, words);
          talk.saidBack(reply.status(), true, at);
          return told(at, explained(reply, words), Double.NaN, true);
        });
  }

  /**
   * Takes down that sound never arrived: what was said in it is not known. As {@link #enter}.
   *
   * @param id names the sound
   * @param at when it began
   */
  public boolean undelivered(String id, Instant at) {
    return errand(id, talk -> told(at, talk.undelivered(id, at), Double.NaN, true));
  }

  /** Waits no longer for an answer: what was asked is noted as unconfirmed. As {@link #enter}. */
  public boolean leaveOpen() {
    return errand(null, talk -> new Outcome(null, false, talk.finish(), List.of(), null));
  }

  /**
   * Does something with the log that this job is noted into, which nobody else can write meanwhile;
   * between two utterances. May be called from any thread.
   *
   * @param work what to do
   * @param noted what of it was noted
   * @return what comes of it; null when it isn't listening yet, or has too much to do
   */
  public <T> @Nullable CompletableFuture<T> withLog(
      Function<JobLog, T> work, Function<T, List<Entry>> noted) {
    CompletableFuture<T> result = new CompletableFuture<>();
    boolean taken =
        errand(
            null,
            talk -> {
              Event.Told told = null;
              try {
                JobDesk desk = Objects.requireNonNull(atDesk);
                T done = work.apply(desk.log());
                for (Entry entry : noted.apply(done)) {
                  if (entry.job().equals(desk.job())) {
                    talk.notedElsewhere(entry);
                    told = noted(entry);
                  }
                }
                result.complete(done);
              } catch (RuntimeException e) {
                // It concerns whoever asked for it; the hearing goes on.
                result.completeExceptionally(e);
              }
              return new Outcome(told, false, List.of(), talk.answers(), null);
            });
    return taken ? result : null;
  }

  private static Event.Told noted(Entry entry) {
    Reply reply = new Reply(Reply.Status.NOTED, entry, List.of(), "", List.of(entry.words()), "");
    return new Event.Told(entry.recordedAt(), reply, Double.NaN, "");
  }

  /** What is noted already under this id was sent once more: nothing is done then. */
  private boolean errand(@Nullable String id, Function<Conversation, Outcome> work) {
    LiveHearing<Outcome> hearing = running;
    Conversation talk = conversation;
    JobDesk desk = atDesk;
    return hearing != null
        && talk != null
        && desk != null
        && hearing.errand(
            () -> {
              boolean noted =
                  id != null && desk.entries().stream().anyMatch(each -> each.id().equals(id));
              Outcome outcome =
                  noted
                      ? new Outcome(null, false, List.of(), talk.answers(), null)
                      : work.apply(talk);
              asking = talk.isAsking();
              return outcome;
            });
  }

  private Reply explained(Reply reply, String words) {
    return reply.status() == Reply.Status.REJECTED && reply.say().isEmpty()
        ? new Reply(
            reply.status(),
            reply.entry(),
            reply.leftOpen(),
            settings.plan().grammar().whyNot(words).toString(),
            reply.readings(),
            reply.reminder())
        : reply;
  }

  private Outcome told(Instant at, Reply reply, double snrDb, boolean called) {
    Conversation talk = Objects.requireNonNull(conversation);
    return new Outcome(
        new Event.Told(at, reply, snrDb, aloud(reply)),
        called,
        List.of(),
        talk.answers(),
        ordered.getAndSet(null));
  }

  private Event.Told told(Instant at, Conversation.Taken taken) {
    return new Event.Told(
        at, taken.reply(), taken.snrDb(), taken.aloud() ? aloud(taken.reply()) : "");
  }

  private void tellMemo(
      Conversation talk, Instant now, Conversation.Taken over, @Nullable Mouth mouth) {
    asking = talk.isAsking();
    Event.Told told = told(now, over);
    give(told);
    if (mouth != null) {
      mouth.say(
          cue(over.reply().status()),
          told.aloud(),
          () -> saidBack.set(new SaidBack(over.reply().status(), true, now())));
    }
  }

  private boolean isHeld() {
    return (placed == null && way != OfListening.WHILE_HELD) || settings.key().isHeld();
  }

  private Ways.Outcome listen(OfListening now) {
    if (now == OfListening.AFTER_THE_WORD && settings.attention() == null) {
      return Ways.Outcome.NO_WORD;
    }
    if (now == OfListening.WHILE_HELD && !settings.key().isThere()) {
      return Ways.Outcome.NOTHING_TO_HOLD;
    }
    way = now;
    ordered.set(now);
    return Ways.Outcome.NOW;
  }

  /** Ends it: what is being spoken is still heard. */
  public void stop() {
    stopped = true;
  }

  /**
   * Listens until the sound ends or {@link #stop} is called.
   *
   * @param source the sound, a {@link LiveSound} when it comes from somewhere else; not closed
   *     here, unless the hearing fails while sound from elsewhere is waited for
   * @throws IOException if the sound stops coming
   * @throws InterruptedException if interrupted
   */
  public void run(SampleSource source) throws IOException, InterruptedException {
    Supplier<Voice> voice = settings.voice();
    Supplier<SoundOut> out = settings.out();
    NoiseDiary diary = settings.noises();
    try (Mouth mouth = voice == null || out == null ? null : Mouth.start(voice, out);
        ShopNoise learning = diary == null ? null : ShopNoise.start(settings.plan(), diary);
        LiveHearing<Outcome> hearing = LiveHearing.start(() -> listener(mouth, learning))) {
      running = hearing;
      placed = source instanceof LiveSound sound ? sound : null;
      Thread teller = new Thread(() -> tell(hearing, mouth), "teller");
      teller.setDaemon(true);
      teller.start();
      read(source, hearing, mouth, learning);
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

  private void read(
      SampleSource source,
      LiveHearing<Outcome> hearing,
      @Nullable Mouth mouth,
      @Nullable ShopNoise learning)
      throws IOException, InterruptedException {
    LiveSound far = placed;
    short[] block = new short[OpenEar.BLOCK];
    for (int count = source.read(block);
        count >= 0 && !stopped && fault == null;
        count = source.read(block)) {
      if (mouth != null) {
        mouth.requireUsable();
      }
      boolean broken = source.isBroken();
      if (far == null) {
        broken = openEar.rested(count, broken, hearing.isSpeechUnderWay()) || broken;
      }
      if (broken && openEar.cameIn() > 0) {
        short[] ending = openEar.breakOff();
        hearing.accept(ending, ending.length);
      }
      boolean speaking = far != null ? far.isPlaying() : mouth != null && mouth.isSpeaking();
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
      if (learning != null && !speaking) {
        learning.add(heard, hearing.isSpeechUnderWay());
      }
      underWay = hearing.isSpeechUnderWay();
      if (mouth != null) {
        mouth.somebodySpeaks(underWay);
      }
      if (far != null && !hearing.isSpeechUnderWay() && hearing.isIdle() && !asking) {
        far.settled(Math.max(0, openEar.cameIn() - LOOK_BACK));
      }
    }
  }

  private void tell(LiveHearing<Outcome> hearing, @Nullable Mouth mouth) {
    try {
      for (Optional<LiveHearing.Caught<Outcome>> next = hearing.next();
          next.isPresent();
          next = hearing.next()) {
        Outcome outcome = next.get().heard();
        outcome.left().forEach(entry -> give(new Event.LeftOpen(entry)));
        Event.Told told = outcome.told();
        if (told == null) {
          standing(outcome);
          continue;
        }
        give(told);
        OfListening now = outcome.way();
        if (now != null) {
          give(new Event.Listens(now));
        }
        standing(outcome);
        Reply.Status status = told.reply().status();
        if (mouth != null && told.aloud().isEmpty() && status == Reply.Status.ASKED) {
          mouth.signal(Cue.ASKED);
        }
        if (mouth != null && told.aloud().isEmpty() && outcome.tooNoisy()) {
          mouth.signal(Cue.REJECTED);
        }
        if (mouth != null && !told.aloud().isEmpty()) {
          mouth.say(
              cue(status),
              asOrdered(told, mouth),
              () -> saidBack.set(new SaidBack(status, outcome.called(), now())));
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (RuntimeException e) {
      fault = e;
      endFarSound();
    }
  }

  /** Whoever waits for sound from elsewhere would not notice that nobody hears it any more. */
  private void endFarSound() {
    LiveSound far = placed;
    if (far != null) {
      try {
        far.close();
      } catch (IOException e) {
        // It is of no use any more either way.
      }
    }
  }

  /** Only who is elsewhere has to be told: at the machine it was said. */
  private void standing(Outcome outcome) {
    if (placed != null) {
      give(new Event.Standing(outcome.answers()));
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
  private LiveHearing.Listener<Conversation.Listened, Outcome> listener(
      @Nullable Mouth mouth, @Nullable ShopNoise learning) {
    JobDesk desk = settings.desk().get();
    atDesk = desk;
    Ear ear;
    try {
      ear = Ear.open(settings.plan(), settings.attention(), settings.second());
    } catch (RuntimeException e) {
      desk.close();
      throw e;
    }
    Conversation talk = new Conversation(desk, ear, new Turn(true));
    talk.listensThrough(this::listen);
    conversation = talk;
    give(new Event.Ready(desk.job(), desk.notice().orElse("")));
    return new LiveHearing.Listener<>() {
      @Override
      public Conversation.Listened hear(Clip clip) {
        followSaidBack(talk);
        useLearned();
        LiveSound.Spot spot = spot(clip);
        return talk.listen(clip, spot.at(), spot.free());
      }

      @Override
      public Outcome take(Clip clip, Conversation.Listened listened) {
        LiveSound.Spot spot = spot(clip);
        Clip placedClip = new Clip(clip.samples(), spot.sample() * 1000 / Clip.SAMPLE_RATE_HZ);
        talk.memoBefore(spot.at()).ifPresent(over -> tellMemo(talk, spot.at(), over, mouth));
        Optional<Conversation.Taken> taken =
            talk.take(
                spot.stream(), spot.at().minusMillis(placedClip.startMs()), placedClip, listened);
        asking = talk.isAsking();
        tellNoise(talk);
        if (learning != null) {
          taken.ifPresent(now -> learning.heard(now.snrDb()));
        }
        return new Outcome(
            taken.map(now -> told(spot.at(), now)).orElse(null),
            listened.called(),
            List.of(),
            talk.answers(),
            ordered.getAndSet(null),
            taken.filter(Conversation.Taken::tooNoisy).isPresent());
      }

      private void useLearned() {
        if (learning != null) {
          learning
              .swap(ear, settings.clock().instant())
              .ifPresent(tried -> give(new Event.NoiseTried(tried)));
        }
      }

      @Override
      public void idle() {
        useLearned();
        if (!underWay) {
          // What was said last has been taken, or it would not be idle. Silence is sound that came
          // in.
          Instant heard = now();
          talk.memoOver(heard).ifPresent(over -> tellMemo(talk, heard, over, mouth));
          quiet(talk, heard, mouth);
        }
        Instant now = nowEvenWithoutSound();
        for (String due : talk.remindersDue(now)) {
          give(new Event.ReminderDue(now, due));
          if (mouth != null) {
            mouth.say(Cue.ASKED, due, () -> {});
          }
        }
      }

      @Override
      public void close() {
        talk.endMemo().ifPresent(over -> give(told(now(), over)));
        leftOpen.addAll(talk.finish());
        ear.close();
        desk.close();
      }
    };
  }

  private void followSaidBack(Conversation talk) {
    SaidBack last = saidBack.getAndSet(null);
    if (last != null) {
      talk.saidBack(last.status(), last.called(), last.at());
    }
  }

  /** Nobody speaks: it may have become too noisy, or quiet enough to ask for what was missed. */
  private void quiet(Conversation talk, Instant now, @Nullable Mouth mouth) {
    followSaidBack(talk);
    boolean lapsed = talk.silence(now, openEar.roomDb());
    tellNoise(talk);
    if (mouth != null && !mouth.isDone()) {
      return;
    }
    Reply again = talk.sayAgain(now).orElse(null);
    if (again != null) {
      Event.Told told = new Event.Told(now, again, Double.NaN, aloud(again));
      give(told);
      if (mouth != null) {
        mouth.say(
            Cue.ASKED,
            told.aloud(),
            () -> saidBack.set(new SaidBack(Reply.Status.ASKED, false, now())));
      }
    }
    if (placed != null && (lapsed || again != null)) {
      give(new Event.Standing(talk.answers()));
    }
  }

  private void tellNoise(Conversation talk) {
    Noisiness now = talk.noisiness();
    if (now != noise) {
      noise = now;
      give(new Event.Noise(now));
    }
  }

  /** Where a clip begins in the sound, and what its first sample is called. */
  private LiveSound.Spot spot(Clip clip) {
    LiveSound far = placed;
    return far == null
        ? new LiveSound.Spot(
            stream,
            clip.startMs() * Clip.SAMPLE_RATE_HZ / 1000,
            openEar.at(clip.startMs()),
            way != OfListening.AFTER_THE_WORD)
        : far.spot(openEar.cameInMs(clip.startMs()) * Clip.SAMPLE_RATE_HZ / 1000);
  }

  /** The time of what came in last, by the clock of where it was recorded. */
  private Instant now() {
    LiveSound far = placed;
    return far == null ? openEar.now() : far.spot(openEar.cameIn()).at();
  }

  /** While no sound comes in, time goes by all the same. */
  private Instant nowEvenWithoutSound() {
    Instant bySound = now();
    Instant byClock = settings.clock().instant();
    return byClock.isAfter(bySound.plus(NO_SOUND)) ? byClock : bySound;
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
