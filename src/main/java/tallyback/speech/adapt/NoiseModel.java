package tallyback.speech.adapt;

/**
 * How speech sounds in one noise, as a {@link NoiseLearner} has learned it; only the recogniser of
 * the same adapter can use it. Immutable.
 */
public interface NoiseModel {

  /**
   * How it did on speech that it was not learned from.
   *
   * @return the check
   */
  Check check();

  /**
   * A check on known speech that was held back.
   *
   * @param clips how many recordings were held back
   * @param rightBefore of how many the known words were likelier than any easily mistaken for them,
   *     without what was learned
   * @param rightAfter the same with it
   * @param leadBefore by how much they were likelier, natural log, in the mean
   * @param leadAfter the same with it
   */
  record Check(int clips, int rightBefore, int rightAfter, double leadBefore, double leadAfter) {

    /** Whether it is no worse in any of them, and better in one. */
    public boolean isBetter() {
      return rightAfter >= rightBefore
          && leadAfter >= leadBefore
          && (rightAfter > rightBefore || leadAfter > leadBefore);
    }
  }
}
