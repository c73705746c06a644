package tallyback.log.sqlite;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** Plain words made into a question to SQLite's full text search: nothing of it is its syntax. */
final class SearchWords {

  private SearchWords() {}

  /** The words of a text, each once: runs of letters and digits. */
  static List<String> in(String text) {
    Set<String> words = new LinkedHashSet<>();
    StringBuilder word = new StringBuilder();
    Normalizer.normalize(text, Normalizer.Form.NFC)
        .codePoints()
        .forEach(
            point -> {
              if (isPartOfWord(point)) {
                word.appendCodePoint(point);
              } else if (!word.isEmpty()) {
                boolean unused = words.add(word.toString());
                word.setLength(0);
              }
            });
    if (!word.isEmpty()) {
      boolean unused = words.add(word.toString());
    }
    return new ArrayList<>(words);
  }

  private static boolean isPartOfWord(int point) {
    return switch (Character.getType(point)) {
      case Character.UPPERCASE_LETTER,
          Character.LOWERCASE_LETTER,
          Character.TITLECASE_LETTER,
          Character.MODIFIER_LETTER,
          Character.OTHER_LETTER,
          Character.DECIMAL_DIGIT_NUMBER,
          Character.LETTER_NUMBER,
          Character.OTHER_NUMBER,
          Character.NON_SPACING_MARK ->
          true;
      default -> false;
    };
  }

  /** All of the words, or what begins with them; each in quotation marks, so that it is text. */
  static String allOf(List<String> words) {
    return words.stream()
        .map(word -> '"' + word.replace("\"", "\"\"") + "\" *")
        .collect(Collectors.joining(" AND "));
  }
}
