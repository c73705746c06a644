package tallyback.app;

/**
 * The machine failed: a file could not be read or written. The message is one line with cause and
 * remedy.
 */
public final class MachineFailed extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /** With its one line and what led to it. */
  public MachineFailed(String message, Throwable cause) {
    super(message, cause);
  }
}
