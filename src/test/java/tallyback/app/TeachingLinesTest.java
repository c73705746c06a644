package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class TeachingLinesTest {

  private static final LoadedPlan PLAN = TeachingLines.plan();

  @Test
  void twentyDifferentLinesThatAreEntries() {
    assertEquals(20, TeachingLines.all().size());
    assertEquals(20, new HashSet<>(TeachingLines.all()).size());
    for (List<String> line : TeachingLines.all()) {
      String text = String.join(" ", line);
      assertTrue(PLAN.grammar().read(text).isPresent(), text);
      assertTrue(PLAN.grammar().entries().accepts(line), text);
      assertTrue(line.size() <= 13, text);
      line.forEach(word -> assertTrue(PLAN.lexicon().knows(word), word));
    }
  }

  /** Of a word that is said in more ways than one, the first counts. */
  @Test
  void everyPhoneThatEntriesUseOccursTwiceOrMore() {
    Set<String> used = new TreeSet<>();
    PLAN.grammar().entries().words().forEach(word -> used.addAll(phones(word)));
    Map<String, Integer> counts = new TreeMap<>();
    used.forEach(phone -> counts.put(phone, 0));
    for (List<String> line : TeachingLines.all()) {
      line.forEach(word -> phones(word).forEach(phone -> counts.merge(phone, 1, Integer::sum)));
    }
    assertTrue(used.size() >= 38, used::toString);
    counts.values().removeIf(count -> count >= 2);
    assertEquals(Map.of(), counts, "phones that occur less than twice");
  }

  private static List<String> phones(String word) {
    return List.of(PLAN.lexicon().pronunciations(word).get(0).split(" ", -1));
  }

  @Test
  void theNumbersThatAreTakenForOneAnotherOccur() {
    Set<String> words = new TreeSet<>();
    TeachingLines.all().forEach(words::addAll);
    for (String number :
        List.of(
            "oh",
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "eight",
            "ten",
            "thirteen",
            "thirty",
            "fifteen",
            "fifty",
            "seventeen",
            "seventy",
            "nineteen",
            "point")) {
      assertTrue(words.contains(number), number);
    }
  }
}
