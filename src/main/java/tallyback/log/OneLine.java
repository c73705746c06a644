package tallyback.log;

/** Keeps messages to one line, whatever a file name or a foreign text brings into them. */
final class OneLine {

  private OneLine() {}

  static String of(String text) {
    return text.replaceAll("\\p{Cntrl}+", " ");
  }
}
