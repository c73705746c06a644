package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.TestClips;

class DamageTest {

  private static final Clip SPEECH = TestClips.all().get(0).clip();
  private static final Clip SECOND = TestClips.all().get(1).clip();

  private static Clip damaged(Damage damage, Clip clip) {
    return damage.of(clip, SECOND, new Random(7));
  }

  private static Clip tone(int hertz, double dbfs) {
    short[] samples = new short[2 * Clip.SAMPLE_RATE_HZ];
    double peak = 32_768 * Math.pow(10, dbfs / 20) * Math.sqrt(2);
    for (int i = 0; i < samples.length; i++) {
      samples[i] =
          (short) Math.round(peak * Math.sin(2 * Math.PI * hertz * i / Clip.SAMPLE_RATE_HZ));
    }
    return new Clip(samples, 0);
  }

  private static double dbfs(Clip clip) {
    double sum = 0;
    for (int i = 0; i < clip.length(); i++) {
      sum += clip.sample(i) * (double) clip.sample(i);
    }
    return 10 * Math.log10(sum / clip.length() / (32_768.0 * 32_768.0));
  }

  private static double share(Clip clip, int at) {
    int count = 0;
    for (int i = 0; i < clip.length(); i++) {
      count += Math.abs(clip.sample(i)) >= at ? 1 : 0;
    }
    return (double) count / clip.length();
  }

  @ParameterizedTest
  @EnumSource(Damage.class)
  void theSameSeedGivesTheSameSoundAndAllButTheLongOneKeepTheLength(Damage damage) {
    Clip once = damaged(damage, SPEECH);
    assertEquals(once, damaged(damage, SPEECH));
    assertEquals(damage == Damage.LONG ? 640_000 : SPEECH.length(), once.length());
    assertFalse(once.equals(SPEECH));
  }

  @ParameterizedTest
  @CsvSource({"CLIPPING1, 0.01", "CLIPPING10, 0.10"})
  void soManySamplesAreClipped(Damage damage, double share) {
    assertEquals(share, share(damaged(damage, SPEECH), 32_767), 0.1 * share);
  }

  @Test
  void theOffsetIsATenthOfFullScale() {
    Clip offset = damaged(Damage.OFFSET, SPEECH);
    for (int i = 0; i < SPEECH.length(); i += 100) {
      assertEquals(SPEECH.sample(i) + 3_276.7, offset.sample(i), 0.51);
    }
  }

  @ParameterizedTest
  @CsvSource({"HUM50, 50", "HUM60, 60"})
  void humIsTenDecibelsBelowAndComesBackWithThePeriodOfTheMains(Damage damage, int hertz) {
    Clip speech = tone(1_010, -30);
    Clip hum = damaged(damage, speech);
    double[] rest = new double[speech.length()];
    for (int i = 0; i < rest.length; i++) {
      rest[i] = hum.sample(i) - speech.sample(i);
    }
    assertEquals(-40, 10 * Math.log10(Mixer.power(rest) / Mixer.power(0)), 0.5);
    int period = 3 * Clip.SAMPLE_RATE_HZ / hertz; // whole for 50 and for 60 Hz
    for (int i = period; i < rest.length; i += 37) {
      assertEquals(rest[i - period], rest[i], 3);
    }
  }

  @Test
  void mutedIsAllZerosAndNoEntry() {
    assertTrue(damaged(Damage.MUTED, SPEECH).isDigitalSilence());
    assertFalse(Damage.MUTED.leavesAnEntry());
  }

  @Test
  void halfASecondDropsOutInMidSpeech() {
    Clip dropped = damaged(Damage.DROPOUT, tone(440, -20));
    assertTrue(dropped.hasHole());
    assertEquals(8_000, share(dropped, 0) * dropped.length() - changed(dropped), 200);
    assertTrue(dropped.sample(10) != 0 && dropped.sample(dropped.length() - 10) != 0);
  }

  private static double changed(Clip dropped) {
    return share(dropped, 1) * dropped.length();
  }

