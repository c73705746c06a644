package tallyback.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import tallyback.model.Weight;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.GrammarFault;
import tallyback.phrase.Lexicon;
import tallyback.phrase.UnusableGrammarException;
import tallyback.plan.Plan;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReading;

/**
 * Everything that is wrong with a plan, or looks like a slip, at once and in the order of the file:
 * what its reader found, what the trade says against it, and what keeps it from being spoken. A
 * file with faults is looked at as far as it could be read.
 *
 * @param faults all of it; none when the plan is right
 * @param open what the plan leaves to the maker's manual, in words, each with its line
 */
public record PlanLint(List<PlanFault> faults, List<String> open) {

  /** Copies its lists. */
  public PlanLint {
    faults = List.copyOf(faults);
    open = List.copyOf(open);
  }

  /**
   * Looks through a plan.
   *
   * @param file the file as the user named it
   * @param reading what came of reading it
   * @param lexicon how words sound, without those that the plan adds
   * @param fromLetters the sounds of a word in ARPAbet worked out from its letters, for a
   *     suggestion
   */
  public static PlanLint of(
      String file,
      PlanReading reading,
      Lexicon lexicon,
      Function<String, Optional<String>> fromLetters) {
    LintList list = new LintList(file, reading.places());
    reading.faults().forEach(list::add);
    reading.warnings().forEach(list::add);
    List<String> open = new ArrayList<>();
    reading
        .draft()
        .ifPresent(
            plan -> {
              Lexicon whole = new PlanLexicon(lexicon, plan);
              Overload.look(plan, list);
              HeadSizes.look(plan, list);
              StepSums.look(plan, list);
              WrenchReach.look(plan, list);
              Unsayable.look(plan, whole, fromLetters, list);
              SoundsAlike.look(plan, whole, list);
              open.addAll(LintText.open(plan, reading.places()));
            });
    reading.plan().ifPresent(plan -> grammar(plan, new PlanLexicon(lexicon, plan), list));
    return new PlanLint(list.inFileOrder(), open);
  }

  /** Only of a plan without faults: the grammar trusts it. */
  private static void grammar(Plan plan, Lexicon lexicon, LintList list) {
    try {
      for (GrammarFault fault : EntryGrammar.of(plan).lint(lexicon)) {
        boolean told = fault.word().filter(word -> Unsayable.isToldOf(plan, word)).isPresent();
        if (!told) {
          list.add(LintText.grammar(fault, list));
        }
      }
    } catch (UnusableGrammarException e) {
      e.faults().forEach(fault -> list.add(LintText.grammar(fault, list)));
    }
  }

  /** The heaviest weight there is, or empty when the plan is right. */
  public Optional<Weight> heaviest() {
    return faults.stream().map(PlanFault::weight).min(Comparator.naturalOrder());
  }
}
