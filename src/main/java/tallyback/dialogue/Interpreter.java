package tallyback.dialogue;

import java.util.Optional;
import tallyback.phrase.Meaning;

/** Words to meaning; the entry grammar of the job's plan is the usual one. */
@FunctionalInterface
public interface Interpreter {

  /** What the words mean, or nothing when they are no entry. */
  Optional<Meaning> read(String words);
}
