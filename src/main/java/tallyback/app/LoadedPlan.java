package tallyback.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.dialogue.Interpreter;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Weight;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Lexicon;
import tallyback.phrase.UnusableGrammarException;
import tallyback.plan.Plan;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.planning.PlanLint;
import tallyback.speech.CmuLexicon;
import tallyback.voice.freetts.FreeTtsVoice;

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

  /** Names to speak with where there is no plan: what comes off is expected to go back. */
  public static LoadedPlan withoutPlan(KnownVoices voices) {
    String name = "/tallyback/grammars/names.yaml";
    try (InputStream in = LoadedPlan.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(
            "the jar lacks " + name + ": build it again from a complete source tree");
      }
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return of(PlanReader.read("the names that come with the program", text), name, voices);
    } catch (IOException e) {
      throw new MachineFailed("the names that come with the program can't be read", e);
    }
  }

  /**
   * The plan of the job that comes next in a data file: the one named; else the one frozen in the
   * job that is gone on with; else there is none, and only names to speak with.
   *
   * @param file the plan named, or null
   * @param data the data file, or null when there is none; it need not be there yet
   * @param job the job asked for, or null
   * @param voices the voices that may be listened for
   * @throws WrongUse listing everything that is wrong with the plan
   * @throws MachineFailed if it can't be read
   */
  public static LoadedPlan forJob(
      @Nullable Path file, @Nullable Path data, @Nullable String job, KnownVoices voices) {
    if (file != null) {
      return of(file, voices);
    }
    if (data != null && Files.exists(data)) {
      try (LogReader log = SqliteLogs.openForReading(data)) {
        Optional<JobSummary> goesOn = goesOn(log, job);
        if (goesOn.isPresent()) {
          String id = goesOn.get().id();
          String name = "the plan frozen in job " + id;
          return of(PlanReader.read(name, log.planText(id).orElse("")), name, voices);
        }
      }
    }
    return withoutPlan(voices);
  }

  /** The job asked for, else the only one that is open. */
  private static Optional<JobSummary> goesOn(LogReader log, @Nullable String job) {
    List<JobSummary> jobs = log.jobs();
    if (job != null) {
      return jobs.stream().filter(each -> each.id().equals(job)).findFirst();
    }
    return jobs.stream().allMatch(JobSummary::closed)
        ? Optional.empty()
        : Optional.of(log.choose(null));
  }

  /** True when there are only names: then what comes off is expected to go back. */
  public boolean namesOnly() {
    return plan.basis() == Plan.Basis.NAMES;
  }

  /**
   * Reads the text of a plan, such as the one frozen in a job.
   *
   * @param name how it is called in messages
   * @param text the text
   * @throws WrongUse listing everything that is wrong with it
   */
  public static LoadedPlan of(String name, String text) {
    return of(name, text, KnownVoices.none());
  }

  /** Likewise, to be listened to with these voices. */
  public static LoadedPlan of(String name, String text, KnownVoices voices) {
    return of(PlanReader.read(name, text), name, voices);
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
      throw refused(name, reading);
    }
    if (!grammar.lint(lexicon).isEmpty()) {
      throw refused(name, reading);
    }
    return new LoadedPlan(
        plan, grammar, lexicon, reading.warnings().stream().map(PlanFault::text).toList(), voices);
  }

  /** Everything that keeps the plan from being used, each at its line. */
  private static WrongUse refused(String name, PlanReading reading) {
    return new WrongUse(
        lint(name, reading).faults().stream()
            .filter(fault -> fault.weight() == Weight.STOP)
            .map(PlanFault::text)
            .toList());
  }

  /** Looks through the text of a plan, as {@link #lint(Path)} does through a file. */
  public static PlanLint lint(String name, String text) {
    return lint(name, PlanReader.read(name, text));
  }

  private static PlanLint lint(String name, PlanReading reading) {
    return PlanLint.of(name, reading, CmuLexicon.load(), FreeTtsVoice::sounds);
  }

  /**
   * Looks through a plan file for all that is wrong with it.
   *
   * @throws MachineFailed if it can't be read
   */
  public static PlanLint lint(Path file) {
    try {
      return lint(file.toString(), PlanReader.read(file));
    } catch (IOException e) {
      throw new MachineFailed(file + ": can't be read (" + e.getMessage() + "); check the disk", e);
    }
  }

  /** How words are understood. */
  public Interpreter interpreter() {
    return Interpreter.of(grammar);
  }
}
