package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;

import edu.cmu.sphinx.frontend.FloatData;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.Senone;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.audio.TestClips;

/** Our scorer against the library's own. */
class TiedMixturesTest {

  @Test
  void agreesWithTheLibraryOnEveryFrameOfAClip() {
    LibraryLog.quieten();
    PhoneModels models = PhoneModels.load();
    List<TiedMixtures.Frame> frames = new Features(models).of(TestClips.all().get(0).clip());
    Random random = new Random(5);
    int senones = models.loader().getSenonePool().size();
    for (int i = 0; i < frames.size(); i += 3) {
      FloatData libraryFrame = new FloatData(frames.get(i).features(), 16_000, 1_000_000L + i);
      for (int round = 0; round < 40; round++) {
        int id = random.nextInt(senones);
        Senone senone = models.loader().getSenonePool().get(id);
        double expected = LibraryMath.toNaturalLog(senone.getScore(libraryFrame));
        double actual = LibraryMath.toNaturalLog(models.mixtures().score(frames.get(i), id));
        assertEquals(expected, actual, 0.02, "frame " + i + " senone " + id);
      }
    }
  }
}
