package tallyback.speech;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Judges by how likely it is that all of the reading is right. What was contested is asked about
 * whatever its probability: two searches that disagree are the plainest sign that one of them is
 * wrong.
 *
 * @param trust works the probability out
 * @param least what is less likely to be right than this is asked about, by how far the speech is
 *     above the noise: the probabilities were learned from few noises, and a new one is believed
 *     too easily. From most noise to least, at least one; in proportion between two, and outside as
 *     at the nearest
 * @param leastToAsk what would be less likely to be right than this even if it had no rivals is
 *     rejected: mostly nobody said anything like it
 * @param leastLead asked about is also what a rival comes nearer than this, natural log of the
 *     likelihood ratio, by what it differs in: where the sound itself leaves a choice, no other
 *     sign may settle it
 * @param leastLeadInNoise the same below 30 dB of speech to noise, where the model is matched to it
 * @param leastWordFit so is a reading with a word that fits worse than this, see {@link Word#fit}:
 *     something else was said in its place
 * @param leastTellingWordFit so is one with such a word that says what, where or how many, where
 *     there is no noise to blame for a bad fit, see {@link Reading#worstTellingWordFit}
 * @param leastFit so is a reading that fits worse than this as a whole, see {@link Reading#fit},
 *     where there is no noise to blame: a voice that the model knows badly
 * @param leastOverFiller so is what explains the clip as a whole worse than this, see {@link
 *     Evidence#overFiller}: more was said than the reading holds
 */
public record ByTrust(
    Trust trust,
    List<At> least,
    double leastToAsk,
    Map<Likeness, Double> leastLead,
    Map<Likeness, Double> leastLeadInNoise,
    double leastWordFit,
    double leastTellingWordFit,
    double leastFit,
    double leastOverFiller)
    implements Judge {

  /**
   * A limit at a ratio of speech to noise.
   *
   * @param snrDb the ratio
   * @param least the limit there
   */
  public record At(double snrDb, double least) {}

  /** Copies the lists. */
  public ByTrust {
    least = List.copyOf(least);
    leastLead = inOrder(leastLead);
    leastLeadInNoise = inOrder(leastLeadInNoise);
  }

  /** Told in the same order by every run: the bench knows its settings by it. */
  private static Map<Likeness, Double> inOrder(Map<Likeness, Double> leads) {
    Map<Likeness, Double> ordered = new EnumMap<>(Likeness.class);
    ordered.putAll(leads);
    return Collections.unmodifiableMap(ordered);
  }

  /** Some noise is in nearly every clip below this, and lowers the fit of any voice. */
  private static final double NOISELESS_DB = 40;

  private static final double NOISY_DB = 30;

  /**
   * What it is worth that a second recogniser came to the same: so many times the odds of being
   * right. A choice of our own, tried with one of the same family of models, which makes more of
   * the same mistakes than another would.
   */
  private static final double ODDS_OF_TWO = 5;

  /**
   * The tuned limits.
   *
   * @return the defaults
   */
  public static ByTrust defaults() {
    return new ByTrust(
        Trust.defaults(),
        List.of(new At(10, 0.985), new At(18, 0.96), new At(30, 0.95), new At(40, 0.93)),
        0.20,
        Map.of(
            Likeness.WORD, 20.0,
            Likeness.LONGER, 20.0,
            Likeness.OH_DROPPED, 32.0,
            Likeness.FOLLOW_ON, 20.0,
            Likeness.NUMBER, 26.0,
            Likeness.NEAR_DIGIT, 30.0,
            Likeness.NOUGHT_FOR_NINE, 50.0,
            Likeness.TEEN_FOR_TEN, 40.0,
            Likeness.TEN_FOR_TEEN, 6.0),
        Map.of(
            Likeness.WORD, 60.0,
            Likeness.LONGER, 20.0,
            Likeness.OH_DROPPED, 32.0,
            Likeness.FOLLOW_ON, 40.0,
            Likeness.NUMBER, 45.0,
            Likeness.NEAR_DIGIT, 45.0,
            Likeness.NOUGHT_FOR_NINE, 50.0,
            Likeness.TEEN_FOR_TEN, 40.0,
            Likeness.TEN_FOR_TEEN, 20.0),
        -200,
        -110,
        -20,
        -150);
  }

  @Override
  public boolean isClear(Hearing hearing) {
    return isClear(Evidence.of(hearing));
  }

  /**
   * Whether what the evidence is of may be noted without asking.
   *
   * @param evidence of a hearing
   * @return false for what must be asked
   */
  public boolean isClear(Evidence evidence) {
    boolean isNoiseless = evidence.snrDb() >= NOISELESS_DB;
    return trust.in(evidence) >= leastAt(evidence.snrDb())
        && !evidence.contested()
        && evidence.worstWordFit() >= leastWordFit
        && (evidence.worstTellingWordFit() >= leastTellingWordFit || !isNoiseless)
        && (evidence.fit() >= leastFit || !isNoiseless)
        && evidence.overFiller() >= leastOverFiller
        && !hasNearRival(evidence);
  }

  @Override
  public boolean isClearToTwo(Hearing hearing, SecondKind kind) {
    return isClearToTwo(Evidence.of(hearing), kind);
  }

  /**
   * Whether what the evidence is of may be noted where a second recogniser came to the same. How
   * badly a word fits counts only as far as the probability knows of it: the other has heard it,
   * too. A rival that is too near, and what two searches of the first one disagree about, is asked:
   * where the sound itself leaves a choice, two recognisers make the same mistake. So they do in
   * noise, where their agreement settles nothing. One of another kind doesn't: then the odds alone
   * decide, which know of rivals.
   *
   * @param evidence of a hearing
   * @param kind what the second recogniser has in common with the first
   * @return false for what must be asked
   */
  public boolean isClearToTwo(Evidence evidence, SecondKind kind) {
    double alone = trust.in(evidence);
    double odds = ODDS_OF_TWO * alone;
    return isClear(evidence)
        || (odds / (odds + 1 - alone) >= leastAt(evidence.snrDb())
            && (kind == SecondKind.OTHER
                || (evidence.snrDb() >= NOISY_DB
                    && !evidence.contested()
                    && !hasNearRival(evidence))));
  }

  private boolean hasNearRival(Evidence evidence) {
    Map<Likeness, Double> leads = evidence.snrDb() < NOISY_DB ? leastLeadInNoise : leastLead;
    return evidence.rivals().stream()
        .anyMatch(rival -> rival.behind() < leads.getOrDefault(rival.likeness(), 0.0));
  }

  @Override
  public boolean isWorthAsking(Hearing hearing) {
    return isWorthAsking(Evidence.of(hearing));
  }

  /**
   * Whether what the evidence is of may be asked about.
   *
   * @param evidence of a hearing
   * @return false for what is rejected
   */
  public boolean isWorthAsking(Evidence evidence) {
    return trust.in(evidence.withoutRivals()) >= leastToAsk;
  }

  /** The limit at a ratio of speech to noise in dB. */
  public double leastAt(double snrDb) {
    At below = least.get(0);
    for (At above : least) {
      if (snrDb <= above.snrDb()) {
        double width = above.snrDb() - below.snrDb();
        double share = width == 0 ? 1 : Math.max(0, (snrDb - below.snrDb()) / width);
        return below.least() + share * (above.least() - below.least());
      }
      below = above;
    }
    return below.least();
  }
}
