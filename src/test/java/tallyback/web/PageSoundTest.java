package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(20)
class PageSoundTest {

  private static final UUID STREAM = UUID.randomUUID();
  private static final double BEGAN_MS = 1.7e12;

  private final List<String> settled = new ArrayList<>();
  private long noted;
  private final PageSound sound =
      new PageSound(
          stream -> noted,
          new PageSound.Progress() {
            @Override
            public void taken(String stream, long sample) {}

            @Override
            public void settled(String stream, long sample) {
              settled.add(stream + " " + sample);
            }
          });

  private boolean give(String name, long first, int count) {
    short[] samples = new short[count];
    for (int i = 0; i < count; i++) {
      samples[i] = (short) (first + i);
    }
    double atMs = BEGAN_MS + first / 16.0;
    return sound.accept(
        name, new SoundFrame(STREAM, first, atMs, true, false, true, samples), atMs);
  }

  private List<Integer> read(int count) {
    List<Integer> read = new ArrayList<>();
    short[] buffer = new short[320];
    while (read.size() < count) {
      int got = sound.read(buffer);
      for (int i = 0; i < got; i++) {
        read.add((int) buffer[i]);
      }
    }
    return read;
  }

  @Test
  void whatComesInTwiceIsReadOnce() {
    give("a", 0, 100);
    give("a", 0, 100);
    give("a", 50, 100);
    List<Integer> read = read(150);
    assertEquals(150, read.size());
    assertEquals(149, read.get(149));
    assertEquals(150, sound.wanted("a", 0));
  }

  @Test
  void whatTheLogHoldsIsNotHeardAgain() {
    noted = 120;
    assertEquals(120, sound.wanted("a", 0));
    give("a", 0, 100);
    give("a", 100, 100);
    assertEquals(120, read(80).get(0));
  }

  @Test
  void aGapAndAnotherRecordingBreakTheStreamAndNothingElseDoes() {
    give("a", 0, 320);
    give("a", 320, 320);
    give("a", 1000, 320);
    give("b", 0, 320);
    List<Boolean> broken = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      sound.read(new short[320]);
      broken.add(sound.isBroken());
    }
    assertEquals(List.of(true, false, true, true), broken);
  }

  @Test
  void eachSampleKnowsItsRecordingAndItsTime() {
    give("a", 16_000, 320);
    give("b", 0, 320);
    read(640);
    assertEquals("a", sound.spot(160).stream());
    assertEquals(16_160, sound.spot(160).sample());
    assertEquals(Instant.ofEpochMilli(1_700_000_001_010L), sound.spot(160).at());
    assertEquals("b", sound.spot(320).stream());
    assertEquals(0, sound.spot(320).sample());
  }

  @Test
  void whatIsSettledIsToldRecordingByRecording() {
    give("a", 0, 8000);
    give("b", 0, 8000);
    read(16_000);
    sound.settled(4000);
    sound.settled(12_000);
    assertEquals(List.of("a 4000", "a 8000", "b 4000"), settled);
  }

  @Test
  void moreThanTheWindowIsTurnedDownAndNothingOfItLost() {
    int piece = 8000;
    int most = PageSound.WINDOW / piece;
    for (int i = 0; i < most; i++) {
      assertTrue(give("a", (long) i * piece, piece));
    }
    long next = (long) most * piece;
    assertFalse(give("a", next, piece));
    assertEquals(next, sound.wanted("a", 0));
    read(piece);
    assertTrue(give("a", next, piece));
  }

  @Test
  void theEndOfARecordingBreaksTheStream() {
    give("a", 0, 320);
    sound.end("a", BEGAN_MS);
    sound.read(new short[320]);
    assertEquals(1, sound.read(new short[320]));
    assertTrue(sound.isBroken());
  }
}
