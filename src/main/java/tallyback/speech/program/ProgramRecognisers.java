package tallyback.speech.program;

import java.time.Duration;
import java.util.List;
import tallyback.speech.SecondFailed;
import tallyback.speech.SecondRecogniser;

/**
 * The one way to a recogniser that is a program of its own. Thread rule: may be called from any
 * thread.
 *
 * <p>The program gets one line for each clip on its standard input: the path of a WAV file (16 kHz,
 * mono, 16 bit), which is there until it has answered. It answers each with one line in UTF-8 on
 * its standard output: what it understood, with figures and signs or without, or an empty line for
 * nothing. It ends when its standard input does. In {@code TALLYBACK_WORDS} stands the path of a
 * file with all words that can be said of the plan, one a line, and in {@code TALLYBACK_PHRASES}
 * one with many examples of what is said, one a line, in which each of these words stands: for
 * recognisers that want to know.
 */
public final class ProgramRecognisers {

  private static final Duration FIRST = Duration.ofMinutes(2);
  private static final Duration EACH = Duration.ofSeconds(20);

  private ProgramRecognisers() {}

  /**
   * Starts a program and has it listen to a second of next to nothing, so that its model is read.
   *
   * @param command the program and its arguments, divided by blanks; what is between quotation
   *     marks is not divided, and neither is the path of a file that is there
   * @param examples what can be said of the plan, each word at least once
   * @return an open recogniser, to be closed by the caller
   * @throws SecondFailed if it can't be started or doesn't answer
   * @throws InterruptedException if interrupted
   */
  public static SecondRecogniser open(String command, List<List<String>> examples)
      throws SecondFailed, InterruptedException {
    return open(command, examples, FIRST, EACH);
  }

  /** The same with other limits. */
  static SecondRecogniser open(
      String command, List<List<String>> examples, Duration first, Duration each)
      throws SecondFailed, InterruptedException {
    return ProgramRecogniser.open(CommandLine.of(command), examples, first, each);
  }
}
