package tallyback.report;

/** Text that can do nothing but be read: it steers no terminal and turns no line around. */
public final class SafeText {

  /** Stands for a character that nobody could see. */
  static final char UNSEEN = '\uFFFD';

  private SafeText() {}

  /**
   * The text with {@link #UNSEEN} for control characters other than line end and tab, for half
   * characters, and for the marks that reverse the direction of writing and could so make a figure
   * read backwards.
   */
  public static String visible(String text) {
    StringBuilder visible = new StringBuilder(text.length());
    text.codePoints().forEach(point -> visible.appendCodePoint(harmless(point) ? point : UNSEEN));
    return visible.toString();
  }

  private static boolean harmless(int point) {
    if (point == '\n' || point == '\t') {
      return true;
    }
    boolean turnsWriting =
        (point >= 0x202A && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
    return !turnsWriting
        && switch (Character.getType(point)) {
          case Character.CONTROL,
              Character.SURROGATE,
              Character.LINE_SEPARATOR,
              Character.PARAGRAPH_SEPARATOR ->
              false;
          default -> true;
        };
  }
}
