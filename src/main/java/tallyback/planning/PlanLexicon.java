package tallyback.planning;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import tallyback.phrase.Lexicon;
import tallyback.plan.Plan;

/**
 * A lexicon and what a plan adds to it; what is wrong with the additions is the reader's to say.
 */
record PlanLexicon(Lexicon lexicon, Plan plan) implements Lexicon {

  @Override
  public boolean knows(String word) {
    return plan.pronunciations().containsKey(word) || lexicon.knows(word);
  }

  @Override
  public List<String> pronunciations(String word) {
    Set<String> all = new LinkedHashSet<>(lexicon.pronunciations(word));
    all.addAll(plan.pronunciations().getOrDefault(word, List.of()));
    return List.copyOf(all);
  }
}
