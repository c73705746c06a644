package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class ClipTest {

  @Test
  void cannotBeChangedFromOutside() {
    short[] samples = {1, 2, 3};
    Clip clip = new Clip(samples, 0);
    samples[0] = 9;
    clip.samples()[1] = 9;
    assertArrayEquals(new short[] {1, 2, 3}, clip.samples());
  }

  /**
   * FIPS 180-4 example: SHA-256 of "abc" padded here to whole samples by using "abcd"; value from
   * coreutils sha256sum.
   */
  @Test
  void isNamedByTheHashOfItsLittleEndianBytes() {
    Clip clip = new Clip(new short[] {'a' | ('b' << 8), 'c' | ('d' << 8)}, 500);
    assertEquals("88d4266fd4e6338d13b845fcf289579d209c897823b9217da3e161936f031589", clip.sha256());
  }

  @Test
  void knowsWhereItLiesInItsStream() {
    Clip clip = new Clip(new short[24_000], 700);
    assertEquals(1_500, clip.durationMs());
    assertEquals(2_200, clip.endMs());
  }

  @Test
  void digitalSilenceIsAllZeros() {
    assertTrue(new Clip(new short[100], 0).isDigitalSilence());
    assertFalse(new Clip(new short[] {0, 1, 0}, 0).isDigitalSilence());
  }

  @Test
  void cannotBeginBeforeItsStream() {
    assertThrows(IllegalArgumentException.class, () -> new Clip(new short[1], -1));
  }
}
