package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.WavSource;
import tallyback.dialogue.Reply;
import tallyback.dialogue.Utterance;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.phrase.Question.OfListening;
import tallyback.voice.Voice;
import tallyback.voice.freetts.FreeTtsVoice;

/** With the real recogniser, a made-up room, and a voice that only counts. */
@Timeout(120)
class LiveJobTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));

  @TempDir private Path folder;
  private final BlockingQueue<LiveJob.Event> events = new LinkedBlockingQueue<>();
  private final List<String> spoken = new ArrayList<>();
  private final AtomicReference<@Nullable Throwable> failed = new AtomicReference<>();
  private volatile int speechSamples = Clip.SAMPLE_RATE_HZ / 2;
  private @Nullable LiveJob live;
  private @Nullable Thread running;

  private void start(Room room, @Nullable String attention, BooleanSupplier held, boolean headset) {
    LiveJob job =
        new LiveJob(
            new LiveJob.Settings(
                PLAN,
                () ->
                    JobDesk.open(
                        data(),
                        PLAN,
                        null,
                        NINE,
                        new JobDesk.Setting(
                            "microphone", "anna", ZoneOffset.UTC, InstantSource.fixed(NINE))),
                attention,
                attention == null ? OfListening.WHILE_HELD : OfListening.AFTER_THE_WORD,
                held::getAsBoolean,
                headset,
                this::voice,
                room::loudspeaker,
                InstantSource.fixed(NINE)),
            events::add);
    live = job;
    Thread thread =
        new Thread(
            () -> {
              try {
                job.run(room);
              } catch (IOException | InterruptedException | RuntimeException e) {
                failed.set(e);
              }
            });
    running = thread;
    thread.start();
  }

  @AfterEach
  void nobodyIsLeftListening() throws InterruptedException {
    stop();
  }

  private void stop() throws InterruptedException {
    if (live != null && running != null) {
      live.stop();
      running.join();
    }
  }

  private Path data() {
    return folder.resolve("job.tallyback");
  }

  /** As long for each text, whatever it is. */
  private Voice voice() {
    return new Voice() {
      @Override
      public Clip speak(String text) {
        synchronized (spoken) {
          spoken.add(text);
        }
        return new Clip(new short[speechSamples], 0);
      }

      @Override
      public void close() {}
    };
  }

  private <E extends LiveJob.Event> E next(Class<E> kind) throws InterruptedException {
    LiveJob.Event event = events.poll(60, TimeUnit.SECONDS);
    return assertInstanceOf(kind, event, () -> "failed: " + failed.get());
  }

  private static Clip recording(String file) throws IOException {
    try (WavSource source = WavSource.open(Path.of("src/test/resources/attention", file))) {
      return source.readAll();
    }
  }

  private List<Entry> entries() {
    try (var log = SqliteLogs.openForReading(data())) {
      return log.entries(log.choose(null).id());
    }
  }

  @Test
  void aReminderIsToldAndSaidWhenItFallsDueWithoutAnybodySpeaking() throws Exception {
    try (JobDesk desk =
        JobDesk.open(
            data(),
            PLAN,
            null,
            NINE.minusSeconds(600),
            new JobDesk.Setting("test", "anna", ZoneOffset.UTC, InstantSource.fixed(NINE)))) {
      assertEquals(
          Reply.Status.NOTED,
          new TypedLines(desk).enter("@2026-03-02T08:58:02Z remind me in two minutes").status());
    }
    start(new Room(true), "toolmaker", () -> true, false);
    next(LiveJob.Event.Ready.class);

    LiveJob.Event.ReminderDue due = next(LiveJob.Event.ReminderDue.class);

    assertEquals("reminder: two minutes over", due.text());
    assertTrue(!due.at().isBefore(NINE.plusSeconds(2)), due.toString());
    stop();
    assertEquals(List.of(due.text()), spoken);
  }

  @Test
  void whatIsCalledOutIsNotedOnDiskBeforeItIsToldAndSaidBack() throws Exception {
    Room room = new Room(true);
    start(room, "toolmaker", () -> true, false);
    next(LiveJob.Event.Ready.class);

    room.say(recording("called.wav"));

    LiveJob.Event.Told told = next(LiveJob.Event.Told.class);
    assertEquals(Reply.Status.NOTED, told.reply().status());
    assertEquals(2, entries().size(), "the opening and the entry");
    stop();
    assertEquals(List.of(told.aloud()), spoken);
    assertTrue(told.aloud().contains("pump bolts"), told.aloud());
    Duration since = Duration.between(NINE, told.at());
    assertTrue(since.toMillis() > 0 && since.toSeconds() < 60, since.toString());
    assertEquals(List.of(), List.copyOf(events), "its own voice is no entry");
  }

  @Test
  void itsOwnVoiceIsNotHeardAndTimeGoesOnMeanwhile() throws Exception {
    Room room = new Room(true);
    start(room, null, () -> true, false);
    next(LiveJob.Event.Ready.class);

    room.say(demo(3));
    LiveJob.Event.Told first = next(LiveJob.Event.Told.class);
    while (spokenSoFar() < 1) {
      Thread.sleep(5);
    }
    Thread.sleep(500);
    room.say(demo(3));
    LiveJob.Event.Told second = next(LiveJob.Event.Told.class);

    assertEquals(first.reply().readings(), second.reply().readings());
    assertTrue(
        Duration.between(first.at(), second.at()).toMillis() > 1000 + demo(3).durationMs(),
        first.at() + ", " + second.at());
  }

  private int spokenSoFar() {
    synchronized (spoken) {
      return spoken.size();
    }
  }

  /** One of the demo's recordings. */
  private static Clip demo(int number) throws IOException {
    try (var files = java.nio.file.Files.list(Path.of("demo-data/audio"))) {
      Path file =
          files
              .filter(each -> each.getFileName().toString().startsWith("%03d-".formatted(number)))
              .findFirst()
              .orElseThrow();
      try (WavSource source = WavSource.open(file)) {
        return source.readAll();
      }
    }
  }

  @Test
  void afterAnEntryThatWasCalledOutAnotherNeedsNoWordForAWhile() throws Exception {
    Room room = new Room(false);
    start(room, "toolmaker", () -> true, false);
    next(LiveJob.Event.Ready.class);

    room.say(demo(3));
    assertEquals(Reply.Status.REJECTED, next(LiveJob.Event.Told.class).reply().status());
    room.say(recording("called.wav"));
    assertEquals(Reply.Status.NOTED, next(LiveJob.Event.Told.class).reply().status());
    while (spokenSoFar() < 1) {
      Thread.sleep(5);
    }
    Thread.sleep(200);
    room.say(demo(3));

    assertEquals(Reply.Status.NOTED, next(LiveJob.Event.Told.class).reply().status());
    assertEquals(3, entries().size());
  }

  @Test
  void whatIsCalledOutInTheNoiseIsKeptAndSaidAgainWhenItIsQuiet() throws Exception {
    Room room = new Room(false);
    start(room, "toolmaker", () -> true, false);
    next(LiveJob.Event.Ready.class);
    Clip compressor = hiss();
    room.run(compressor, gain(recording("called.wav"), compressor, 10));
    while (!new LiveJob.Event.Noise(Noisiness.TOO_NOISY)
        .equals(events.poll(60, TimeUnit.SECONDS))) {
      // It is noisy before it is too noisy, and its beginning may be heard as no entry.
    }

    room.say(recording("called.wav"));

    LiveJob.Event.Told refused = told();
    assertEquals(Reply.Status.REJECTED, refused.reply().status());
    Entry kept = Objects.requireNonNull(refused.reply().entry());
    assertInstanceOf(Statement.NotUnderstood.class, kept.statement());
    assertTrue(refused.aloud().startsWith("too noisy"), refused.aloud());

    room.stop();
    LiveJob.Event.Told asks = told();
    assertEquals(Reply.Status.ASKED, asks.reply().status());
    assertTrue(asks.aloud().startsWith("one thing was said in the noise"), asks.aloud());
    while (spokenSoFar() < 2) {
      Thread.sleep(5);
    }
    Thread.sleep(200);
    room.say(recording("uncalled.wav"));

    LiveJob.Event.Told again = told();
    if (again.reply().status() == Reply.Status.ASKED) {
      // Cut a few samples otherwise, "sixty" comes near. What an answer does then is tested of the
      // dialogue alone.
      assertEquals("six pump bolts off", again.reply().readings().get(0));
      return;
    }
    assertEquals(Reply.Status.NOTED, again.reply().status(), again.toString());
    Entry noted = Objects.requireNonNull(again.reply().entry());
    assertEquals(kept.happenedAt(), noted.happenedAt());
    assertTrue(again.aloud().contains("noted as said at"), again.aloud());
    assertEquals(
        new Statement.NotUnderstoodSettled(kept.id(), noted.id()),
        entries().get(entries().size() - 1).statement());
  }

  @Test
  void whatWasKeptInTheNoiseIsAskedForAfterItWasStartedAgain() throws Exception {
    try (JobDesk desk =
        JobDesk.open(
            data(),
            PLAN,
            null,
            NINE.minusSeconds(600),
            new JobDesk.Setting("test", "anna", ZoneOffset.UTC, InstantSource.fixed(NINE)))) {
      desk.dialogue()
          .tooNoisy(
              new Utterance(
                  "called",
                  NINE.minusSeconds(300),
                  Source.SPOKEN,
                  List.of(),
                  false,
                  null,
                  true,
                  3));
    }
    start(new Room(true), "toolmaker", () -> true, false);
    next(LiveJob.Event.Ready.class);

    LiveJob.Event.Told asks = told();

    assertEquals(Reply.Status.ASKED, asks.reply().status());
    assertTrue(
        asks.aloud().startsWith("one thing was said in the noise. Say it again: it was at 08:55"),
        asks.aloud());
  }

  /** What is told next, noise and what is made of it apart. */
  private LiveJob.Event.Told told() throws InterruptedException {
    LiveJob.Event event = events.poll(60, TimeUnit.SECONDS);
    while (event instanceof LiveJob.Event.Noise
        || (event instanceof LiveJob.Event.Told told
            && told.reply().say().isEmpty()
            && told.reply().status() == Reply.Status.REJECTED)) {
      event = events.poll(60, TimeUnit.SECONDS);
    }
    return assertInstanceOf(LiveJob.Event.Told.class, event, () -> "failed: " + failed.get());
  }

  /** Five seconds of air that escapes. */
  private static Clip hiss() {
    Random random = new Random(3);
    short[] samples = new short[5 * Clip.SAMPLE_RATE_HZ];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) Math.round(1000 * random.nextGaussian());
    }
    return new Clip(samples, 0);
  }

  /** By how much noise must be raised to lie so far below speech, both by their mean power. */
  private static double gain(Clip speech, Clip noise, double snrDb) {
    double speechDbfs = LevelMeter.measure(speech).activeDbfs();
    double sum = 0;
    for (short sample : noise.samples()) {
      sum += (double) sample * sample / noise.length();
    }
    double noiseDbfs = 10 * Math.log10(sum) - 20 * Math.log10(32_768);
    return Math.pow(10, (speechDbfs - snrDb - noiseDbfs) / 20);
  }

  @Test
  void withAPedalNothingIsHeardWhileItIsUp() throws Exception {
    Room room = new Room(false);
    AtomicBoolean down = new AtomicBoolean();
    start(room, null, down::get, false);
    next(LiveJob.Event.Ready.class);

    room.say(demo(3));
    while (!room.isQuiet()) {
      Thread.sleep(5);
    }
    down.set(true);
    room.say(demo(3));
    while (!room.isQuiet()) {
      Thread.sleep(5);
    }
    down.set(false);

    assertEquals(Reply.Status.NOTED, next(LiveJob.Event.Told.class).reply().status());
    stop();
    assertEquals(List.of(), List.copyOf(events));
    assertEquals(2, entries().size());
  }

  @Test
  void whoSpeaksUpWithAHeadsetStopsItAndIsAskedAgain() throws Exception {
    Room room = new Room(false);
    speechSamples = 4 * Clip.SAMPLE_RATE_HZ;
    start(room, null, () -> true, true);
    next(LiveJob.Event.Ready.class);

    room.say(demo(3));
    next(LiveJob.Event.Told.class);
    while (spokenSoFar() < 1) {
      Thread.sleep(1);
    }
    room.say(demo(3));
    next(LiveJob.Event.SpokenInto.class);
    while (spokenSoFar() < 2) {
      Thread.sleep(5);
    }

    assertEquals("I was speaking. Say that again", spoken.get(1));
    stop();
    assertEquals(List.of(), List.copyOf(events), "nothing of it was heard");
    assertEquals(2, entries().size());
  }

  @Test
  void aQuestionIsAnsweredAloudAndNothingIsNoted() throws Exception {
    Room room = new Room(false);
    start(room, null, () -> true, false);
    next(LiveJob.Event.Ready.class);

    try (Voice asker = FreeTtsVoice.open()) {
      room.say(asker.speak("what is left to do"));
      LiveJob.Event.Told told = next(LiveJob.Event.Told.class);
      assertEquals(Reply.Status.ANSWERED, told.reply().status());
      assertTrue(told.aloud().startsWith("left: twenty steps: make safe"), told.aloud());
      while (spokenSoFar() < 1) {
        Thread.sleep(5);
      }
      Thread.sleep(200);
      room.say(asker.speak("say that again"));
      assertEquals("again: " + told.aloud(), next(LiveJob.Event.Told.class).aloud());
    }
    stop();
    assertEquals(1, entries().size(), "the opening");
    assertEquals(2, spoken.size());
  }

  @Test
  void theWayToListenIsSwitchedByVoice() throws Exception {
    Room room = new Room(false);
    AtomicBoolean down = new AtomicBoolean();
    start(room, "toolmaker", down::get, false);
    next(LiveJob.Event.Ready.class);

    room.say(demo(6));
    assertEquals(Reply.Status.REJECTED, next(LiveJob.Event.Told.class).reply().status());
    int before = spokenSoFar();
    order("1", "listen to everything");
    assertEquals(
        "listening to everything: all that sounds like an entry is noted",
        next(LiveJob.Event.Told.class).aloud());
    assertEquals(
        new LiveJob.Event.Listens(OfListening.TO_EVERYTHING), next(LiveJob.Event.Listens.class));
    awaitSaid(room, before);
    room.say(demo(6));
    assertEquals(Reply.Status.NOTED, next(LiveJob.Event.Told.class).reply().status());
    awaitSaid(room, before + 1);

    before = spokenSoFar();
    order("2", "only when held");
    assertTrue(next(LiveJob.Event.Told.class).aloud().contains("no voice can switch it back"));
    next(LiveJob.Event.Listens.class);
    awaitSaid(room, before);
    room.say(demo(6));
    while (!room.isQuiet()) {
      Thread.sleep(5);
    }
    assertEquals(List.of(), List.copyOf(events), "nothing is held");
    down.set(true);
    room.say(demo(6));
    assertEquals(Reply.Status.NOTED, next(LiveJob.Event.Told.class).reply().status());

    awaitSaid(room, before + 1);
    before = spokenSoFar();
    order("3", "wait for the word");
    next(LiveJob.Event.Told.class);
    next(LiveJob.Event.Listens.class);
    awaitSaid(room, before);
    room.say(demo(6));
    assertEquals(Reply.Status.REJECTED, next(LiveJob.Event.Told.class).reply().status());
    assertEquals(3, entries().size(), "the opening and two entries");
  }

  /** What is said in a room while somebody is answered in it is not heard whole. */
  private void awaitSaid(Room room, int before) throws InterruptedException {
    while (spokenSoFar() <= before) {
      Thread.sleep(5);
    }
    room.awaitHush();
  }

  private void order(String id, String words) {
    assertTrue(java.util.Objects.requireNonNull(live).enter(id, NINE, words));
  }

  @Test
  void withoutAWordThereIsNoneToWaitFor() throws Exception {
    start(new Room(false), null, () -> true, false);
    next(LiveJob.Event.Ready.class);

    order("1", "wait for the word");

    assertEquals(
        "there is no word to wait for; start with --attention and a word",
        next(LiveJob.Event.Told.class).aloud());
    stop();
    assertEquals(List.of(), List.copyOf(events));
  }

  @Test
  void aMemoIsKeptAsSoundAndNeverHeardAsAnEntry() throws Exception {
    Room room = new Room(false);
    start(room, null, () -> true, false);
    next(LiveJob.Event.Ready.class);

    try (Voice speaker = FreeTtsVoice.open()) {
      room.say(speaker.speak("voice memo"));
      LiveJob.Event.Told begun = next(LiveJob.Event.Told.class);
      assertEquals("memo: go on, up to sixty seconds", begun.reply().say());
      assertEquals("", begun.aloud(), "a sound, and no words to speak into");
      Thread.sleep(300);
      room.say(demo(3));
      LiveJob.Event.Told kept = next(LiveJob.Event.Told.class);

      assertEquals(Reply.Status.NOTED, kept.reply().status(), kept.reply().say());
      assertTrue(kept.aloud().matches("memo, (two|three) seconds, kept"), kept.aloud());
      Entry entry = java.util.Objects.requireNonNull(kept.reply().entry());
      try (var log = SqliteLogs.openForReading(data())) {
        int bytes = log.clip(java.util.Objects.requireNonNull(entry.clip())).orElseThrow().length;
        assertTrue(Math.abs(bytes - 2 * demo(3).length()) < 2 * Clip.SAMPLE_RATE_HZ, "" + bytes);
      }
      while (spokenSoFar() < 1) {
        Thread.sleep(5);
      }
      Thread.sleep(200);
      room.say(demo(3));
      Entry after =
          java.util.Objects.requireNonNull(next(LiveJob.Event.Told.class).reply().entry());
      assertFalse(after.statement() instanceof Statement.Memo, "it is over");
    }
    stop();
    assertEquals(3, entries().size(), "the opening, the memo and one entry");
  }

  @Test
  void whilePausedTheWordIsAnsweredInEveryWayOfListening() throws Exception {
    Room room = new Room(false);
    start(room, "toolmaker", () -> true, false);
    next(LiveJob.Event.Ready.class);
    order("1", "pause the job");
    next(LiveJob.Event.Told.class);
    String[] ways = {"wait for the word", "listen to everything", "only when held"};

    for (int i = 0; i < ways.length; i++) {
      order("way" + i, ways[i]);
      int before = spokenSoFar();
      while (!(events.poll(60, TimeUnit.SECONDS) instanceof LiveJob.Event.Listens)) {
        // The order is told, and maybe a sound that was none.
      }
      awaitSaid(room, before);
      // Time in the room runs ahead of this one: whoever is not heard calls again, as anybody
      // would.
      String answer = "";
      for (int calls = 0; calls < 3 && answer.isEmpty(); calls++) {
        Thread.sleep(300);
        room.say(recording("alone.wav"));
        answer = next(LiveJob.Event.Told.class).aloud();
      }
      assertEquals("paused: say carry on first", answer, ways[i]);
    }
    stop();
    assertEquals(2, entries().size(), "the opening and the pause");
  }

  @Test
  void withoutALoudspeakerItSaysSo() throws Exception {
    Room room = new Room(false);
    LiveJob job =
        new LiveJob(
            new LiveJob.Settings(
                PLAN,
                () ->
                    JobDesk.withoutData(
                        PLAN,
                        NINE,
                        new JobDesk.Setting(
                            "microphone", "anna", ZoneOffset.UTC, InstantSource.fixed(NINE))),
                null,
                OfListening.TO_EVERYTHING,
                () -> true,
                false,
                () -> {
                  throw new IllegalStateException("no voice");
                },
                room::loudspeaker,
                InstantSource.fixed(NINE)),
            events::add);
    room.say(demo(3));

    MachineFailed failure = assertThrows(MachineFailed.class, () -> job.run(room));
    assertEquals(
        "nothing can be said aloud (no voice); start again, or use --silent", failure.getMessage());
  }
}
