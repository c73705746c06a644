package tallyback.speech;

import java.util.Comparator;
import java.util.List;

/**
 * Judges by limits set one by one: made for answers, of which there are too few kinds to learn a
 * {@link Trust} from.
 *
 * <p>Three things make a hearing doubtful: as a whole it explains its sound worse than any row of
 * phones would (speech that is no entry, or noise); one word of it does (something else was said in
 * its place); or another reading of the same grammar with another meaning is almost as likely
 * (fifteen, fifty).
 *
 * <p>The limits were chosen on the tuning voices of the figures and on speech that is no entry, and
 * are checked on other voices.
 *
 * <p>Thread rule: no state; call from anywhere.
 *
 * @param leastFit natural log of the likelihood ratio to the filler per second of speech, below
 *     which is asked
 * @param leastWordFit the same for each single word
 * @param margins how far ahead of its rivals it must be
 * @param noise how much more is wanted when the clip is noisy
 * @param strangeness how much more is wanted of a voice that the model knows badly
 */
public record Doubt(
    double leastFit, double leastWordFit, Margins margins, Noise noise, Strangeness strangeness)
    implements Judge {

  /**
   * What noise adds to the limits: nothing down to a ratio of speech to noise, all of it from
   * another one on, and in between in proportion. Noise makes wrong readings as likely as right
   * ones long before it makes the sound itself suspect.
   *
   * @param quietDb ratio in dB from which on nothing is added
   * @param loudDb ratio in dB below which all is added
   * @param addedFit what {@link Doubt#leastFit} rises by at most
   * @param addedMargin what each of the {@link Doubt#margins} rises by at most
   */
  public record Noise(double quietDb, double loudDb, double addedFit, double addedMargin) {

    /** How much of it applies at a ratio: 0 to 1. */
    double share(double snrDb) {
      return portion((quietDb - snrDb) / (quietDb - loudDb));
    }
  }

  /**
   * What a poor fit adds to the margins. A voice unlike those the model was made from fits badly
   * all through, and then the wrong word often beats the right one by more.
   *
   * @param familiarFit fit from which on nothing is added; see {@link Reading#fit}
   * @param strangeFit fit below which all is added
   * @param addedMargin what each of the {@link Doubt#margins} rises by at most; what {@link Noise}
   *     adds is not added on top, the larger of the two counts
   */
  public record Strangeness(double familiarFit, double strangeFit, double addedMargin) {

    /** How much of it applies at a fit: 0 to 1. */
    double share(double fit) {
      return portion((familiarFit - fit) / (familiarFit - strangeFit));
    }
  }

  private static double portion(double share) {
    return Math.min(1, Math.max(0, share));
  }

  /**
   * The tuned limits.
   *
   * @return the defaults
   */
  public static Doubt defaults() {
    return new Doubt(
        -50, -400, Margins.defaults(), new Noise(40, 25, 50, 20), new Strangeness(40, -20, 20));
  }

  @Override
  public boolean isClear(Hearing hearing) {
    List<Reading> readings = hearing.readings();
    Reading best = readings.get(0);
    double noisy = noise.share(hearing.level().snrDb());
    double lead =
        Math.max(
            noisy * noise.addedMargin(), strangeness.share(best.fit()) * strangeness.addedMargin());
    return best.fit() >= leastFit + noisy * noise.addedFit()
        && worstWord(best) >= leastWordFit
        && readings.stream().skip(1).allMatch(rival -> lead(best, rival) >= lead);
  }

  /** How much further a reading is ahead of a rival than it must be in the quiet. */
  private double lead(Reading best, Reading rival) {
    return best.logScore() - rival.logScore() - margins.between(best.texts(), rival.texts());
  }

  private static double worstWord(Reading reading) {
    return reading.words().stream()
        .map(Word::fit)
        .min(Comparator.naturalOrder())
        .orElse(Double.NEGATIVE_INFINITY);
  }
}
