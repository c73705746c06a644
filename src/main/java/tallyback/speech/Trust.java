package tallyback.speech;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * How likely it is that all of a reading is right: a logistic regression (D. R. Cox, <cite>The
 * regression analysis of binary sequences</cite>, Journal of the Royal Statistical Society B 20,
 * 1958) on the {@link Sign}s of its evidence. The weights were learned from hearings of the tuning
 * voices, in the quiet and in the tuning noises, of talk that is no entry, and of number strings by
 * half of the real speakers, and checked with each voice left out in turn; the bench prints both
 * and how well the probabilities keep on other voices.
 *
 * <p>Thread rule: immutable; share freely.
 *
 * @param base log odds of a reading without any sign
 * @param weights what is added to the log odds by each sign
 */
public record Trust(double base, Map<Sign, Double> weights) {

  /** Copies the weights. */
  public Trust {
    // In the order of the signs: another order of adding gives another last digit.
    Map<Sign, Double> ordered = new EnumMap<>(Sign.class);
    ordered.putAll(weights);
    weights = Collections.unmodifiableMap(ordered);
  }

  /**
   * The learned weights.
   *
   * @return the defaults
   */
  public static Trust defaults() {
    return Learned.TRUST;
  }

  /**
   * Works it out.
   *
   * @param evidence of a hearing
   * @return the probability that its best reading means what was said, 0 to 1
   */
  public double in(Evidence evidence) {
    double logOdds = base;
    for (Map.Entry<Sign, Double> weight : weights.entrySet()) {
      logOdds += weight.getValue() * weight.getKey().in(evidence);
    }
    return 1 / (1 + Math.exp(-logOdds));
  }

  private static final class Learned {

    static final Trust TRUST = trust();

    private Learned() {}

    private static Trust trust() {
      Map<Sign, Double> weights = new EnumMap<>(Sign.class);
      weights.put(Sign.LONGER, -3.56);
      weights.put(Sign.FOLLOW_ON, -1.31);
      weights.put(Sign.FOLLOW_ON_IN_NOISE, -1.27);
      weights.put(Sign.WORD, -0.80);
      weights.put(Sign.WORD_FARTHER, -2.91);
      weights.put(Sign.NUMBER, -0.97);
      weights.put(Sign.NUMBER_FARTHER, -3.42);
      weights.put(Sign.TEEN_HEARD, -3.10);
      weights.put(Sign.TEN_HEARD, -1.09);
      weights.put(Sign.TEN_HEARD_FARTHER, -5.66);
      weights.put(Sign.NOISE, 0.65);
      weights.put(Sign.UNEXPLAINED, 0.40);
      weights.put(Sign.UNEXPLAINED_IN_NOISE, -0.71);
      weights.put(Sign.BAD_FIT, -1.07);
      weights.put(Sign.BAD_FIT_IN_NOISE, -0.68);
      weights.put(Sign.BAD_WORD, -0.05);
      weights.put(Sign.NEAR_IN_NOISE, -1.57);
      weights.put(Sign.CONTESTED, -0.71);
      weights.put(Sign.SHORT, -0.20);
      weights.put(Sign.NUMBERS, -0.56);
      return new Trust(5.04, weights);
    }
  }
}
