package tallyback.speech.sphinx;

import edu.cmu.sphinx.util.LogMath;

/**
 * The library's logarithms. Their base is one for the whole process and may be set only before the
 * first use, so everything here gets them from this class.
 *
 * <p>Thread rule: may be used from any thread.
 */
final class LibraryMath {

  /**
   * The library's usual base; a smaller one rounds scores, a larger one loses small differences.
   */
  private static final float LOG_BASE = 1.0001f;

  private static final LogMath LOG_MATH = create();

  private LibraryMath() {}

  private static LogMath create() {
    // The library's own defaults; setting them once more is refused after the first use.
    return LogMath.getLogMath();
  }

  /** To be called before anything of the library is made. */
  static void prepare() {
    if (LOG_MATH.getLogBase() != LOG_BASE) {
      throw new IllegalStateException(
          "the recogniser library was used before with another base of logarithms");
    }
  }

  static float fromNaturalLog(double naturalLog) {
    return LOG_MATH.lnToLog((float) naturalLog);
  }

  static double toNaturalLog(float libraryLog) {
    return LOG_MATH.logToLn(libraryLog);
  }

  /** What a natural logarithm is multiplied by to be one in the library's base. */
  static double logBaseFactor() {
    return 1 / Math.log(LOG_MATH.getLogBase());
  }
}
