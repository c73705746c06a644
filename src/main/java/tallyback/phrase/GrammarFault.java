package tallyback.phrase;

import java.util.List;
import java.util.Optional;

/**
 * One thing wrong with a grammar: where, what was expected, what was found, what to do.
 *
 * @param source the file (or the plan) it stands in
 * @param line the line, counted from 1
 * @param expected what should be there
 * @param found what is there
 * @param remedy what to do about it
 * @param word the word that can't be heard, when it is about one
 * @param ids of the things of the plan that it is about; none when it is about the base grammar
 */
public record GrammarFault(
    String source,
    int line,
    String expected,
    String found,
    String remedy,
    Optional<String> word,
    List<String> ids) {

  /** Copies its list. */
  public GrammarFault {
    ids = List.copyOf(ids);
  }

  /** One that is about no word and no thing of a plan. */
  public GrammarFault(String source, int line, String expected, String found, String remedy) {
    this(source, line, expected, found, remedy, Optional.empty(), List.of());
  }

  /** One line for the person who writes the grammar. */
  @Override
  public String toString() {
    return source + ":" + line + ": expected " + expected + ", found " + found + ". " + remedy;
  }
}
