package tallyback.speech;

import java.util.Map;

/**
 * Judges by how likely it is that all of the reading is right. What was contested is asked about
 * whatever its probability: two searches that disagree are the plainest sign that one of them is
 * wrong.
 *
 * @param trust works the probability out
 * @param least what is less likely to be right than this is asked about, in the quiet
 * @param leastInNoise the same from 10 dB of speech to noise down, and in proportion between there
 *     and 18 dB: the probabilities were learned from few noises, and a new one is believed too
 *     easily
 * @param leastToAsk what would be less likely to be right than this even if it had no rivals is
 *     rejected: mostly nobody said anything like it
 * @param leastLead asked about is also what a rival comes nearer than this, natural log of the
 *     likelihood ratio, by what it differs in: where the sound itself leaves a choice, no other
 *     sign may settle it
 * @param leastLeadInNoise the same below 30 dB of speech to noise, where the model is matched to it
 * @param leastWordFit so is a reading with a word that fits worse than this, see {@link Word#fit}:
 *     something else was said in its place
 * @param leastFit so is a reading that fits worse than this as a whole, see {@link Reading#fit},
 *     where there is no noise to blame: a voice that the model knows badly
 * @param leastOverFiller so is what explains the clip as a whole worse than this, see {@link
 *     Evidence#overFiller}: more was said than the reading holds
 */
public record ByTrust(
    Trust trust,
    double least,
    double leastInNoise,
    double leastToAsk,
    Map<Likeness, Double> leastLead,
    Map<Likeness, Double> leastLeadInNoise,
    double leastWordFit,
    double leastFit,
    double leastOverFiller)
    implements Judge {

  /** Copies the leads. */
  public ByTrust {
    leastLead = Map.copyOf(leastLead);
    leastLeadInNoise = Map.copyOf(leastLeadInNoise);
  }

  /** Some noise is in nearly every clip below this, and lowers the fit of any voice. */
  private static final double NOISELESS_DB = 40;

  private static final double NOISY_DB = 30;
  private static final double QUIET_DB = 18;
  private static final double LOUD_DB = 10;

  /**
   * The tuned limits.
   *
   * @return the defaults
   */
  public static ByTrust defaults() {
    return new ByTrust(
        Trust.defaults(),
        0.93,
        0.98,
        0.20,
        Map.of(
            Likeness.WORD, 6.0,
            Likeness.LONGER, 10.0,
            Likeness.FOLLOW_ON, 10.0,
            Likeness.NUMBER, 20.0,
            Likeness.NOUGHT_FOR_NINE, 50.0,
            Likeness.TEEN_FOR_TEN, 40.0,
            Likeness.TEN_FOR_TEEN, 6.0),
        Map.of(
            Likeness.WORD, 18.0,
            Likeness.LONGER, 10.0,
            Likeness.FOLLOW_ON, 10.0,
            Likeness.NUMBER, 20.0,
            Likeness.NOUGHT_FOR_NINE, 50.0,
            Likeness.TEEN_FOR_TEN, 40.0,
            Likeness.TEN_FOR_TEEN, 20.0),
        -500,
        -20,
        -200);
  }

  @Override
  public boolean isClear(Hearing hearing) {
    Evidence evidence = Evidence.of(hearing);
    Map<Likeness, Double> leads = evidence.snrDb() < NOISY_DB ? leastLeadInNoise : leastLead;
    return trust.in(evidence) >= leastAt(evidence.snrDb())
        && !evidence.contested()
        && evidence.worstWordFit() >= leastWordFit
        && (evidence.fit() >= leastFit || evidence.snrDb() < NOISELESS_DB)
        && evidence.overFiller() >= leastOverFiller
        && evidence.rivals().stream()
            .allMatch(rival -> rival.behind() >= leads.getOrDefault(rival.likeness(), 0.0));
  }

  @Override
  public boolean isWorthAsking(Hearing hearing) {
    return trust.in(Evidence.of(hearing).withoutRivals()) >= leastToAsk;
  }

  private double leastAt(double snrDb) {
    double noise = Math.min(1, Math.max(0, (QUIET_DB - snrDb) / (QUIET_DB - LOUD_DB)));
    return least + noise * (leastInNoise - least);
  }
}
