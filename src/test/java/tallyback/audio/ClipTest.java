package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
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

  /** A second of a tone of so many steps, zeros from one sample to another. */
  private static Clip torn(int size, int from, int to) {
    short[] samples = new short[16_000];
    for (int i = 0; i < samples.length; i++) {
      double value = size * Math.sin(2 * Math.PI * 440 * (i + 0.5) / 16_000);
      samples[i] = i >= from && i < to ? 0 : (short) Math.rint(value);
    }
    return new Clip(samples, 0);
  }

  @Test
  void aTenthOfASecondTornOutOfASoundIsAHole() {
    assertTrue(torn(5_000, 8_000, 9_600).hasHole());
    assertTrue(torn(5_000, 1, 15_999).hasHole());
    assertFalse(torn(5_000, 8_000, 9_500).hasHole(), "too short to hide a word");
  }

  @Test
  void soundThatIsTornOffAtAnEndHasAHole() {
    assertTrue(torn(5_000, 0, 8_000).hasHole(), "loud at once behind the zeros");
    assertTrue(torn(100, 8_000, 16_000).hasHole(), "a hiss that stops");
  }

  @Test
  void zerosInFrontOrInAPauseAreNoHole() {
    assertFalse(torn(100, 0, 8_000).hasHole());
    assertFalse(torn(5_000, 0, 16_000).hasHole());
    short[] silenced = torn(100, 8_000, 12_000).samples();
    Arrays.fill(silenced, 0, 80, (short) 0);
    assertFalse(new Clip(silenced, 0).hasHole(), "begins in digital silence too");
    assertFalse(new Clip(new short[0], 0).hasHole());
  }

  /** A tone driven so far over full scale; of twice its size two thirds are clipped. */
  private static Clip driven(double peak) {
    short[] samples = new short[16_000];
    for (int i = 0; i < samples.length; i++) {
      double value = 32_768 * peak * Math.sin(2 * Math.PI * 100 * i / 16_000);
      samples[i] = (short) Math.max(-32_768, Math.min(32_767, Math.rint(value)));
    }
    return new Clip(samples, 0);
  }

  @Test
  void moreThanAFiftiethAtFullScaleIsOverdriven() {
    assertTrue(driven(2).isOverdriven());
    assertTrue(driven(2).isSpoilt());
    assertFalse(driven(0.99).isSpoilt());
    assertFalse(new Clip(new short[0], 0).isOverdriven());
    short[] few = new short[16_000];
    Arrays.fill(few, 1_000, 1_320, Short.MAX_VALUE);
    assertFalse(new Clip(few, 0).isOverdriven(), "a fiftieth");
    Arrays.fill(few, 1_000, 1_325, Short.MIN_VALUE);
    assertTrue(new Clip(few, 0).isOverdriven(), "a little more");
  }

  @Test
  void moreThanTwentySecondsAreTooLongForAnEntry() {
    assertFalse(new Clip(new short[320_000], 0).isSpoilt());
    assertTrue(new Clip(new short[320_016], 0).isSpoilt());
  }

  @Test
  void zerosInTheHissOfALiveMicrophoneAreAHoleEvenWhereNobodySpeaks() {
    assertTrue(torn(3, 8_000, 12_000).hasHole());
  }

  @Test
  void anEdgeOnOneSideIsEnough() {
    short[] fading = torn(5_000, 8_000, 12_000).samples();
    for (int i = 12_000; i < 16_000; i++) {
      fading[i] = (short) ((i - 12_000) / 20 % 7);
    }
    Arrays.fill(fading, 0, 80, (short) 0); // no hiss, so that the edge alone tells
    assertTrue(new Clip(fading, 0).hasHole());
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
