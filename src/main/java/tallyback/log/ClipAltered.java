package tallyback.log;

/** The bytes of a sound or a picture are not those that were noted. */
public final class ClipAltered extends LogFailed {

  private static final long serialVersionUID = 1L;

  /** With a one-line message: what was found and the remedy. */
  public ClipAltered(String message) {
    super(message);
  }
}
