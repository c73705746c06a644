package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.audio.LevelReport;

class ByTrustTest {

  private static final List<ByTrust.At> LIMITS =
      List.of(new ByTrust.At(10, 0.97), new ByTrust.At(18, 0.9));

  private static final ByTrust JUDGE =
      new ByTrust(
          new Trust(3, Map.of(Sign.NUMBER, -2.0)),
          LIMITS,
          0.8,
          Map.of(Likeness.NUMBER, 6.0),
          Map.of(Likeness.NUMBER, 12.0),
          -150,
          -100,
          -100,
          -50);

  /** One that believes everything but its limits. */
  private static ByTrust credulous(Map<Likeness, Double> leadInNoise) {
    return new ByTrust(
        new Trust(20, Map.of()),
        LIMITS,
        0.8,
        Map.of(Likeness.NUMBER, 6.0),
        leadInNoise,
        -150,
        -100,
        -100,
        -50);
  }

  private static Hearing hearing(Clip clip, double... scores) {
    return hearing(40, clip, scores);
  }

  private static Hearing hearing(double snrDb, Clip clip, double... scores) {
    return hearing(snrDb, 50, clip, scores);
  }

  private static Hearing hearing(double snrDb, double fit, Clip clip, double... scores) {
    return hearing(snrDb, fit, List.of("six", "eight", "ten"), clip, scores);
  }

