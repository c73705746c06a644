package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tallyback.audio.Clip;
import tallyback.audio.LevelReport;

class TrustTest {

  private static final List<String> WORDS = List.of("six", "bolts", "off", "here");

  private static Evidence evidence(double snrDb, double fit, Evidence.Rival... rivals) {
    return new Evidence(WORDS, List.of(rivals), fit, 0, 0, 0, false, snrDb);
  }

  private static double trust(Evidence evidence) {
    return Trust.defaults().in(evidence);
  }

  @Test
  void withoutSignsTheBaseIsTheLogOfTheOdds() {
    Trust trust = new Trust(Math.log(9), Map.of());
    assertEquals(0.9, trust.in(evidence(40, 60)), 1e-12);
  }

  /** Log odds of 2, and a rival e-fold nearer than its scale of 15 allows: 2 - 4/e. */
  @Test
  void aSignAddsItsWeightToTheLogOdds() {
    Trust trust = new Trust(2, Map.of(Sign.WORD, -4.0));
    double logOdds = 2 - 4 / Math.E;
    assertEquals(
        1 / (1 + Math.exp(-logOdds)),
        trust.in(evidence(40, 60, new Evidence.Rival(Likeness.WORD, 15))),
        1e-12);
  }

  @ParameterizedTest
  @EnumSource(Likeness.class)
  void theNearerARivalTheLessItIsTrusted(Likeness likeness) {
    double before = trust(evidence(50, 100));
    for (double behind : new double[] {60, 30, 10, 1}) {
      double now = trust(evidence(50, 100, new Evidence.Rival(likeness, behind)));
      assertTrue(now < before, likeness + " " + behind + " behind: " + now + " after " + before);
      before = now;
    }
  }

  @Test
  void whatFitsBadlyIsTrustedLessAndMoreSoInNoise() {
    double quiet = logOdds(evidence(50, 100)) - logOdds(evidence(50, 0));
    double noisy = logOdds(evidence(12, 100)) - logOdds(evidence(12, 0));
    assertTrue(0 < quiet && quiet < noisy, quiet + " in the quiet, " + noisy + " in noise");
  }

  private static double logOdds(Evidence evidence) {
    double trust = trust(evidence);
    return Math.log(trust / (1 - trust));
  }

  @Test
  void evidenceIsReadOffTheHearing() {
    Reading best =
        new Reading(List.of(new Word("fifty", 0, 400, 30), new Word("mils", 400, 600, -60)), -900);
    Reading rival =
        new Reading(
            List.of(new Word("fifteen", 0, 400, 20), new Word("mils", 400, 600, -60)), -912);
    Evidence evidence =
        Evidence.of(
            new Hearing(
                List.of(best, rival),
                -1000,
                true,
                new LevelReport(-20, -45, 25, false),
                new Clip(new short[32_000], 0)));

    assertEquals(
        new Evidence(
            List.of("fifty", "mils"),
            List.of(new Evidence.Rival(Likeness.TEEN_FOR_TEN, 12)),
            0,
            -60,
            -60,
            50,
            true,
            25),
        evidence);
  }
}
