package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tallyback.audio.Clip;
import tallyback.audio.Cut;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.audio.TestClips;
import tallyback.speech.Judgement;

@Timeout(120)
class LiveHearingTest {

  private static final int MS = Clip.SAMPLE_RATE_HZ / 1000;
  private static final List<TestClips.Spoken> SPOKEN = TestClips.all();

  /** Clips with pauses behind them, in a faint hiss. */
  private static short[] stream(int... clipsAndPausesMs) {
    short[] stream = new short[1000 * MS];
    for (int i = 0; i < clipsAndPausesMs.length; i += 2) {
      short[] spoken = SPOKEN.get(clipsAndPausesMs[i]).clip().samples();
      int from = stream.length;
      stream = Arrays.copyOf(stream, from + spoken.length + clipsAndPausesMs[i + 1] * MS);
      System.arraycopy(spoken, 0, stream, from, spoken.length);
    }
    Random random = new Random(1);
    for (int i = 0; i < stream.length; i++) {
      stream[i] =
          (short) Math.max(-32_768, Math.min(32_767, stream[i] + 9 * random.nextGaussian()));
    }
    return stream;
  }

  private static List<Clip> cut(short[] stream) {
    Cutter cutter = new Cutter(CutterSettings.defaults());
    List<Clip> clips = new ArrayList<>(cutter.accept(stream, stream.length));
    clips.addAll(cutter.finish());
    return clips;
  }

  /** Hears nothing but the sound itself: its name. */
  private static Ear.Heard name(Clip clip) {
    return new Ear.Heard(Judgement.NOTE, List.of(clip.sha256()), 30, -clip.length());
  }

  private static class Namer implements LiveHearing.Listener<Ear.Heard, Ear.Heard> {
    private final Thread owner = Thread.currentThread();

    @Override
    public Ear.Heard take(Clip clip, Ear.Heard heard) {
      assertSame(owner, Thread.currentThread());
      return heard;
    }

    @Override
    public Ear.Heard hear(Clip clip) {
      assertSame(owner, Thread.currentThread());
      return name(clip);
    }

    @Override
    public void close() {
      assertSame(owner, Thread.currentThread());
    }
  }

