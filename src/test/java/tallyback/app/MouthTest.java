package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
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
        () ->
            new Voice() {
              @Override
              public Clip speak(String text) {
                short[] hum = new short[10];
                Arrays.fill(hum, HUM);
                return new Clip(hum, 0);
              }

              @Override
              public void close() {}
            },
        () ->
            new SoundOut() {
              @Override
              public boolean play(Clip clip) {
                return played.add(clip);
              }

              @Override
              public void stop() {}

              @Override
              public void close() {}
            });
  }

  private int loudness(Mouth mouth) throws InterruptedException {
    mouth.say(Cue.NONE, "hum", () -> {});
    Clip clip = played.poll(20, TimeUnit.SECONDS);
    return clip == null ? -1 : clip.sample(0);
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
