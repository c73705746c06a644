package tallyback.speech;

/** A second recogniser can't hear, or not any more. The message says why and what to do. */
public final class SecondFailed extends Exception {

  private static final long serialVersionUID = 1L;

  /**
   * Says why.
   *
   * @param message what is wrong, and the remedy
   */
  public SecondFailed(String message) {
    super(message);
  }

  /**
   * Says why.
   *
   * @param message what is wrong, and the remedy
   * @param cause what came before
   */
  public SecondFailed(String message, Throwable cause) {
    super(message, cause);
  }
}
