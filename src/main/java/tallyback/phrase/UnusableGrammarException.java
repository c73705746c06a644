package tallyback.phrase;

import java.util.List;
import java.util.stream.Collectors;

/** The grammar cannot be compiled; says everything that stands in the way, not only the first. */
public final class UnusableGrammarException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient List<GrammarFault> faults;

  UnusableGrammarException(List<GrammarFault> faults) {
    super(faults.stream().map(GrammarFault::toString).collect(Collectors.joining("\n")));
    this.faults = List.copyOf(faults);
  }

  /**
   * What stands in the way.
   *
   * @return all faults, in the order of the sources
   */
  public List<GrammarFault> faults() {
    return faults;
  }
}
