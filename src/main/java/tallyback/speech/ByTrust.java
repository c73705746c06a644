package tallyback.speech;

/**
 * Judges by how likely it is that all of the reading is right.
 *
 * @param trust works the probability out
 * @param least what is less likely to be right than this is asked about, in the quiet
 * @param leastInNoise the same from 25 dB of speech to noise down, and in proportion between there
 *     and the quiet from 40 dB up: the probabilities were learned from few noises, and a new one is
 *     believed too easily
 * @param leastLead so is what a rival comes nearer than this, natural log of the likelihood ratio:
 *     where the sound itself leaves a choice, no other sign may settle it
 * @param leastTeenLead the same where the choice is between a teen and a ten
 */
public record ByTrust(
    Trust trust, double least, double leastInNoise, double leastLead, double leastTeenLead)
    implements Judge {

  private static final double QUIET_DB = 40;
  private static final double LOUD_DB = 25;

  /**
   * The tuned limits.
   *
   * @return the defaults
   */
  public static ByTrust defaults() {
    return new ByTrust(Trust.defaults(), 0.90, 0.95, 6, 12);
  }

  @Override
  public boolean isClear(Hearing hearing) {
    Evidence evidence = Evidence.of(hearing);
    return trust.in(evidence) >= leastAt(evidence.snrDb())
        && evidence.rivals().stream()
            .allMatch(rival -> rival.behind() >= leastBehind(rival.likeness()));
  }

  private double leastAt(double snrDb) {
    double noise = Math.min(1, Math.max(0, (QUIET_DB - snrDb) / (QUIET_DB - LOUD_DB)));
    return least + noise * (leastInNoise - least);
  }

  private double leastBehind(Likeness likeness) {
    return switch (likeness) {
      case TEEN_FOR_TEN, TEN_FOR_TEEN -> leastTeenLead;
      case LONGER, NUMBER, WORD -> leastLead;
    };
  }
}
