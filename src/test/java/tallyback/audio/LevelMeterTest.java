package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LevelMeterTest {

  private static short[] tone(int ms, double dbfs) {
    short[] samples = new short[ms * 16];
    double peak = 32_768 * Math.pow(10, dbfs / 20) * Math.sqrt(2);
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) Math.round(peak * Math.sin(2 * Math.PI * 440 * i / 16_000));
    }
    return samples;
  }

  @Test
  void theActiveLevelOfASteadyToneIsItsLevel() {
    assertEquals(-20, LevelMeter.measure(new Clip(tone(5_000, -20), 0)).activeDbfs(), 0.1);
  }

  /** ITU-T P.56: silence between the words does not count; the hangover of 200 ms does. */
  @Test
  void silenceAroundSpeechDoesNotLowerTheActiveLevel() {
    short[] samples = new short[160_000];
    System.arraycopy(tone(5_000, -20), 0, samples, 40_000, 80_000);
    double withHangover = -20 + 10 * Math.log10(5_000.0 / 5_200);
    assertEquals(withHangover, LevelMeter.measure(new Clip(samples, 0)).activeDbfs(), 0.3);
  }

  /** Bursts of white noise of known duty: P.56 counts each burst and the hangover after it. */
  @ParameterizedTest
  @CsvSource({"2000, 6000", "2000, 2000", "3000, 1000"})
  void theActiveLevelOfBurstsIsThatOfABurstWhateverTheirDuty(int onMs, int offMs) {
    Random random = new Random(5);
    double size = 32_768 * Math.pow(10, -26 / 20.0);
    int period = (onMs + offMs) * 16;
    short[] samples = new short[5 * period];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) (i % period < onMs * 16 ? Math.round(size * random.nextGaussian()) : 0);
    }
    double withHangover = -26 + 10 * Math.log10(onMs / (onMs + 200.0));
    assertEquals(withHangover, LevelMeter.measure(new Clip(samples, 0)).activeDbfs(), 0.3);
  }

  @Test
  void theRatioToWhiteNoiseIsFound() {
    Random random = new Random(11);
    for (double noiseDbfs : new double[] {-60, -45, -35}) {
      short[] samples = new short[96_000];
      System.arraycopy(tone(3_000, -20), 0, samples, 16_000, 48_000);
      double size = 32_768 * Math.pow(10, noiseDbfs / 20);
      for (int i = 0; i < samples.length; i++) {
        samples[i] += (short) Math.round(size * random.nextGaussian());
      }
      LevelReport report = LevelMeter.measure(new Clip(samples, 0));
      assertEquals(noiseDbfs, report.noiseDbfs(), 1, "noise");
      assertEquals(-20 - noiseDbfs, report.snrDb(), 1.5, "ratio over noise of " + noiseDbfs);
    }
  }

  /** Syllables of a tenth of a second with gaps half as long; the noise is there only meanwhile. */
  private static short[] syllables(double noiseDbfs, double marginDbfs) {
    Random random = new Random(7);
    short[] samples = new short[64_000];
    short[] tone = tone(2_000, -20);
    for (int i = 0; i < samples.length; i++) {
      int spoken = i - 16_000;
      boolean during = spoken >= 0 && spoken < tone.length;
      double dbfs = during ? noiseDbfs : marginDbfs;
      double noise = 32_768 * Math.pow(10, dbfs / 20) * random.nextGaussian();
      short voice = during && spoken % 2_400 < 1_600 ? tone[spoken] : 0;
      samples[i] = (short) Math.round(voice + noise);
    }
    return samples;
  }

  @Test
  void noiseThatSwellsWhileSomebodySpeaksIsFoundInTheGaps() {
    LevelReport report = LevelMeter.measure(new Clip(syllables(-36, -58), 0));

    assertTrue(report.isNoiseInGaps());
    assertEquals(report.activeDbfs() + 36, report.snrDb(), 4);
  }

  @Test
  void deepGapsAndSilentMarginsAreNoNoise() {
    LevelReport deep = LevelMeter.measure(new Clip(syllables(-58, -58), 0));
    LevelReport silent = LevelMeter.measure(new Clip(syllables(-36, -90), 0));

    assertFalse(deep.isNoiseInGaps());
    assertFalse(silent.isNoiseInGaps());
  }

  @Test
  void noiseThatDoesNotSwellIsThatOfThePauses() {
    LevelReport report = LevelMeter.measure(new Clip(syllables(-36, -36), 0));

    assertFalse(report.isNoiseInGaps());
    assertEquals(-36, report.noiseDbfs(), 1);
  }

  @Test
  void aConstantOffsetChangesNoLevel() {
    Random random = new Random(3);
    short[] samples = new short[96_000];
    System.arraycopy(tone(3_000, -26), 0, samples, 16_000, 48_000);
    short[] shifted = new short[samples.length];
    for (int i = 0; i < samples.length; i++) {
      samples[i] += (short) Math.round(30 * random.nextGaussian());
      shifted[i] = (short) (samples[i] + 3_277);
    }
    LevelReport plain = LevelMeter.measure(new Clip(samples, 0));
    LevelReport offset = LevelMeter.measure(new Clip(shifted, 0));
    assertEquals(plain.activeDbfs(), offset.activeDbfs(), 0.01);
    assertEquals(plain.snrDb(), offset.snrDb(), 0.01);
  }

  @Test
  void digitalSilenceHasNoLevel() {
    LevelReport report = LevelMeter.measure(new Clip(new short[16_000], 0));
    assertEquals(Double.NEGATIVE_INFINITY, report.activeDbfs());
    assertEquals(0, report.snrDb());
  }

  @Test
  void anEmptyClipIsNoFault() {
    assertEquals(0, LevelMeter.measure(new Clip(new short[0], 0)).snrDb());
  }
}
