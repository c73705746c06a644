package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMPosition;
import edu.cmu.sphinx.linguist.acoustic.LeftRightContext;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import edu.cmu.sphinx.linguist.acoustic.UnitManager;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.Sphinx3Loader;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.TiedStateAcousticModel;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URL;
import java.util.HashMap;
import java.util.Map;

/**
 * The acoustic model of one recogniser: how each phone sounds between its neighbours.
 *
 * <p>Each recogniser has one of its own and shares it between its listening modes only: adapting a
 * model to noise changes it in place.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class PhoneModels {

  private static final String MODEL_FOLDER = "/edu/cmu/sphinx/models/en-us/en-us/";

  /** The library's own values for this model. */
  private static final float MIXTURE_WEIGHT_FLOOR = 1e-7f;

  private static final float VARIANCE_FLOOR = 1e-4f;
  private static final int TOP_GAUSSIANS = 4;

  private record Triphone(Unit phone, Unit left, Unit right, HMMPosition position) {}

  private final UnitManager units = new UnitManager();
  private final Sphinx3Loader loader;
  private final TiedStateAcousticModel model;
  private final TiedMixtures mixtures;
  private final Map<Triphone, HMM> hmms = new HashMap<>();

  private PhoneModels(URL folder) throws IOException {
    loader =
        new Sphinx3Loader(
            folder, units, 0, MIXTURE_WEIGHT_FLOOR, VARIANCE_FLOOR, TOP_GAUSSIANS, true);
    model = new TiedStateAcousticModel(loader, units, true);
    model.allocate();
    mixtures = TiedMixtures.of(loader);
  }

  /** Reads the model from the jar; this is the longest part of opening a recogniser. */
  static PhoneModels load() {
    LibraryMath.prepare();
    URL folder = PhoneModels.class.getResource(MODEL_FOLDER);
    if (folder == null) {
      throw new IllegalStateException(
          "the jar lacks the acoustic model " + MODEL_FOLDER + "; build it again");
    }
    try {
      return new PhoneModels(folder);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read the acoustic model from the jar", e);
    }
  }

  Sphinx3Loader loader() {
    return loader;
  }

  TiedStateAcousticModel model() {
    return model;
  }

  TiedMixtures mixtures() {
    return mixtures;
  }

  Unit phone(String name) {
    return units.getUnit(name);
  }

  Unit silence() {
    return UnitManager.SILENCE;
  }

  HMM silenceModel() {
    return model.lookupNearestHMM(silence(), HMMPosition.UNDEFINED, false);
  }

  HMM triphone(Unit phone, Unit left, Unit right, HMMPosition position) {
    return hmms.computeIfAbsent(
        new Triphone(phone, left, right, position),
        key -> {
          LeftRightContext context = LeftRightContext.get(new Unit[] {left}, new Unit[] {right});
          Unit inContext = units.getUnit(phone.getName(), false, context);
          return model.lookupNearestHMM(inContext, position, false);
        });
  }
}
