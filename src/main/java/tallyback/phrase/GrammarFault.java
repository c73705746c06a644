package tallyback.phrase;

/**
 * One thing wrong with a grammar: where, what was expected, what was found, what to do.
 *
 * @param source the file (or the plan) it stands in
 * @param line the line, counted from 1
 * @param expected what should be there
 * @param found what is there
 * @param remedy what to do about it
 */
public record GrammarFault(String source, int line, String expected, String found, String remedy) {

  /** One line for the person who writes the grammar. */
  @Override
  public String toString() {
    return source + ":" + line + ": expected " + expected + ", found " + found + ". " + remedy;
  }
}
