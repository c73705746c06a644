package tallyback.export;

import java.util.regex.Pattern;
import tallyback.report.JobWords;

/** Somebody's words on one line, where they can do nothing but be read. */
final class Line {

  private static final Pattern ENDS = Pattern.compile("[\\r\\n\\t\u0085\u2028\u2029]+");

  private Line() {}

  static String of(String words) {
    return JobWords.harmless(ENDS.matcher(words).replaceAll(" "));
  }
}
