package tallyback.speech;

import java.util.function.ToDoubleFunction;
import tallyback.phrase.EntryGrammar;

/**
 * One thing in the evidence that makes a hearing more or less likely to be right, as a number of
 * about 0 (says nothing) to 1. What it is worth stands in {@link Trust}.
 */
public enum Sign {
  /** A longer rival is near. */
  LONGER(evidence -> near(evidence, Sign.LONGER_NEAR, Likeness.LONGER, Likeness.OH_DROPPED)),
  /** A rival that goes on from the entry before, or does not, is near. */
  FOLLOW_ON(evidence -> near(evidence, Sign.LONGER_NEAR, Likeness.FOLLOW_ON)),
  /** Likewise, in noise, and not so near. */
  FOLLOW_ON_IN_NOISE(
      evidence -> noise(evidence) * near(evidence, Sign.FAIRLY_NEAR, Likeness.FOLLOW_ON)),
  /** A rival with another word is near. */
  WORD(evidence -> near(evidence, Sign.VERY_NEAR, Likeness.WORD)),
  /** Likewise, and not so near. */
  WORD_FARTHER(evidence -> near(evidence, Sign.FAIRLY_NEAR, Likeness.WORD)),
  /** A rival with another number is near. */
  NUMBER(
      evidence ->
          near(
              evidence,
              Sign.VERY_NEAR,
              Likeness.NUMBER,
              Likeness.NEAR_DIGIT,
              Likeness.NOUGHT_FOR_NINE)),
  /** Likewise, and not so near. */
  NUMBER_FARTHER(
      evidence ->
          near(
              evidence,
              Sign.FAIRLY_NEAR,
              Likeness.NUMBER,
              Likeness.NEAR_DIGIT,
              Likeness.NOUGHT_FOR_NINE)),
  /** A teen was heard, and the ten is near. */
  TEEN_HEARD(evidence -> near(evidence, Sign.VERY_NEAR, Likeness.TEN_FOR_TEEN)),
  /** A ten was heard, and the teen is near. */
  TEN_HEARD(evidence -> near(evidence, Sign.VERY_NEAR, Likeness.TEEN_FOR_TEN)),
  /** Likewise, and not so near. */
  TEN_HEARD_FARTHER(evidence -> near(evidence, Sign.FAIRLY_NEAR, Likeness.TEEN_FOR_TEN)),
  /** There is noise: from none at 40 dB to 1 at 10 dB. */
  NOISE(evidence -> noise(evidence)),
  /** The whole clip is not explained well: speech that the reading leaves out. */
  UNEXPLAINED(evidence -> within(-evidence.overFiller() / 100, -0.5, 4)),
  /** Likewise, in noise. */
  UNEXPLAINED_IN_NOISE(evidence -> noise(evidence) * within(-evidence.overFiller() / 100, -0.5, 4)),
  /** The words as a whole fit their sound badly. */
  BAD_FIT(evidence -> within((60 - evidence.fit()) / 100, -1, 2)),
  /** Likewise, in noise. */
  BAD_FIT_IN_NOISE(evidence -> noise(evidence) * within((60 - evidence.fit()) / 100, -1, 2)),
  /** One word fits its sound badly. */
  BAD_WORD(evidence -> within(-evidence.worstWordFit() / 200, -0.5, 2)),
  /** A rival is near, in noise. */
  NEAR_IN_NOISE(evidence -> noise(evidence) * nearest(evidence)),
  /** The same sound, searched in another way, was taken for something else. */
  CONTESTED(evidence -> evidence.contested() ? 1 : 0),
  /** There are few words to go by. */
  SHORT(evidence -> Math.max(0, 4 - evidence.words().size()) / 3.0),
  /** There are many numbers to get wrong. */
  NUMBERS(evidence -> evidence.words().stream().filter(EntryGrammar::isNumberWord).count() / 3.0);

  // Natural logs of likelihood ratios at which nearness has fallen to a third.
  private static final double LONGER_NEAR = 12;
  private static final double VERY_NEAR = 15;
  private static final double FAIRLY_NEAR = 45;

  @SuppressWarnings("ImmutableEnumChecker") // functions without state
  private final ToDoubleFunction<Evidence> value;

  Sign(ToDoubleFunction<Evidence> value) {
    this.value = value;
  }

  /**
   * How strong it is.
   *
   * @param evidence of a hearing
   * @return its value
   */
  public double in(Evidence evidence) {
    return value.applyAsDouble(evidence);
  }

  private static double near(Evidence evidence, double scale, Likeness... likenesses) {
    return Math.exp(-Math.max(0, evidence.lead(likenesses)) / scale);
  }

  private static double nearest(Evidence evidence) {
    return Math.max(
        near(evidence, LONGER_NEAR, Likeness.LONGER, Likeness.OH_DROPPED),
        Math.max(
            near(evidence, FAIRLY_NEAR, Likeness.WORD),
            near(
                evidence,
                FAIRLY_NEAR,
                Likeness.NUMBER,
                Likeness.NEAR_DIGIT,
                Likeness.NOUGHT_FOR_NINE)));
  }

  private static double noise(Evidence evidence) {
    return within((40 - evidence.snrDb()) / 30, 0, 1);
  }

  private static double within(double value, double least, double most) {
    return Math.min(most, Math.max(least, value));
  }
}
