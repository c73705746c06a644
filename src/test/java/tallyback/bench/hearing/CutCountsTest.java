package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;

class CutCountsTest {

  /** Two phrases: from 1 s to 2 s, and from 4 s to 6 s. */
  private static final List<CutCounts.Spoken> SPOKEN =
      List.of(new CutCounts.Spoken(1000, 2000), new CutCounts.Spoken(4000, 6000));

  private static Clip clip(long startMs, long endMs) {
    return new Clip(new short[(int) (endMs - startMs) * 16], startMs);
  }

  private static CutCounts counts(Clip... clips) {
    return CutCounts.of(SPOKEN, List.of(clips), 60_000);
  }

  @Test
  void cutRightNothingIsCounted() {
    assertEquals(
        new CutCounts(2, 0, 0, 0, 0, 0, 0, 0, 60_000), counts(clip(750, 2250), clip(3750, 6250)));
    assertEquals(
        new CutCounts(2, 0, 0, 0, 0, 0, 0, 0, 60_000),
        counts(clip(1050, 1950), clip(4000, 6000)),
        "50 ms are tolerated");
  }

  @Test
  void aPhraseInNoClipIsMissedAndAClipWithoutAPhraseIsExtra() {
    assertEquals(
        new CutCounts(2, 1, 0, 0, 0, 0, 1, 1000, 60_000),
        counts(clip(750, 2250), clip(7000, 8000)));
    assertEquals(
        new CutCounts(2, 1, 0, 0, 0, 0, 0, 0, 60_000), counts(clip(0, 1400), clip(4000, 6000)));
  }

  @Test
  void startsAndEndsThatAreCutAway() {
    assertEquals(
        new CutCounts(2, 0, 1, 1, 0, 0, 0, 0, 60_000), counts(clip(1060, 2000), clip(4000, 5940)));
  }

  @Test
  void onePhraseInTwoClipsIsASplit() {
    assertEquals(
        new CutCounts(2, 0, 0, 0, 1, 0, 0, 0, 60_000),
        counts(clip(1000, 2000), clip(4000, 5000), clip(5100, 6000)));
  }

  @Test
  void twoPhrasesInOneClipAreAJoin() {
    assertEquals(new CutCounts(2, 0, 0, 0, 0, 1, 0, 0, 60_000), counts(clip(900, 6100)));
  }

  @Test
  void aStreamKnowsWhereItsPhrasesLie() {
    short[] beep = new short[3 * 16_000];
    for (int i = 16_000; i < 32_000; i++) {
      beep[i] = (short) (8000 * Math.sin(i * 0.2));
    }
    TalkStream stream = TalkStream.of(List.of(new Clip(beep, 0), new Clip(beep, 0)), new Random(3));
    assertEquals(2, stream.spoken().size());
    long at = 0;
    for (CutCounts.Spoken each : stream.spoken()) {
      assertEquals(
          1000.0, (double) (each.endMs() - each.startMs()), 20, "without the silence around it");
      assertTrue(each.startMs() - at >= 1000 && each.startMs() - at <= 3000, "gap");
      at = each.endMs();
    }
    Clip clean = stream.clean(new Random(1));
    for (int i = 0; i < 16_000; i++) {
      assertTrue(Math.abs(clean.sample(i)) < 50, "the first second is a gap");
    }
  }
}
