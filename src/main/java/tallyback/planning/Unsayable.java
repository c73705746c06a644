package tallyback.planning;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Lexicon;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Named;

/**
 * Words of spoken names that nobody said how to pronounce, with a suggestion from their letters.
 */
final class Unsayable {

  private Unsayable() {}

  static void look(
      Plan plan, Lexicon lexicon, Function<String, Optional<String>> fromLetters, LintList list) {
    Set<String> told = new HashSet<>();
    for (Named named : plan.named()) {
      List<String> say = named.say();
      for (int i = 0; i < say.size(); i++) {
        for (String word : words(say.get(i))) {
          if (isWord(word) && !lexicon.knows(word) && told.add(word)) {
            LintText.unsayable(named, i, word, fromLetters.apply(word), list);
          }
        }
      }
    }
  }

  /** Whether a word stands in a name, so that it was told where it stands. */
  static boolean isToldOf(Plan plan, String word) {
    return plan.named().stream()
        .flatMap(named -> named.say().stream())
        .anyMatch(name -> words(name).contains(word));
  }

  static List<String> words(String name) {
    return List.of(EntryGrammar.spelled(name).split(" ", -1));
  }

  /** What is no word at all the reader tells. */
  private static boolean isWord(String word) {
    return !word.isEmpty() && word.chars().allMatch(c -> (c >= 'a' && c <= 'z') || c == '\'');
  }
}
