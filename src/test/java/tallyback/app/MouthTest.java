package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tallyback.audio.Clip;
import tallyback.audio.Cues.Cue;
import tallyback.audio.SoundOut;
import tallyback.voice.Voice;

/** With a voice that hums and a loudspeaker that only keeps what it plays. */
@Timeout(30)
class MouthTest {

  private static final short HUM = 1000;

  private final BlockingQueue<Clip> played = new LinkedBlockingQueue<>();

  private Mouth mouth() {
    return Mouth.start(
        MouthTest::hummer,
        () ->
            new SoundOut() {
              @Override
              public boolean play(Clip clip, BooleanSupplier wanted) {
                return played.add(clip);
              }

              @Override
              public void close() {}
            });
  }

  private static Voice hummer() {
    return new Voice() {
      @Override
      public Clip speak(String text) {
        short[] hum = new short[10];
        Arrays.fill(hum, HUM);
        return new Clip(hum, 0);
      }

      @Override
      public void close() {}
    };
  }

  private int loudness(Mouth mouth) throws InterruptedException {
    mouth.say(Cue.NONE, "hum", () -> {});
    Clip clip = played.poll(20, TimeUnit.SECONDS);
    return clip == null ? -1 : clip.sample(0);
  }

  @Test
  void whatIsStoppedBeforeItHasBegunIsNotPlayedAndTheNextIs() throws InterruptedException {
    CountDownLatch begins = new CountDownLatch(1);
    CountDownLatch stopped = new CountDownLatch(1);
    BlockingQueue<Boolean> wanted = new LinkedBlockingQueue<>();
    SoundOut slow =
        new SoundOut() {
          @Override
          public boolean play(Clip clip, BooleanSupplier still) {
            begins.countDown();
            try {
              stopped.await();
            } catch (InterruptedException e) {
              Thread.currentThread().interrupt();
            }
            return wanted.add(still.getAsBoolean());
          }

          @Override
          public void close() {}
        };
    try (Mouth mouth = Mouth.start(MouthTest::hummer, () -> slow)) {
      mouth.say(Cue.NONE, "hum", () -> {});
      begins.await();
      mouth.hush();
      stopped.countDown();
      mouth.say(Cue.NONE, "hum", () -> {});
      assertEquals(false, wanted.poll(20, TimeUnit.SECONDS));
      assertEquals(true, wanted.poll(20, TimeUnit.SECONDS));
    }
  }

  @Test
  void louderAndQuieterInStepsOfFourDecibels() throws InterruptedException {
    try (Mouth mouth = mouth()) {
      assertEquals(HUM, loudness(mouth));
      assertTrue(mouth.louder());
      assertEquals(1585, loudness(mouth));
      assertTrue(mouth.quieter());
      assertEquals(HUM, loudness(mouth));
      assertTrue(mouth.quieter());
      assertEquals(631, loudness(mouth));
    }
  }

  @Test
  void itStaysWithinWhatCanBeHeard() throws InterruptedException {
    try (Mouth mouth = mouth()) {
      int steps = 0;
      while (mouth.louder()) {
        steps++;
      }
      assertEquals(3, steps);
      assertEquals(3981, loudness(mouth));
      while (mouth.quieter()) {
        steps++;
      }
      assertEquals(3 + 8, steps);
      assertEquals(100, loudness(mouth));
      assertFalse(mouth.quieter());
    }
  }
}
