package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LoudnessTest {

  private static Clip clip(int... samples) {
    short[] all = new short[samples.length];
    for (int i = 0; i < all.length; i++) {
      all[i] = (short) samples[i];
    }
    return new Clip(all, 0);
  }

  @Test
  void twentyDecibelsAreTenTimes() {
    assertArrayEquals(
        new short[] {1000, -2000, 0}, Loudness.changed(clip(100, -200, 0), 20).samples());
    assertArrayEquals(
        new short[] {100, -200, 0}, Loudness.changed(clip(1000, -2000, 0), -20).samples());
  }

  @Test
  void unchangedIsUnchanged() {
    assertArrayEquals(
        new short[] {32_767, -32_768}, Loudness.changed(clip(32_767, -32_768), 0).samples());
  }

  @Test
  void peaksArePressedAndNeverClippedOrTurnedRound() {
    Clip loud = Loudness.changed(clip(20_000, 25_000, 30_000, 32_767, -32_768), 12);
    for (int i = 1; i < 4; i++) {
      assertTrue(loud.sample(i) >= loud.sample(i - 1), "in the same order");
    }
    assertTrue(loud.sample(0) > 25_000, "louder than before");
    assertTrue(loud.sample(4) < -30_000);
    assertEquals(5, loud.length());
  }
}
