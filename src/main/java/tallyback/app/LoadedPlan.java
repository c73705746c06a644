package tallyback.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import tallyback.dialogue.Interpreter;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.GrammarFault;
import tallyback.phrase.Lexicon;
import tallyback.phrase.UnusableGrammarException;
import tallyback.plan.Plan;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.speech.CmuLexicon;

/**
 * A plan that was read, checked and made into a grammar. Immutable.
 *
 * @param plan the plan
 * @param grammar what can be said of it
 * @param lexicon how its words sound
 * @param warnings what is odd about it and yet allowed, one line each
 * @param voices the voices that may be listened for
 */
public record LoadedPlan(
    Plan plan, EntryGrammar grammar, Lexicon lexicon, List<String> warnings, KnownVoices voices) {

  /** How the grammar calls the part of it that comes from the plan. */
  private static final String MADE_FROM_THE_PLAN = "the plan";

  /**
   * Reads a plan file.
   *
   * @throws WrongUse listing everything that is wrong with it
   * @throws MachineFailed if it can't be read
   */
  public static LoadedPlan of(Path file) {
    return of(file, KnownVoices.none());
  }

  /**
   * Reads a plan file, to be listened to with these voices.
   *
   * @throws WrongUse listing everything that is wrong with it
   * @throws MachineFailed if it can't be read
   */
  public static LoadedPlan of(Path file, KnownVoices voices) {
    try {
      return of(PlanReader.read(file), file.toString(), voices);
    } catch (IOException e) {
      throw new MachineFailed(file + ": can't be read (" + e.getMessage() + "); check the disk", e);
    }
  }

  /**
   * Reads the text of a plan, such as the one frozen in a job.
   *
   * @param name how it is called in messages
   * @param text the text
   * @throws WrongUse listing everything that is wrong with it
   */
  public static LoadedPlan of(String name, String text) {
    return of(PlanReader.read(name, text), name, KnownVoices.none());
  }

  private static LoadedPlan of(PlanReading reading, String name, KnownVoices voices) {
    if (reading.plan().isEmpty()) {
      throw new WrongUse(reading.faults().stream().map(PlanFault::text).toList());
    }
    Plan plan = reading.plan().get();
    Lexicon lexicon = CmuLexicon.load().with(plan.pronunciations());
    EntryGrammar grammar;
    try {
      // A name that nobody knows how to say can't be called.
      grammar =
          EntryGrammar.of(
              plan, voices.profiles().keySet().stream().filter(lexicon::knows).toList());
    } catch (UnusableGrammarException e) {
      throw refused(name, e.faults());
    }
    List<GrammarFault> faults = grammar.lint(lexicon);
    if (!faults.isEmpty()) {
      throw refused(name, faults);
    }
    return new LoadedPlan(
        plan, grammar, lexicon, reading.warnings().stream().map(PlanFault::text).toList(), voices);
  }

  private static WrongUse refused(String name, List<GrammarFault> faults) {
    return new WrongUse(faults.stream().map(fault -> name + place(fault) + text(fault)).toList());
  }

  /** The lines of the plan's own part are those of the grammar made from it: no use to anybody. */
  private static String place(GrammarFault fault) {
    return fault.source().equals(MADE_FROM_THE_PLAN)
        ? ": "
        : ": " + fault.source() + ":" + fault.line() + ": ";
  }

  private static String text(GrammarFault fault) {
    return "expected " + fault.expected() + ", found " + fault.found() + "; " + fault.remedy();
  }

  /** How words are understood. */
  public Interpreter interpreter() {
    return Interpreter.of(grammar);
  }
}
