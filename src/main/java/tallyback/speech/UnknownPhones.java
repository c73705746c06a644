package tallyback.speech;

import java.util.List;

/**
 * Added pronunciations that have something else than phones; the message names all of them, one a
 * line.
 */
public final class UnknownPhones extends IllegalArgumentException {

  private static final long serialVersionUID = 1L;

  /**
   * One message of all complaints.
   *
   * @param complaints each naming the word, what was expected and what was found
   */
  public UnknownPhones(List<String> complaints) {
    super(String.join("\n", complaints));
  }
}
