package tallyback.speech.sphinx;

import java.util.List;
import tallyback.speech.adapt.NoiseModel;

/**
 * What was learned of one noise: how the Gaussians lie in it, once {@link NoiseMatch} has moved
 * them as far as theory goes. Pauses, which are noise alone, and phones have a map each.
 *
 * <p>Thread rule: immutable.
 */
final class NoiseTransform implements NoiseModel {

  /**
   * What two noises may differ by, as root mean square over the filters of their log ratios to the
   * speech: some 9 dB. Nearer left swelling noise out; tuned.
   */
  private static final double NEAR = 2;

  private final List<Regression.Affine> ofPauses;
  private final List<Regression.Affine> ofPhones;
  private final double[] noiseOverSpeech;
  private final Check check;

  /**
   * What was learned.
   *
   * @param ofPauses by stream
   * @param ofPhones by stream
   * @param noiseOverSpeech log mel spectrum of the noise over that of the speech
   * @param check on what was held back
   */
  NoiseTransform(
      List<Regression.Affine> ofPauses,
      List<Regression.Affine> ofPhones,
      double[] noiseOverSpeech,
      Check check) {
    this.ofPauses = List.copyOf(ofPauses);
    this.ofPhones = List.copyOf(ofPhones);
    this.noiseOverSpeech = noiseOverSpeech.clone();
    this.check = check;
  }

  NoiseTransform checked(Check found) {
    return new NoiseTransform(ofPauses, ofPhones, noiseOverSpeech, found);
  }

  @Override
  public Check check() {
    return check;
  }

  /** Whether a noise is much like this one. */
  boolean isNear(double[] otherOverSpeech) {
    return distance(otherOverSpeech) < NEAR;
  }

  /** How far a noise is from this one; see {@link #NEAR}. */
  double distance(double[] otherOverSpeech) {
    double sum = 0;
    for (int filter = 0; filter < noiseOverSpeech.length; filter++) {
      double off = noiseOverSpeech[filter] - otherOverSpeech[filter];
      sum += off * off;
    }
    return Math.sqrt(sum / noiseOverSpeech.length);
  }

  /** Moves all Gaussians; frames scored before must be forgotten. */
  void move(TiedMixtures mixtures, int pauseCodebook) {
    for (int stream = 0; stream < ofPhones.size(); stream++) {
      int of = stream;
      mixtures.map(
          stream, codebook -> codebook == pauseCodebook ? ofPauses.get(of) : ofPhones.get(of));
    }
  }
}