  /** Gives the stream to the hearing in pieces of odd sizes. */
  private static Thread feed(LiveHearing<Ear.Heard> hearing, short[] stream, long seed) {
    Thread producer =
        new Thread(
            () -> {
              Random sizes = new Random(seed);
              try {
                for (int from = 0; from < stream.length; ) {
                  int count = Math.min(stream.length - from, 1 + sizes.nextInt(3000));
                  hearing.accept(Arrays.copyOfRange(stream, from, from + count), count);
                  from += count;
                }
                hearing.finish();
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            });
    producer.start();
    return producer;
  }

  private static List<LiveHearing.Caught<Ear.Heard>> all(LiveHearing<Ear.Heard> hearing)
      throws InterruptedException {
    List<LiveHearing.Caught<Ear.Heard>> caught = new ArrayList<>();
    for (Optional<LiveHearing.Caught<Ear.Heard>> next = hearing.next();
        next.isPresent();
        next = hearing.next()) {
      caught.add(next.get());
    }
    return caught;
  }

  private static void assertHeardAsARecording(
      short[] stream, List<LiveHearing.Caught<Ear.Heard>> caught) {
    List<Clip> clips = cut(stream);
    assertEquals(clips, caught.stream().map(LiveHearing.Caught::clip).toList());
    assertEquals(
        clips.stream().map(LiveHearingTest::name).toList(),
        caught.stream().map(LiveHearing.Caught::heard).toList());
  }

  @Test
  void whatIsHeardIsThatOfTheRecordingWhateverThePieces() throws InterruptedException {
    short[] stream = stream(0, 1500, 3, 300, 4, 900, 1, 2000, 5, 420, 6, 100);
    assertTrue(cut(stream).size() >= 3);
    for (int seed = 0; seed < 5; seed++) {
      try (LiveHearing<Ear.Heard> hearing = LiveHearing.start(Namer::new)) {
        feed(hearing, stream, seed);
        assertHeardAsARecording(stream, all(hearing));
      }
    }
  }

  @Test
  void aPauseInsideAnEntryCostsADecodeAndChangesNothing() throws InterruptedException {
    short[] stream = stream(3, 50, 4, 1500);
    assertEquals(1, cut(stream).size());
    Cutter cutter = new Cutter(CutterSettings.defaults());
    long likely = 0;
    long wentOn = 0;
    try (LiveHearing<Ear.Heard> hearing = LiveHearing.start(Namer::new)) {
      for (int from = 0; from < stream.length; from += 160) {
        short[] piece = Arrays.copyOfRange(stream, from, Math.min(stream.length, from + 160));
        for (Cut cut : cutter.follow(piece, piece.length)) {
          likely += cut instanceof Cut.Likely ? 1 : 0;
          wentOn += cut instanceof Cut.WentOn ? 1 : 0;
        }
        hearing.accept(piece, piece.length);
        while (hearing.decodes() < likely) {
          pause(1);
        }
      }
      hearing.finish();
      assertHeardAsARecording(stream, all(hearing));
      assertTrue(wentOn >= 1, "the pause is a likely end");
      assertEquals(wentOn, hearing.decodesInVain());
      assertEquals(1 + wentOn, hearing.decodes());
    }
  }

  @Test
  void theResultIsThereWhenTheUtteranceEnds() throws InterruptedException {
    short[] stream = stream(0, 2000);
    CountDownLatch decoded = new CountDownLatch(1);
    try (LiveHearing<Ear.Heard> hearing =
        LiveHearing.start(
            () ->
                new Namer() {
                  @Override
                  public Ear.Heard hear(Clip clip) {
                    decoded.countDown();
                    return super.hear(clip);
                  }
                })) {
      Clip clip = cut(stream).get(0);
      int end = (int) clip.endMs() * MS;
      // The pause has only lasted as long as the clip holds of it, and what deciding takes.
      hearing.accept(Arrays.copyOf(stream, end + 120 * MS), end + 120 * MS);
      decoded.await();
      assertEquals(1, hearing.decodes());
      short[] rest = Arrays.copyOfRange(stream, end + 120 * MS, stream.length);
      hearing.accept(rest, rest.length);
      assertEquals(clip, hearing.next().orElseThrow().clip());
      assertEquals(1, hearing.decodes());
    }
  }

  @Test
  void whatEndedIsTakenBeforeTheNextIsListenedTo() throws InterruptedException {
    short[] stream = stream(0, 800, 1, 800, 2, 800);
    List<String> order = Collections.synchronizedList(new ArrayList<>());
    try (LiveHearing<Ear.Heard> hearing =
        LiveHearing.start(
            () ->
                new Namer() {
                  @Override
                  public Ear.Heard hear(Clip clip) {
                    order.add("hear");
                    return super.hear(clip);
                  }

                  @Override
                  public Ear.Heard take(Clip clip, Ear.Heard heard) {
                    order.add("take");
                    assertEquals(name(clip), heard);
                    return super.take(clip, heard);
                  }
                })) {
      feed(hearing, stream, 11);
      assertHeardAsARecording(stream, all(hearing));
      assertEquals(3, Collections.frequency(order, "take"));
      for (int i = 0; i < order.size(); i++) {
        assertTrue(
            order.get(i).equals("hear") || order.get(i - 1).equals("hear"), order.toString());
      }
    }
  }

  @Test
  void aLongUtteranceIsHeardInPiecesOfBoundedLengthAndNothingOfItIsLost()
      throws InterruptedException {
    int[] spoken = new int[60];
    for (int i = 0; i < spoken.length; i += 2) {
      spoken[i] = i / 2 % SPOKEN.size();
      spoken[i + 1] = 0;
    }
    short[] stream = stream(spoken);
    assertTrue(stream.length > 40_000 * MS, "longer than the longest clip");
    try (LiveHearing<Ear.Heard> hearing = LiveHearing.start(Namer::new)) {
      feed(hearing, stream, 9);
      assertHeardAsARecording(stream, all(hearing));
    }
  }

  @Test
  void nothingIsLostWhenHearingAndTakingAreMuchSlowerThanTheSound() throws InterruptedException {
    int[] spoken = new int[140];
    for (int i = 0; i < spoken.length; i += 2) {
      spoken[i] = i / 2 % SPOKEN.size();
      spoken[i + 1] = 800;
    }
    short[] stream = stream(spoken);
    AtomicInteger heard = new AtomicInteger();
    try (LiveHearing<Ear.Heard> hearing =
        LiveHearing.start(
            () ->
                new Namer() {
                  @Override
                  public Ear.Heard hear(Clip clip) {
                    pause(10);
                    heard.incrementAndGet();
                    return super.hear(clip);
                  }
                })) {
      Thread producer = feed(hearing, stream, 10);
      pause(300);
      assertTrue(producer.isAlive(), "the producer waits: far more utterances than may queue");
      assertHeardAsARecording(stream, all(hearing));
      producer.join();
      assertEquals(hearing.decodes(), heard.get());
    }
  }

  private static void pause(int ms) {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Test
  void closingInMidUtteranceEndsEverythingAndFreesTheListener() throws InterruptedException {
    short[] stream = stream(0, 1500, 3, 0);
    AtomicReference<Thread> owner = new AtomicReference<>();
    AtomicReference<Thread> closer = new AtomicReference<>();
    LiveHearing<Ear.Heard> hearing =
        LiveHearing.start(
            () -> {
              owner.set(Thread.currentThread());
              return new Namer() {
                @Override
                public void close() {
                  closer.set(Thread.currentThread());
                }
              };
            });
    hearing.accept(stream, stream.length - 300 * MS);
    assertEquals(cut(stream).get(0), hearing.next().orElseThrow().clip());
    hearing.close();
    assertEquals(Optional.empty(), hearing.next());
    assertThrows(IllegalStateException.class, () -> hearing.accept(stream, 160));
    assertNotSame(Thread.currentThread(), owner.get());
    assertSame(owner.get(), closer.get());
    assertFalse(owner.get().isAlive());
    hearing.close();
  }

  @Test
  void closingFreesAProducerThatWaits() throws InterruptedException {
    int[] spoken = new int[200];
    for (int i = 0; i < spoken.length; i += 2) {
      spoken[i] = i / 2 % SPOKEN.size();
      spoken[i + 1] = 800;
    }
    short[] stream = stream(spoken);
    AtomicReference<Throwable> refused = new AtomicReference<>();
    LiveHearing<Ear.Heard> hearing = LiveHearing.start(Namer::new);
    Thread producer =
        new Thread(
            () -> {
              try {
                hearing.accept(stream, stream.length);
              } catch (IllegalStateException | InterruptedException e) {
                refused.set(e);
              }
            });
    producer.start();
    pause(1500);
    assertTrue(producer.isAlive(), "nobody takes what was heard");
    hearing.close();
    producer.join();
    assertTrue(refused.get() instanceof IllegalStateException, String.valueOf(refused.get()));
  }

  @Test
  void aHearingThatFailsSaysSoToBothSides() throws InterruptedException {
    short[] stream = stream(0, 1500, 1, 1500);
    try (LiveHearing<Ear.Heard> hearing =
        LiveHearing.start(
            () -> {
              throw new IllegalStateException("no model");
            })) {
      MachineFailed taking = assertThrows(MachineFailed.class, hearing::next);
      assertEquals("hearing has stopped (no model); start listening again", taking.getMessage());
      assertThrows(MachineFailed.class, () -> hearing.accept(stream, stream.length));
    }
  }

  /** The real recogniser: as a recording and as it comes in, the same clips and hearings. */
  @Test
  @Tag("slow")
  void theRecogniserHearsAStreamAsItHearsARecording() throws InterruptedException {
    LoadedPlan plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    short[] stream = stream(0, 1500, 1, 300, 2, 1200, 3, 900);
    List<Ear.Heard> recorded = new ArrayList<>();
    try (Ear ear = Ear.open(plan, null)) {
      cut(stream).forEach(clip -> recorded.add(ear.entry(clip)));
    }
    assertTrue(recorded.stream().anyMatch(heard -> !heard.readings().isEmpty()), "words are heard");
    try (LiveHearing<Ear.Heard> hearing = LiveHearing.start(plan, null)) {
      feed(hearing, stream, 12);
      assertEquals(recorded, all(hearing).stream().map(LiveHearing.Caught::heard).toList());
    }
  }
}
