package tallyback.review;

/** Something a reviewer asked for can't be done; the message says why, and what to do instead. */
public final class ReviewRefused extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /** With what is wrong, and the remedy. */
  public ReviewRefused(String message) {
    super(message);
  }
}
