package tallyback.model;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How an entry came by its words, for whoever looks into it later; nothing is reckoned from it.
 *
 * <p>Its texts are kept to one line and to {@value #LONGEST} characters, and of each list the last
 * are left out beyond {@value #MOST}: what an entry rests on must never be the reason that it can't
 * be noted.
 *
 * @param readings what its sound was taken for, the likeliest first; empty when only one reading
 *     was made of it and that was noted. What was noted need not be among them: an answer may have
 *     changed it.
 * @param asked what was asked before it was noted, in order
 */
public record HowHeard(List<String> readings, List<Asked> asked) {

  /** The longest text kept. */
  public static final int LONGEST = 1000;

  /** The most readings kept, and the most questions. */
  public static final int MOST = 12;

  /**
   * A question that was asked.
   *
   * @param question what was asked
   * @param answer the words that settled it, or null when nobody answered
   */
  public record Asked(String question, @Nullable String answer) {

    /** Keeps both to one line. */
    public Asked {
      question = line(question);
      answer = answer == null ? null : line(answer);
    }
  }

  /** Copies the lists and keeps the readings to one line each. */
  public HowHeard {
    readings = readings.stream().limit(MOST).map(HowHeard::line).toList();
    asked = asked.stream().limit(MOST).toList();
  }

  /**
   * What is worth keeping of what was said.
   *
   * @param words the words noted
   * @param readings every reading, the likeliest first
   */
  public static HowHeard of(String words, List<String> readings, List<Asked> asked) {
    boolean plain = readings.stream().allMatch(words::equals);
    return new HowHeard(plain ? List.of() : readings, asked);
  }

  private static String line(String text) {
    StringBuilder line = new StringBuilder();
    text.codePoints()
        .map(each -> Character.isISOControl(each) || isHalf(each) ? ' ' : each)
        .limit(LONGEST)
        .forEach(line::appendCodePoint);
    return line.toString();
  }

  /** Half a character has no UTF-8. */
  private static boolean isHalf(int codePoint) {
    return Character.getType(codePoint) == Character.SURROGATE;
  }
}
