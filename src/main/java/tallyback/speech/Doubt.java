package tallyback.speech;

import java.util.Comparator;
import java.util.List;

/**
 * Decides from the scores of a hearing whether to note, to ask, or to reject. It looks at the sound
 * only: whether the value is the expected one plays no part, because drift is what the log is there
 * to notice.
 *
 * <p>Three things make a hearing doubtful: as a whole it explains its sound worse than any row of
 * phones would (speech that is no entry, or noise); one word of it does (something else was said in
 * its place); or another reading of the same grammar with another meaning is almost as likely
 * (fifteen, fifty).
 *
 * <p>The limits were chosen on the tuning voices of the figures and on speech that is no entry, and
 * are checked on other voices.
 *
 * <p>Thread rule: no state; call from anywhere.
 *
 * @param leastFit natural log of the likelihood ratio to the filler per second of speech, below
 *     which is asked
 * @param leastWordFit the same for each single word
 * @param margins how far ahead of its rivals it must be
 */
public record Doubt(double leastFit, double leastWordFit, Margins margins) {

  /**
   * The tuned limits.
   *
   * @return the defaults
   */
  public static Doubt defaults() {
    return new Doubt(-50, -400, Margins.defaults());
  }

  /**
   * Judges a hearing.
   *
   * @param hearing what the recogniser made of a clip
   * @return what it is worth
   */
  public Judgement judge(Hearing hearing) {
    List<Reading> readings = hearing.readings();
    if (readings.isEmpty()) {
      return Judgement.REJECT;
    }
    Reading best = readings.get(0);
    boolean clear = best.fit() >= leastFit && worstWord(best) >= leastWordFit && isAhead(hearing);
    return clear ? Judgement.NOTE : Judgement.ASK;
  }

  private boolean isAhead(Hearing hearing) {
    Reading best = hearing.readings().get(0);
    return hearing.readings().stream().skip(1).allMatch(rival -> isAhead(best, rival));
  }

  private boolean isAhead(Reading best, Reading rival) {
    return best.logScore() - rival.logScore() >= margins.between(best.texts(), rival.texts());
  }

  private static double worstWord(Reading reading) {
    return reading.words().stream()
        .map(Word::fit)
        .min(Comparator.naturalOrder())
        .orElse(Double.NEGATIVE_INFINITY);
  }
}
