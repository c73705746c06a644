package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class NoiseKeeperTest {

  private static final int BLOCK = 320;
  private static final short NOISE = 1;
  private static final short SPEECH = 1000;

  private final NoiseKeeper keeper = new NoiseKeeper(3000);

  private void hear(short sample, int ms, boolean speech) {
    short[] block = new short[BLOCK];
    Arrays.fill(block, sample);
    for (int at = 0; at < ms; at += 20) {
      keeper.add(block, BLOCK, speech);
    }
  }

  @Test
  void whatComesBetweenUtterancesIsKept() {
    hear(NOISE, 2800, false);

    assertTrue(Math.abs(keeper.noise().length() - 2 * Clip.SAMPLE_RATE_HZ) <= BLOCK);
  }

  @Test
  void theBeginningOfSpeechThatIsNoticedLateIsNot() {
    hear(NOISE, 2000, false);
    hear(SPEECH, 500, false);
    hear(SPEECH, 1000, true);
    hear(SPEECH, 400, false);
    hear(NOISE, 3000, false);

    short[] kept = keeper.noise().samples();
    assertTrue(kept.length > 0);
    assertTrue(IntStream.range(0, kept.length).allMatch(i -> kept[i] == NOISE));
  }

  @Test
  void noMoreIsKeptThanWanted() {
    hear(NOISE, 20_000, false);

    assertTrue(keeper.noise().durationMs() <= 3000);
  }

  @Test
  void forgottenNoiseIsGone() {
    hear(NOISE, 2800, false);
    keeper.forget();

    assertEquals(0, keeper.noise().length());
  }
}
