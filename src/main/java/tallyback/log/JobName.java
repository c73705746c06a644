package tallyback.log;

/**
 * What a new job may be called. The same for every adapter. Jobs that were opened before this was
 * asked keep their names.
 */
public final class JobName {

  private JobName() {}

  /**
   * Refuses a name that nobody could see, or that can't stand in a page's address.
   *
   * @throws LogRefused with the remedy
   */
  public static void requireUsable(String name) {
    if (name.equals(".") || name.equals("..")) {
      throw new LogRefused(
          "job \"" + name + "\": no address of a page can hold that; give it another name");
    }
    if (!name.isEmpty()
        && (isUnseen(name.codePointAt(0)) || isUnseen(name.codePointBefore(name.length())))) {
      throw new LogRefused(
          "job \""
              + name
              + "\": expected a name that begins and ends with something to be seen, found a blank"
              + " there; give it another name");
    }
  }

  private static boolean isUnseen(int point) {
    return Character.isWhitespace(point)
        || Character.isSpaceChar(point)
        || Character.getType(point) == Character.FORMAT;
  }
}
