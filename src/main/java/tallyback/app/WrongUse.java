package tallyback.app;

import java.util.List;

/**
 * Wrong use, or input that is malformed: one line for each thing that is wrong, each with its
 * remedy. Nothing was written.
 */
public final class WrongUse extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient List<String> lines;

  /** One line for each fault. */
  public WrongUse(List<String> lines) {
    super(String.join(System.lineSeparator(), lines));
    this.lines = List.copyOf(lines);
  }

  /** A single fault. */
  public WrongUse(String line) {
    this(List.of(line));
  }

  /** What is wrong, one line each. */
  public List<String> lines() {
    return lines;
  }
}
