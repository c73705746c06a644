package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SpeechBandsTest {

  private static final int SECOND = Clip.SAMPLE_RATE_HZ;

  /** Bursts of white noise, half a second in each second, over a hiss. */
  private static short[] bursts(int seconds, double amplitude, double hiss) {
    Random random = new Random(5);
    short[] samples = new short[seconds * SECOND];
    for (int i = 0; i < samples.length; i++) {
      double loud = i % SECOND < SECOND * 4 / 10 ? amplitude : hiss;
      samples[i] = (short) Math.round(loud * random.nextGaussian());
    }
    return samples;
  }

  private static SpeechBands of(short[] samples) {
    return SpeechBands.of(new Clip(samples, 0));
  }

  @Test
  void speechStandsOutByWhatIsAroundIt() {
    assertEquals(20, of(bursts(4, 2000, 200)).prominenceDb(), 1.5);
    assertEquals(10, of(bursts(4, 2000, 632)).prominenceDb(), 1.5);
  }

  @Test
  void theLevelOfAllOfItDoesNotMatter() {
    assertEquals(
        of(bursts(4, 2000, 200)).prominenceDb(), of(bursts(4, 8000, 800)).prominenceDb(), 0.2);
  }

  @Test
  void aWhistleTakesAwayOnlyItsOwnBands() {
    short[] whistled = bursts(4, 2000, 20);
    short[] hissing = bursts(4, 2000, 2000);
    for (int i = 0; i < whistled.length; i++) {
      double whistle = 2800 * Math.sin(2 * Math.PI * 2000 * i / SECOND);
      whistled[i] = (short) (whistled[i] + Math.round(whistle));
    }
    assertTrue(of(whistled).prominenceDb() > 22, "as loud as the hiss");
    assertTrue(of(hissing).prominenceDb() < 4, "as loud as the whistle");
  }

  @Test
  void moreThanEnoughInOneBandHelpsNoOther() {
    assertEquals(30, of(bursts(4, 8000, 1)).prominenceDb(), 0.1);
  }

  @Test
  void aClipShorterThanAFrameAndSilenceAreMeasuredToo() {
    assertEquals(0, of(new short[10]).prominenceDb(), 0.01);
    assertEquals(0, of(new short[SECOND]).prominenceDb(), 0.01);
  }

  private static double over(short[] room) {
    RoomBands bands = new RoomBands();
    bands.add(room, room.length);
    return SpeechBands.prominenceDb(Collections.nCopies(20, -30.0), bands.levelsDb());
  }

  @Test
  void aRoomIsKnownAfterThreeSeconds() {
    RoomBands room = new RoomBands();
    room.add(bursts(2, 20, 20), 2 * SECOND);
    assertEquals(List.of(), room.levelsDb());
  }

  @Test
  void aRoomIsMeasuredByItsBlowsAndNotByTheFirstOfAWord() {
    double quiet = over(bursts(4, 20, 20));
    assertEquals(over(bursts(4, 2000, 2000)), over(bursts(4, 2000, 20)), 3);
    short[] spoken = bursts(4, 20, 20);
    System.arraycopy(bursts(1, 2000, 2000), 0, spoken, 3 * SECOND, SECOND / 2);
    assertEquals(quiet, over(spoken), 2);
  }

  @Test
  void itDoesNotMatterInWhichPiecesTheSoundComes() {
    short[] samples = bursts(4, 300, 100);
    RoomBands whole = new RoomBands();
    whole.add(samples, samples.length);
    RoomBands pieces = new RoomBands();
    for (int from = 0; from < samples.length; from += 111) {
      int count = Math.min(111, samples.length - from);
      pieces.add(java.util.Arrays.copyOfRange(samples, from, from + count), count);
    }
    assertEquals(whole.levelsDb(), pieces.levelsDb());
  }
}
