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
import java.util.Iterator;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

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

  /** A model that is being read for the next recogniser. */
  private static final AtomicReference<@Nullable FutureTask<PhoneModels>> AHEAD =
      new AtomicReference<>();

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

  /** Starts reading a model for the next to call {@link #load}. */
  static void loadAhead() {
    FutureTask<PhoneModels> task = new FutureTask<>(PhoneModels::read);
    if (AHEAD.compareAndSet(null, task)) {
      Thread reader = new Thread(task, "acoustic-model");
      reader.setDaemon(true);
      reader.start();
    }
  }

  /** A model of its own for the caller; reading it is the longest part of opening a recogniser. */
  static PhoneModels load() {
    FutureTask<PhoneModels> ahead = AHEAD.getAndSet(null);
    if (ahead == null) {
      return read();
    }
    try {
      return ahead.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(
          "interrupted while the acoustic model was read; open again", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException(
          "cannot read the acoustic model from the jar; build it again", e);
    }
  }

  private static PhoneModels read() {
    LibraryLog.quieten();
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

  /** Which codebooks are those of phones, and not of pauses and noises. */
  boolean[] codebooksOfSpeech() {
    boolean[] speech = new boolean[mixtures.codebooks()];
    for (Iterator<Unit> all = model.getContextIndependentUnitIterator(); all.hasNext(); ) {
      Unit unit = all.next();
      HMM hmm = model.lookupNearestHMM(unit, HMMPosition.UNDEFINED, false);
      int senone = (int) hmm.getInitialState().getMixtureId();
      speech[mixtures.codebookOf(senone)] = !unit.isFiller();
    }
    return speech;
  }

  /** How the model's front end makes a cepstrum of a spectrum, by the model's own settings. */
  MelCepstrum cepstrum() {
    return new MelCepstrum(setting("-nfilt"), loader.getVectorLength()[0], setting("-lifter"));
  }

  private int setting(String name) {
    return Integer.parseInt(loader.getProperties().getProperty(name));
  }

  Unit phone(String name) {
    return units.getUnit(name);
  }

  Unit silence() {
    return UnitManager.SILENCE;
  }

  /** The Gaussians of pauses. */
  int pauseCodebook() {
    return mixtures.codebookOf((int) silenceModel().getInitialState().getMixtureId());
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