  private static Hearing hearing(
      double snrDb, double fit, List<String> numbers, Clip clip, double... scores) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < scores.length; i++) {
      String number = numbers.get(i);
      readings.add(new Reading(List.of(new Word(number, 0, 300, fit)), scores[i]));
    }
    return new Hearing(readings, -1000, false, new LevelReport(-20, -60, snrDb, false), clip);
  }

  private static Clip whole() {
    short[] samples = new short[16_000];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) (i % 100);
    }
    return new Clip(samples, 0);
  }

  @Test
  void whatIsLikelyEnoughToBeRightIsNoted() {
    assertEquals(Judgement.NOTE, JUDGE.judge(hearing(whole(), -900)));
  }

  @Test
  void whatIsNotLikelyEnoughIsAsked() {
    assertEquals(Judgement.ASK, JUDGE.judge(hearing(whole(), -900, -910)));
    assertEquals(Judgement.NOTE, JUDGE.judge(hearing(whole(), -900, -930)));
  }

  @Test
  void whereTheSoundLeavesAChoiceNoOtherSignSettlesIt() {
    ByTrust credulous = credulous(Map.of());
    assertEquals(Judgement.ASK, credulous.judge(hearing(whole(), -900, -905)));
    assertEquals(Judgement.NOTE, credulous.judge(hearing(whole(), -900, -907)));
  }

  @Test
  void whereMoreWasSaidThanTheReadingHoldsItIsAsked() {
    assertEquals(Judgement.NOTE, JUDGE.judge(hearing(whole(), -1049)));
    assertEquals(Judgement.ASK, JUDGE.judge(hearing(whole(), -1051)));
  }

  @Test
  void whatIsHardlyEverRightIsRejected() {
    ByTrust doubtful =
        new ByTrust(
            new Trust(-2, Map.of()), LIMITS, 0.2, Map.of(), Map.of(), -150, -100, -100, -50);
    assertEquals(Judgement.REJECT, doubtful.judge(hearing(whole(), -900)));
    ByTrust lessSo =
        new ByTrust(
            new Trust(-1, Map.of()), LIMITS, 0.2, Map.of(), Map.of(), -150, -100, -100, -50);
    assertEquals(Judgement.ASK, lessSo.judge(hearing(whole(), -900)));
  }

  /** Both are offered, so one of them is right. */
  @Test
  void whatARivalMakesDoubtfulIsAskedHoweverNearItIs() {
    assertEquals(Judgement.ASK, JUDGE.judge(hearing(whole(), -900, -900.01)));
  }

  @Test
  void aWordThatIsNotInItsSoundIsAsked() {
    assertEquals(Judgement.NOTE, JUDGE.judge(hearing(40, -99, whole(), -900)));
    assertEquals(Judgement.ASK, JUDGE.judge(hearing(40, -101, whole(), -900)));
  }

  @Test
  void aSmallWordOrOneInNoiseMayFitWorse() {
    ByTrust choosy =
        new ByTrust(
            new Trust(20, Map.of()), LIMITS, 0.2, Map.of(), Map.of(), -150, -100, -1000, -1000);
    assertEquals(Judgement.ASK, choosy.judge(hearing(40, -149, whole(), -900)));
    for (double fit : new double[] {-149, -151}) {
      Judgement expected = fit > -150 ? Judgement.NOTE : Judgement.ASK;
      assertEquals(expected, choosy.judge(hearing(39, fit, whole(), -900)));
      assertEquals(expected, choosy.judge(hearing(40, fit, List.of("the"), whole(), -900)));
    }
  }

  @Test
  void inNoiseMoreIsWanted() {
    assertEquals(Judgement.NOTE, JUDGE.judge(hearing(20, whole(), -900)));
    assertEquals(Judgement.ASK, JUDGE.judge(hearing(9, whole(), -900)));
  }

  @Test
  void nothingHeardIsRejected() {
    assertEquals(Judgement.REJECT, JUDGE.judge(hearing(whole())));
  }

  @Test
  void soundWithAPieceMissingIsAskedHoweverClear() {
    short[] torn = whole().samples();
    Arrays.fill(torn, 6_000, 10_000, (short) 0);
    assertEquals(Judgement.ASK, JUDGE.judge(hearing(new Clip(torn, 0), -900)));
  }

  @Test
  void whatTwoSearchesTookForDifferentThingsIsAsked() {
    Hearing clear = hearing(whole(), -900);
    Hearing contested =
        new Hearing(clear.readings(), clear.fillerScore(), true, clear.level(), clear.clip());
    assertEquals(Judgement.NOTE, JUDGE.judge(clear));
    assertEquals(Judgement.ASK, JUDGE.judge(contested));
  }

  /** Log odds of 2, 0.5 and 20: 0.88, 0.62 and nearly 1 alone; with two 0.97, 0.89 and so. */
  @Test
  void whatTwoRecognisersHeardAlikeNeedsLessTrust() {
    Hearing clear = hearing(whole(), -900);
    Hearing contested =
        new Hearing(clear.readings(), clear.fillerScore(), true, clear.level(), clear.clip());
    assertEquals(Judgement.ASK, trusting(2).judge(clear));
    assertTrue(trusting(2).isClearToTwo(clear, SecondKind.ALIKE));
    assertFalse(trusting(0.5).isClearToTwo(clear, SecondKind.ALIKE));
    assertFalse(trusting(20).isClearToTwo(contested, SecondKind.ALIKE));
    Hearing near = hearing(whole(), -900, -905);
    assertFalse(trusting(20).isClearToTwo(near, SecondKind.ALIKE));
    Hearing badWord = hearing(40, -101, whole(), -900);
    assertEquals(Judgement.ASK, trusting(20).judge(badWord));
    assertTrue(trusting(20).isClearToTwo(badWord, SecondKind.ALIKE));
    assertFalse(trusting(20).isClearToTwo(hearing(29, -151, whole(), -900), SecondKind.ALIKE));
    assertTrue(trusting(20).isClearToTwo(contested, SecondKind.OTHER));
    assertTrue(trusting(20).isClearToTwo(near, SecondKind.OTHER));
    assertTrue(trusting(20).isClearToTwo(hearing(29, -151, whole(), -900), SecondKind.OTHER));
    assertFalse(trusting(0.5).isClearToTwo(clear, SecondKind.OTHER));
  }

  private static ByTrust trusting(double logOdds) {
    return new ByTrust(
        new Trust(logOdds, Map.of()),
        LIMITS,
        0.2,
        Map.of(Likeness.NUMBER, 6.0),
        Map.of(),
        -150,
        -100,
        -100,
        -50);
  }

  @Test
  void aVoiceThatFitsBadlyWhereThereIsNoNoiseIsAsked() {
    ByTrust choosy =
        new ByTrust(
            new Trust(20, Map.of()), LIMITS, 0.2, Map.of(), Map.of(), -1000, -1000, -20, -1000);
    assertEquals(Judgement.NOTE, choosy.judge(hearing(45, -19, whole(), -900)));
    assertEquals(Judgement.ASK, choosy.judge(hearing(45, -21, whole(), -900)));
    assertEquals(Judgement.NOTE, choosy.judge(hearing(20, -21, whole(), -900)));
  }

  @Test
  void inNoiseARivalMustBeFartherBehind() {
    ByTrust credulous = credulous(Map.of(Likeness.NUMBER, 12.0));
    assertEquals(Judgement.NOTE, credulous.judge(hearing(40, whole(), -900, -910)));
    assertEquals(Judgement.ASK, credulous.judge(hearing(29, whole(), -900, -910)));
    assertEquals(Judgement.NOTE, credulous.judge(hearing(29, whole(), -900, -913)));
  }
}
