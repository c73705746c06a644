package tallyback.speech;

/**
 * Decides from the scores of a hearing whether to note, to ask, or to reject. It looks at the sound
 * only: whether the value is the expected one plays no part, because drift is what the log is there
 * to notice.
 *
 * <p>Thread rule: no state; call from anywhere.
 */
public sealed interface Judge permits ByTrust, Doubt {

  /**
   * Judges a hearing.
   *
   * @param hearing what the recogniser made of a clip
   * @return what it is worth; where a piece of the sound is missing or clipped a word may be lost,
   *     however clear the rest, so that is asked about at best
   */
  default Judgement judge(Hearing hearing) {
    if (hearing.isRejected() || !isWorthAsking(hearing)) {
      return Judgement.REJECT;
    }
    return !hearing.clip().isSpoilt() && isClear(hearing) ? Judgement.NOTE : Judgement.ASK;
  }

  /**
   * Whether the scores are good enough to be noted.
   *
   * @param hearing with a reading at least
   * @return false when it must be asked
   */
  boolean isClear(Hearing hearing);

  /**
   * Whether the scores are good enough to be noted where a second recogniser came to the same.
   *
   * @param hearing with a reading at least
   * @param kind what the second recogniser has in common with the first
   * @return false when it must be asked all the same
   */
  default boolean isClearToTwo(Hearing hearing, SecondKind kind) {
    return isClear(hearing);
  }

  /**
   * Whether there is any sense in asking about it.
   *
   * @param hearing with a reading at least
   * @return false when it is to be rejected
   */
  default boolean isWorthAsking(Hearing hearing) {
    return true;
  }
}
