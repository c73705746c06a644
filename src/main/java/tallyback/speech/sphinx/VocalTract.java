package tallyback.speech.sphinx;

import edu.cmu.sphinx.frontend.BaseDataProcessor;
import edu.cmu.sphinx.frontend.Data;
import edu.cmu.sphinx.frontend.DoubleData;
import org.jspecify.annotations.Nullable;

/**
 * Hears a voice as if its vocal tract were longer: squeezes the spectrum so that what lay at a
 * frequency comes to lie below it. The model was made from many more long tracts than short ones.
 * Near the top the spectrum is stretched again, so that it ends where it did.
 *
 * <p>After L. Lee, R. Rose, <cite>A frequency warping approach to speaker normalization</cite>,
 * IEEE Transactions on Speech and Audio Processing 6 (1), 1998.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class VocalTract extends BaseDataProcessor {

  /** So much of the spectrum, before it is squeezed, is squeezed evenly. */
  private static final double EVEN_SHARE = 0.85;

  private double squeeze = 1;

  /**
   * Sets how much the spectrum is squeezed.
   *
   * @param factor 1 for not at all, 1.1 for a tract that is a tenth shorter than usual
   */
  void squeeze(double factor) {
    if (!(factor >= 1 && factor < 1 / EVEN_SHARE)) {
      throw new IllegalArgumentException(
          "expected a factor from 1 to below " + 1 / EVEN_SHARE + "; found " + factor);
    }
    squeeze = factor;
  }

  @Override
  public @Nullable Data getData() {
    Data data = getPredecessor().getData();
    if (squeeze != 1 && data instanceof DoubleData spectrum) {
      squeeze(spectrum.getValues());
    }
    return data;
  }

  private void squeeze(double[] spectrum) {
    double[] heard = spectrum.clone();
    int last = spectrum.length - 1;
    double knee = EVEN_SHARE * last / squeeze;
    double above = (last - EVEN_SHARE * last) / (last - knee);
    for (int i = 0; i < last; i++) {
      double from = i <= knee ? i * squeeze : EVEN_SHARE * last + (i - knee) * above;
      int below = (int) from;
      double share = from - below;
      spectrum[i] = heard[below] * (1 - share) + heard[below + 1] * share;
    }
  }
}
