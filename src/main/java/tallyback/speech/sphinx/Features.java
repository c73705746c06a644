package tallyback.speech.sphinx;

import edu.cmu.sphinx.frontend.AutoCepstrum;
import edu.cmu.sphinx.frontend.BaseDataProcessor;
import edu.cmu.sphinx.frontend.Data;
import edu.cmu.sphinx.frontend.DataEndSignal;
import edu.cmu.sphinx.frontend.DataProcessor;
import edu.cmu.sphinx.frontend.DataStartSignal;
import edu.cmu.sphinx.frontend.DoubleData;
import edu.cmu.sphinx.frontend.FloatData;
import edu.cmu.sphinx.frontend.FrontEnd;
import edu.cmu.sphinx.frontend.feature.BatchCMN;
import edu.cmu.sphinx.frontend.feature.DeltasFeatureExtractor;
import edu.cmu.sphinx.frontend.feature.FeatureTransform;
import edu.cmu.sphinx.frontend.filter.Preemphasizer;
import edu.cmu.sphinx.frontend.transform.DiscreteFourierTransform;
import edu.cmu.sphinx.frontend.window.RaisedCosineWindower;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;

/**
 * Turns a clip into the feature frames that the acoustic model scores, one each 10 ms.
 *
 * <p>The frames are made once and may then be decoded against several graphs. The mean is taken
 * over the whole clip, so that what was heard before has no influence.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class Features {

  static final int FRAME_SHIFT_MS = 10;

  private static final double PRE_EMPHASIS = 0.97;
  private static final double HAMMING = 0.46;
  private static final float WINDOW_MS = 25.625f;
  private static final int DELTA_WINDOW = 3;
  private static final double FULL_SCALE = 32_768;

  private final SamplesSource source = new SamplesSource();
  private final Listener cepstra = new Listener();
  private final VocalTract tract = new VocalTract();
  private final FrontEnd frontEnd;
  private final TiedMixtures mixtures;

  Features(PhoneModels models) {
    List<DataProcessor> pipeline = new ArrayList<>();
    pipeline.add(source);
    pipeline.add(new Preemphasizer(PRE_EMPHASIS));
    pipeline.add(new RaisedCosineWindower(HAMMING, WINDOW_MS, FRAME_SHIFT_MS));
    pipeline.add(new DiscreteFourierTransform(-1, false));
    pipeline.add(tract);
    pipeline.add(cepstrum(models));
    pipeline.add(cepstra);
    pipeline.add(new BatchCMN());
    pipeline.add(new DeltasFeatureExtractor(DELTA_WINDOW));
    pipeline.add(new FeatureTransform(models.loader()));
    frontEnd = new FrontEnd(pipeline);
    mixtures = models.mixtures();
  }

  private static AutoCepstrum cepstrum(PhoneModels models) {
    try {
      return new AutoCepstrum(models.loader());
    } catch (IOException e) {
      throw new UncheckedIOException(
          "cannot read the acoustic model's front end settings from the jar", e);
    }
  }

  /**
   * From now on hears every clip as if its voice had a longer vocal tract.
   *
   * @param factor how much longer; 1 for as it is
   */
  void lengthenTract(double factor) {
    tract.squeeze(factor);
  }

  /** The frames of a clip; none when it is shorter than one window. */
  List<TiedMixtures.Frame> of(Clip clip) {
    return with(clip, 1);
  }

  /**
   * The frames of a clip with white noise under it.
   *
   * @param noiseDbfs its level in dB relative to full scale
   */
  List<TiedMixtures.Frame> of(Clip clip, double noiseDbfs) {
    // What is spread evenly between -1 and 1 has a mean power of a third.
    return with(clip, Math.max(1, FULL_SCALE * Math.sqrt(3) * Math.pow(10, noiseDbfs / 20)));
  }

  private List<TiedMixtures.Frame> with(Clip clip, double whisper) {
    source.restart(clip, whisper);
    // Frames too faint for the mean stay behind in the library's normaliser and would lead the next
    // clip.
    frontEnd.initialize();
    cepstra.restart();
    List<TiedMixtures.Frame> frames = new ArrayList<>();
    for (Data data = frontEnd.getData();
        data != null && !(data instanceof DataEndSignal);
        data = frontEnd.getData()) {
      if (!(data instanceof DataStartSignal)) {
        frames.add(
            mixtures.frame(
                FloatData.toFloatData(data).getValues(), cepstra.seen.get(frames.size())));
      }
    }
    return frames;
  }

  /** Keeps each cepstrum as it passes: the normaliser behind it changes them in place. */
  private static final class Listener extends BaseDataProcessor {

    private final List<double[]> seen = new ArrayList<>();

    void restart() {
      seen.clear();
    }

    @Override
    public @Nullable Data getData() {
      Data data = getPredecessor().getData();
      if (data instanceof DoubleData cepstrum) {
        seen.add(cepstrum.getValues().clone());
      }
      return data;
    }
  }

  /**
   * Feeds a clip into the front end, with a whisper of noise so that digital silence has a
   * logarithm. The noise comes from a fixed sequence: the same clip always gives the same frames.
   */
  private static final class SamplesSource extends BaseDataProcessor {

    private static final int BLOCK = 1600;

    private Clip clip = new Clip(new short[0], 0);
    private int position;
    private boolean started;
    private boolean ended;
    private int dither;
    private double whisper = 1;

    void restart(Clip next, double loudness) {
      clip = next;
      whisper = loudness;
      position = 0;
      started = false;
      ended = false;
      dither = 1;
    }

    @Override
    public @Nullable Data getData() {
      if (!started) {
        started = true;
        return new DataStartSignal(Clip.SAMPLE_RATE_HZ);
      }
      if (position < clip.length()) {
        return block();
      }
      if (!ended) {
        ended = true;
        return new DataEndSignal(clip.durationMs());
      }
      return null;
    }

    private Data block() {
      double[] values = new double[Math.min(BLOCK, clip.length() - position)];
      for (int i = 0; i < values.length; i++) {
        values[i] = clip.sample(position + i) + whisper * nextDither();
      }
      Data block = new DoubleData(values, Clip.SAMPLE_RATE_HZ, position);
      position += values.length;
      return block;
    }

    /**
     * Between -1 and 1 of the smallest step: the linear congruential sequence of Numerical Recipes
     * (1992), section 7.1.
     */
    private double nextDither() {
      dither = dither * 1664525 + 1013904223;
      return dither / -(double) Integer.MIN_VALUE;
    }
  }
}
