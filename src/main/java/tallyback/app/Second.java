package tallyback.app;

import java.time.Duration;
import java.util.function.Consumer;
import tallyback.speech.SecondEar;
import tallyback.speech.SecondKind;
import tallyback.speech.program.ProgramRecognisers;

/**
 * A second recogniser to be asked beside the first: a program of the user's own. Whatever becomes
 * of it, hearing goes on.
 *
 * @param command the program and its arguments, see {@link ProgramRecognisers}
 * @param kind what its model has in common with the first recogniser's
 * @param patience how long the first recogniser waits for it after each utterance
 * @param opening how long is waited for it at the beginning; nothing where somebody speaks already
 * @param trouble told in a line, once, when it can't hear
 */
public record Second(
    String command,
    SecondKind kind,
    Duration patience,
    Duration opening,
    Consumer<String> trouble) {

  /** Whoever has spoken waits for what became of it, so this is about as long as that takes. */
  private static final Duration LIVE = Duration.ofMillis(1500);

  private static final Duration RECORDED = Duration.ofSeconds(30);
  private static final Duration OPENING = Duration.ofMinutes(2);

  /** For what is said now. */
  public static Second live(String command, SecondKind kind, Consumer<String> trouble) {
    return new Second(command, kind, LIVE, Duration.ZERO, trouble);
  }

  /** For recordings, which can wait. */
  public static Second recorded(String command, SecondKind kind, Consumer<String> trouble) {
    return new Second(command, kind, RECORDED, OPENING, trouble);
  }

  /** The same, whose trouble is told to somebody else besides. */
  public Second alsoTelling(Consumer<String> other) {
    return new Second(command, kind, patience, opening, trouble.andThen(other));
  }

  /** Starts it for a plan, on a thread of its own. */
  SecondEar start(LoadedPlan plan) {
    SecondEar ear =
        SecondEar.start(
            () -> ProgramRecognisers.open(command, plan.grammar().examples()), patience, trouble);
    try {
      // Not at all where there is no time for it: what is said before it hears has no second
      // opinion.
      boolean unused = ear.awaitReady(opening);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    return ear;
  }
}
