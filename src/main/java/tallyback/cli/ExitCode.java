package tallyback.cli;

/** What the process ends with. */
final class ExitCode {

  /** Nothing to act on. */
  static final int CLEAR = 0;

  /** At least one finding of weight stop or check. */
  static final int FINDINGS = 1;

  /** Wrong use, or input that is not ours, malformed, or from a newer version. */
  static final int WRONG_USE = 2;

  /** The machine failed: locked, read-only, full, I/O, missing native part. */
  static final int MACHINE_FAILED = 3;

  private ExitCode() {}
}