  @ParameterizedTest
  @CsvSource({"SECOND6, 6", "SECOND0, 0"})
  void theSecondVoiceIsSoMuchFainterByItsActiveLevel(Damage damage, double belowDb) {
    Clip quiet = tone(440, -30);
    Clip both = damage.of(quiet, tone(700, -10), new Random(1));
    double[] rest = new double[quiet.length()];
    for (int i = 0; i < rest.length; i++) {
      rest[i] = both.sample(i) - quiet.sample(i);
    }
    assertEquals(-30 - belowDb, 10 * Math.log10(Mixer.power(rest) / Mixer.power(0)), 0.2);
  }

  @Test
  void thereIsNoPauseOfHalfASecondInFortySeconds() {
    Clip talk = damaged(Damage.LONG, SPEECH);
    assertEquals(40_000, talk.durationMs());
    int quiet = 0;
    for (int i = 0; i < talk.length(); i++) {
      quiet = Math.abs(talk.sample(i)) > 100 ? 0 : quiet + 1;
      assertTrue(quiet < 8_000, "quiet for half a second at sample " + i);
    }
    assertFalse(Damage.LONG.leavesAnEntry());
  }

  @Test
  void aWhisperHasNoPitchAndTheSameVocalTract() {
    Clip vowel = buzz();
    Clip whisper = damaged(Damage.WHISPER, vowel);
    assertTrue(likeness(vowel, 160) > 0.9, "a hundred times a second");
    assertTrue(Math.abs(likeness(whisper, 160)) < 0.3, "whispered: " + likeness(whisper, 160));
    assertEquals(
        LevelMeter.measure(vowel).activeDbfs() - 15, LevelMeter.measure(whisper).activeDbfs(), 1.5);
    assertTrue(likeness(whisper, 16) > 0.3, "it rings at 1 kHz as before");
  }

  /** A hundred pulses a second through a resonance at 1 kHz. */
  private static Clip buzz() {
    double[] samples = new double[Clip.SAMPLE_RATE_HZ];
    double radius = Math.exp(-Math.PI * 120 / Clip.SAMPLE_RATE_HZ);
    double turn = 2 * Math.PI * 1_000 / Clip.SAMPLE_RATE_HZ;
    for (int i = 2; i < samples.length; i++) {
      samples[i] =
          (i % 160 == 0 ? 3_000 : 0)
              + 2 * radius * Math.cos(turn) * samples[i - 1]
              - radius * radius * samples[i - 2];
    }
    return Mixer.clip(samples);
  }

  /** The correlation of a sound with itself so many samples later. */
  private static double likeness(Clip clip, int later) {
    double product = 0;
    double square = 0;
    for (int i = 0; i + later < clip.length(); i++) {
      product += clip.sample(i) * (double) clip.sample(i + later);
      square += clip.sample(i) * (double) clip.sample(i);
    }
    return product / square;
  }

  @Test
  void aShoutIsLoudAndClippedHoweverFaintItWas() {
    Clip shout = damaged(Damage.SHOUT, SPEECH);
    assertTrue(share(shout, 32_767) > 0.005, "clipped: " + share(shout, 32_767));
    assertEquals(
        dbfs(damaged(Damage.SHOUT, tone(440, -20))),
        dbfs(damaged(Damage.SHOUT, tone(440, -40))),
        0.1);
  }

  /** A low-pass of first order: half the power at its corner, towards 20 dB a decade above. */
  @ParameterizedTest
  @CsvSource({"100, 0", "1750, 3", "4000, 8"})
  void ofATurnedHeadTheHighTonesAreMissing(int hertz, double lostDb) {
    assertEquals(-20 - 12 - lostDb, dbfs(damaged(Damage.TURNED, tone(hertz, -20))), 1);
  }

  @Test
  void namesAreReadAndOthersRefused() {
    assertEquals(List.of(Damage.HUM50, Damage.DROPOUT), Damage.list(List.of("hum50", "dropout")));
    assertEquals(Damage.values().length, Damage.list(List.of("all")).size());
    assertEquals(
        "bench.damage: expected all or some of clipping1, clipping10, offset, hum50, hum60, muted,"
            + " dropout, second6, second0, long, whisper, shout, turned; found wet",
        assertThrows(IllegalArgumentException.class, () -> Damage.list(List.of("wet")))
            .getMessage());
  }
}
