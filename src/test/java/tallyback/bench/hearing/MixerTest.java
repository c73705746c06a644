package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;

class MixerTest {

  private static final int SECOND = Clip.SAMPLE_RATE_HZ;

  private static Noise white(double dbfs, int length) {
    Random random = new Random(4);
    double size = 32_768 * Math.pow(10, dbfs / 20);
    double[] samples = new double[length];
    for (int i = 0; i < length; i++) {
      samples[i] = size * random.nextGaussian();
    }
    return new Noise("white", Mixer.clip(samples));
  }

  /** A tone at -20 dB of full scale: its active level is that (see the tests of the meter). */
  private static Clip tone(int length) {
    short[] samples = new short[length];
    double peak = 32_768 * Math.pow(10, -20 / 20.0) * Math.sqrt(2);
    for (int i = 0; i < length; i++) {
      samples[i] = (short) Math.round(peak * Math.sin(2 * Math.PI * 440 * i / SECOND));
    }
    return new Clip(samples, 0);
  }

  private static double noiseDbfs(Clip mixed, Clip speech) {
    double[] rest = new double[mixed.length()];
    for (int i = 0; i < rest.length; i++) {
      rest[i] = mixed.sample(i) - speech.sample(i);
    }
    return 10 * Math.log10(Mixer.power(rest) / (32_768.0 * 32_768.0));
  }

  @Test
  void theNoiseStandsSoFarBelowTheActiveLevel() {
    Clip speech = tone(4 * SECOND);
    for (double snrDb : new double[] {20, 15, 10}) {
      Clip mixed = Mixer.mix(speech, white(-50, SECOND), snrDb, 7);
      assertEquals(-20 - snrDb, noiseDbfs(mixed, speech), 0.1);
    }
  }

  @Test
  void theSameSeedTakesTheSameStretchAtEveryRatio() {
    Clip speech = tone(SECOND);
    Noise noise = white(-30, 3 * SECOND);
    assertEquals(Mixer.mix(speech, noise, 15, 7), Mixer.mix(speech, noise, 15, 7));
    assertTrue(!Mixer.mix(speech, noise, 15, 7).equals(Mixer.mix(speech, noise, 15, 8)));
  }

  @Test
  void whatWouldBeClippedIsTurnedDownAsAWhole() {
    double[] loud = {40_000, -60_000, 20_000};
    Clip fitted = Mixer.clip(loud);
    assertEquals(-32_767, fitted.sample(1));
    assertEquals(-32_767 * 2 / 3.0, -fitted.sample(0), 1);
    assertEquals(32_767 / 3.0, fitted.sample(2), 1);
  }

  @Test
  void silenceIsNoSpeechAndNoNoise() {
    Clip silence = new Clip(new short[SECOND], 0);
    assertThrows(
        IllegalArgumentException.class, () -> Mixer.mix(silence, white(-30, SECOND), 15, 1));
    Noise none = new Noise("none", silence);
    assertEquals(
        "none: expected noise, found digital silence",
        assertThrows(IllegalArgumentException.class, () -> Mixer.mix(tone(SECOND), none, 15, 1))
            .getMessage());
  }
}
