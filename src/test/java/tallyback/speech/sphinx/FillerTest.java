package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.audio.TestClips;

/** The filler must be worth what its phones are worth: too little, and talk becomes entries. */
class FillerTest {

  private static final double PHONE_PRICE = Math.log(1e-3);

  private final PhoneModels models = load();
  private final Features features = new Features(models);
  private final Filler filler = new Filler(models, LibraryMath.fromNaturalLog(PHONE_PRICE));

  private static PhoneModels load() {
    LibraryLog.quieten();
    return PhoneModels.load();
  }

  /**
   * The sum of each frame's best senone of any single phone: no row of phones can be worth more.
   */
  private double bound(List<TiedMixtures.Frame> frames) {
    double sum = 0;
    for (TiedMixtures.Frame frame : frames) {
      float best = Float.NEGATIVE_INFINITY;
      for (int senone = 0; senone < PHONES * STATES_PER_PHONE; senone++) {
        best = Math.max(best, models.mixtures().score(frame, senone));
      }
      sum += LibraryMath.toNaturalLog(best);
    }
    return sum;
  }

  private static final int PHONES = 42;
  private static final int STATES_PER_PHONE = 3;

  @Test
  void aSilenceIsOnePhoneAndCostsNoMoreThanStayingInIt() {
    Random hiss = new Random(3);
    short[] samples = new short[2 * Clip.SAMPLE_RATE_HZ];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) Math.round(6 * hiss.nextGaussian());
    }
    List<TiedMixtures.Frame> frames = features.of(new Clip(samples, 0));
    double score = LibraryMath.toNaturalLog(filler.best(frames).score());
    double bound = bound(frames);
    assertTrue(score <= bound, score + " above " + bound);
    assertTrue(score > bound - 20 - 0.8 * frames.size(), score + " far below " + bound);
  }

  @Test
  void aClipIsWorthTheSameFromBothEndsAndNoLessThanAnyTwoParts() {
    List<TiedMixtures.Frame> frames = features.of(TestClips.all().get(1).clip());
    float whole = filler.best(frames).score();
    float[] upTo = filler.upTo(frames);
    float[] from = filler.from(frames);
    float rounding = Math.abs(whole) * 1e-5f;
    assertEquals(whole, upTo[frames.size()], rounding);
    assertEquals(whole, from[0], rounding);
    float best = Float.NEGATIVE_INFINITY;
    for (int cut = 1; cut < frames.size(); cut++) {
      assertTrue(upTo[cut] + from[cut] <= whole + rounding, "cut at " + cut);
      best = Math.max(best, upTo[cut] + from[cut]);
    }
    assertEquals(whole, best, rounding, "the best row is the best parts put together");
  }

  @Test
  void speechIsWorthNearlyAsMuchAsItsBestPhones() {
    for (TestClips.Spoken spoken : TestClips.all()) {
      List<TiedMixtures.Frame> frames = features.of(spoken.clip());
      BestPath best = filler.best(frames);
      double score = LibraryMath.toNaturalLog(best.score());
      double bound = bound(frames);
      assertTrue(score <= bound, score + " above " + bound);
      assertTrue(
          score > bound - 5.0 * frames.size(), spoken + ": " + (bound - score) / frames.size());
      assertEquals(
          score,
          LibraryMath.toNaturalLog(best.scoreOver(0, frames.size())),
          10,
          "grows to the end");
    }
  }
}
