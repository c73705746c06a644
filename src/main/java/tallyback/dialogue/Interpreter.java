package tallyback.dialogue;

import java.util.Optional;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Meaning;
import tallyback.phrase.Question;

/** Words to meaning; the entry grammar of the job's plan is the usual one. */
public interface Interpreter {

  /** What the words mean as an entry, or nothing when they are none. */
  Optional<Meaning> read(String words);

  /** What the words mean as an answer to a question, or nothing when they are none. */
  Optional<Meaning> readAnswer(String words);

  /** What the words ask, or nothing when they are no question of the speaker's. */
  Optional<Question> readQuestion(String words);

  /** By the grammar of a plan. */
  static Interpreter of(EntryGrammar grammar) {
    return new Interpreter() {
      @Override
      public Optional<Meaning> read(String words) {
        return grammar.read(words);
      }

      @Override
      public Optional<Meaning> readAnswer(String words) {
        return grammar.readAnswer(words);
      }

      @Override
      public Optional<Question> readQuestion(String words) {
        return grammar.readQuestion(words);
      }
    };
  }
}
