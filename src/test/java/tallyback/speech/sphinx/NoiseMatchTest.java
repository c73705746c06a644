package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;

class NoiseMatchTest {

  private static PhoneModels models;
  private static Features features;
  private static Filler filler;

  @BeforeAll
  static void load() {
    models = PhoneModels.load();
    features = new Features(models);
    filler = new Filler(models, LibraryMath.fromNaturalLog(Math.log(1e-3)));
  }

  private static NoiseMatch match() {
    return new NoiseMatch(models.mixtures(), filler, models.cepstrum(), models.pauseCodebook());
  }

  /** The bundled clip with hiss on it. */
  private static Clip hissing(double deviation) {
    Random random = new Random(4);
    short[] samples = Priming.clip().samples();
    for (int i = 0; i < samples.length; i++) {
      samples[i] += (short) Math.round(deviation * random.nextGaussian());
    }
    return new Clip(samples, 0);
  }

  @Test
  void aModelMatchedToTheNoiseExplainsItBetter() {
    List<TiedMixtures.Frame> frames = features.of(hissing(400));
    float before = filler.best(frames).score();
    NoiseMatch match = match();

    match.matchToMargins(frames);

    float after = filler.best(frames).score();
    match.undo();
    assertTrue(
        LibraryMath.toNaturalLog(after) > LibraryMath.toNaturalLog(before) + frames.size(),
        () -> "log likelihood per frame must rise by one at least: " + before + ", " + after);
  }

  @Test
  void undoneItGivesTheSameScoresAsBefore() {
    Clip clip = Priming.clip();
    float before = filler.best(features.of(clip)).score();
    NoiseMatch match = match();

    match.matchToMargins(features.of(hissing(1000)));
    match.undo();

    assertEquals(before, filler.best(features.of(clip)).score());
  }

  @Test
  void theSameClipIsMatchedTheSameWhateverCameBefore() {
    NoiseMatch match = match();
    List<TiedMixtures.Frame> first = features.of(hissing(300));
    match.matchToMargins(first);
    float alone = filler.best(first).score();
    match.matchToMargins(features.of(hissing(3000)));
    List<TiedMixtures.Frame> again = features.of(hissing(300));
    match.matchToMargins(again);

    assertEquals(alone, filler.best(again).score());
    match.undo();
  }

  @Test
  void soundThatIsSpeechFromItsFirstToItsLastFrameIsMatchedToo() {
    short[] samples = hissing(300).samples();
    short[] middle = java.util.Arrays.copyOfRange(samples, samples.length / 4, samples.length / 2);
    List<TiedMixtures.Frame> frames = features.of(new Clip(middle, 0));
    NoiseMatch match = match();

    match.matchToMargins(frames);

    assertTrue(Float.isFinite(filler.best(frames).score()));
    match.undo();
  }

  /** Noise comes after the speech has begun, and goes before it ends. */
  @Test
  void noiseBetweenQuietMarginsIsFoundInTheGapsOfTheSpeech() {
    short[] quiet = Priming.clip().samples();
    short[] samples = hissing(400).samples();
    int margin = 3_200;
    System.arraycopy(quiet, 0, samples, 0, margin);
    System.arraycopy(quiet, quiet.length - margin, samples, samples.length - margin, margin);
    Clip swelling = new Clip(samples, 0);
    NoiseMatch match = match();
    List<TiedMixtures.Frame> byMargins = features.of(swelling);
    match.matchToMargins(byMargins);
    double margins = scoreOfTheSpeech(byMargins);
    List<TiedMixtures.Frame> byGaps = features.of(swelling);

    match.matchToGaps(byGaps);

    double gaps = scoreOfTheSpeech(byGaps);
    match.undo();
    assertTrue(gaps > margins + byGaps.size(), margins + " by the margins, " + gaps);
  }

  private double scoreOfTheSpeech(List<TiedMixtures.Frame> frames) {
    return LibraryMath.toNaturalLog(filler.best(frames).scoreOver(20, frames.size() - 20));
  }

  /** Checked against the same clip before the hiss was put on it. */
  @Test
  void differencesTakenAnewLieNearerToThoseOfTheCleanSpeech() {
    List<TiedMixtures.Frame> clean = features.of(Priming.clip());
    List<TiedMixtures.Frame> frames = features.of(hissing(400));
    int size = models.cepstrum().coefficients();
    NoiseMatch match = match();
    match.matchToMargins(frames);
    double before = distance(clean, frames, size);

    match.retakeDifferences(frames);

    double after = distance(clean, frames, size);
    match.undo();
    assertTrue(after < 0.9 * before, before + " before, " + after + " after");
  }

  /** Mean square of how far the differences, which stand behind the cepstra, are apart. */
  private static double distance(
      List<TiedMixtures.Frame> some, List<TiedMixtures.Frame> others, int from) {
    double sum = 0;
    int count = 0;
    for (int t = 0; t < some.size(); t++) {
      for (int i = from; i < some.get(t).features().length; i++) {
        double apart = some.get(t).features()[i] - others.get(t).features()[i];
        sum += apart * apart;
        count++;
      }
    }
    return sum / count;
  }

  /** With next to no noise the estimate is the sound itself, but for the smoothing. */
  @Test
  void withoutNoiseTheDifferencesStayNearlyAsTheyWere() {
    List<TiedMixtures.Frame> clean = features.of(Priming.clip());
    List<TiedMixtures.Frame> frames = features.of(Priming.clip());
    int size = models.cepstrum().coefficients();
    List<TiedMixtures.Frame> still = features.of(hissing(0));
    double spread = distance(clean, features.of(hissing(4000)), size);
    NoiseMatch match = match();
    match.matchToMargins(frames);

    match.retakeDifferences(frames);
    match.undo();

    assertEquals(0, distance(clean, still, size), "the same clip twice");
    double apart = distance(clean, frames, size);
    assertTrue(apart < 0.25 * spread, apart + " apart; loud hiss " + spread);
  }
}
