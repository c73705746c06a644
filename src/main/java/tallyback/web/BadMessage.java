package tallyback.web;

/** A page, or whatever passes for one, sent something that is no message of a page. */
final class BadMessage extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /** With what was expected, short enough for a close reason. */
  BadMessage(String expected) {
    super(expected);
  }
}
