package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;

class OpenMemoTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private final OpenMemo memo = new OpenMemo("id", NINE, clip(0, 1000, 1), null);

  private static Clip clip(long startMs, int ms, int sample) {
    short[] samples = new short[ms * 16];
    Arrays.fill(samples, (short) sample);
    return new Clip(samples, startMs);
  }

  private static Instant at(long ms) {
    return NINE.plusMillis(ms);
  }

  private void add(long startMs, int ms, int sample) {
    memo.add(clip(startMs, ms, sample), at(startMs));
  }

  @Test
  void itWaitsSixSecondsToBegin() {
    assertTrue(memo.takes(at(7000)));
    assertFalse(memo.takes(at(7001)));
    assertTrue(memo.isEmpty());
  }

  @Test
  void aPauseOfTwoAndAHalfSecondsEndsIt() {
    add(2000, 1000, 5);
    assertTrue(memo.takes(at(5500)));
    assertFalse(memo.takes(at(5501)));
    assertFalse(memo.isOver(at(6000)), "whoever has just begun may not have been noticed yet");
    assertTrue(memo.isOver(at(6001)));
  }

  @Test
  void pausesAreKept() {
    add(2000, 1000, 5);
    add(4500, 500, 7);
    Clip sound = memo.sound();
    assertEquals(3000, sound.durationMs());
    assertEquals(5, sound.sample(0));
    assertEquals(0, sound.sample(1500 * 16));
    assertEquals(7, sound.sample(2500 * 16));
    assertEquals(3, memo.seconds());
    assertEquals(5000, memo.endMs());
  }

  @Test
  void sixtySecondsAreTheMost() {
    add(2000, 30_000, 5);
    assertFalse(memo.isFull());
    add(32_000, 30_000, 6);
    assertTrue(memo.isFull());
    add(62_000, 30_000, 7);
    assertEquals(60_000, memo.sound().durationMs());
    assertEquals(6, memo.sound().sample(59_999 * 16));
    assertEquals(60, memo.seconds());
  }

  @Test
  void whatIsTooMuchIsLeftOut() {
    add(2000, 59_000, 5);
    add(63_000, 5000, 6);
    assertTrue(memo.isFull());
    assertEquals(60_000, memo.sound().durationMs());
  }
}
