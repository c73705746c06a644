package tallyback.log;

/**
 * The machine failed: the data file is locked, read-only, damaged or on a full disk, reading or
 * writing went wrong, or a native part is missing. The message is one line with the cause and the
 * remedy. What was acknowledged before is still there; what was being noted is not, unless the
 * message says so.
 */
public sealed class LogFailed extends RuntimeException permits ClipAltered {

  private static final long serialVersionUID = 1L;

  /** With a one-line message: cause and remedy. */
  public LogFailed(String message) {
    super(OneLine.of(message));
  }

  /** With a one-line message (cause and remedy) and what led to it. */
  public LogFailed(String message, Throwable cause) {
    super(OneLine.of(message), cause);
  }
}
