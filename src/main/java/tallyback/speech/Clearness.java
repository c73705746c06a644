package tallyback.speech;

import java.util.List;
import tallyback.audio.SpeechBands;

/**
 * How clear speech is, whatever its words: the probability that the best reading is right, by how
 * far the speech stands out of the noise band by band ({@link SpeechBands#prominenceDb}) and by
 * nothing else. A logistic regression, learned from hearings of the tuning voices in the tuning
 * noises; of all that was tried (level, ratio of speech to noise, noise in the gaps, length) this
 * alone told about as much as all together. The bench prints that, and how far it can be believed
 * on other voices and noises: {@code ClearnessFit}.
 */
public final class Clearness {

  /**
   * Less clear than this, nothing is noted or asked about: of what was said so, one utterance in
   * eight would have been noted right, and more than half of the questions about the others would
   * have offered nothing that was said.
   */
  public static final double ENOUGH = 0.60;

  /** As clear as this it is again after it was not. */
  public static final double ENOUGH_AGAIN = 0.75;

  private static final double BASE = -3.00;
  private static final double PER_DB = 0.342;

  /** To stand out by more than this makes no difference any more. */
  public static final double MOST_DB = 16;

  /**
   * The loud moments of the tuning voices in each band, brought to a speech level of -26 dB of full
   * scale, as into a microphone that is set up well.
   */
  private static final List<Double> USUAL_SPEECH_DB =
      List.of(
          12.6, 9.5, 12.6, 9.6, 3.4, -2.0, -1.3, -0.7, -3.7, -6.9, -11.0, -7.4, -8.5, -8.7, -8.2,
          -11.1, -14.3, -16.5, -19.2, -15.8);

  private Clearness() {}

  /** How clear an utterance is, 0 to 1. */
  public static double of(SpeechBands utterance) {
    return at(utterance.prominenceDb());
  }

  /** How clear speech is that stands out of the noise so far, in dB. */
  public static double at(double prominenceDb) {
    return 1 / (1 + Math.exp(-(BASE + PER_DB * Math.min(MOST_DB, prominenceDb))));
  }

  /** How loud speech usually is in each band, for as long as nobody has spoken. */
  public static List<Double> usualSpeechDb() {
    return USUAL_SPEECH_DB;
  }
}
