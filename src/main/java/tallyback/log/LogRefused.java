package tallyback.log;

/**
 * The log was used wrongly, or was given a file that isn't ours, is malformed, or comes from a
 * newer version. The message is one line with the cause and the remedy; nothing was written.
 */
public final class LogRefused extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /** With a one-line message: cause and remedy. */
  public LogRefused(String message) {
    super(OneLine.of(message));
  }

  /** With a one-line message (cause and remedy) and what led to it. */
  public LogRefused(String message, Throwable cause) {
    super(OneLine.of(message), cause);
  }
}
