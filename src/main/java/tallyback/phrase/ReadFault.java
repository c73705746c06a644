package tallyback.phrase;

import java.util.List;

/**
 * Why a line is no entry, and what it may have been meant to be.
 *
 * @param words the line in words, as the grammar was asked
 * @param at number of the first word that does not fit, from 1; one more than there are words when
 *     the line ends too early
 * @param expected some words that could stand there, at most six
 * @param found the word that does not fit, or "the end of the line"
 * @param suggestions up to three phrases of the grammar near to the line, the nearest first; never
 *     with another number in it
 * @param remedy what to do
 */
public record ReadFault(
    List<String> words,
    int at,
    List<String> expected,
    String found,
    List<String> suggestions,
    String remedy) {

  /** Copies its lists. */
  public ReadFault {
    words = List.copyOf(words);
    expected = List.copyOf(expected);
    suggestions = List.copyOf(suggestions);
  }

  /** One line for the person who typed it. */
  @Override
  public String toString() {
    StringBuilder text =
        new StringBuilder("not understood from word " + at + " on: found " + found);
    if (!expected.isEmpty()) {
      text.append(", expected ").append(String.join(", ", expected));
    }
    if (!suggestions.isEmpty()) {
      text.append("; did you mean: ").append(String.join(" | ", suggestions));
    }
    return text.append(". ").append(remedy).toString();
  }
}
