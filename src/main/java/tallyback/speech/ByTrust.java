package tallyback.speech;

/**
 * Judges by how likely it is that all of the reading is right.
 *
 * @param trust works the probability out
 * @param least what is less likely to be right than this is asked about
 * @param leastLead so is what a rival comes nearer than this, natural log of the likelihood ratio:
 *     where the sound itself leaves a choice, no other sign may settle it
 */
public record ByTrust(Trust trust, double least, double leastLead) implements Judge {

  /**
   * The tuned limits.
   *
   * @return the defaults
   */
  public static ByTrust defaults() {
    return new ByTrust(Trust.defaults(), 0.94, 6);
  }

  @Override
  public boolean isClear(Hearing hearing) {
    Evidence evidence = Evidence.of(hearing);
    return trust.in(evidence) >= least
        && evidence.rivals().stream().allMatch(rival -> rival.behind() >= leastLead);
  }
}
