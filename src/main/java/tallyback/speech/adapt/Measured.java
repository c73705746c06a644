package tallyback.speech.adapt;

/**
 * How well a voice was heard: lines that it said, heard without knowing what they were.
 *
 * @param lines how many
 * @param noted of which noted without asking, and right
 * @param right whose best reading was right, noted or asked about
 * @param wrong noted without asking, and wrong
 * @param fit how well the words that were said fit their sound, as {@link
 *     tallyback.speech.Reading#fit}, in the mean
 */
public record Measured(int lines, int noted, int right, int wrong, double fit) {

  /** So much better a fit is no chance; a choice of our own, no source. */
  private static final double BETTER_FIT = 3;

  /** Checks that the counts can be. */
  public Measured {
    if (noted < 0 || noted > right || wrong < 0 || right + wrong > lines || !Double.isFinite(fit)) {
      throw new IllegalArgumentException(
          "expected counts of at most "
              + lines
              + " lines, found "
              + noted
              + " noted, "
              + right
              + " right, "
              + wrong
              + " wrong");
    }
  }

  /**
   * Whether this is better than what was before: never more noted wrong, and more noted right; or
   * as many, and more heard right or the words fit better.
   */
  public boolean isBetterThan(Measured before) {
    if (wrong > before.wrong || noted < before.noted) {
      return false;
    }
    return noted > before.noted
        || right > before.right
        || (right == before.right && fit > before.fit + BETTER_FIT);
  }
}
