package tallyback.cli;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.JobDesk;
import tallyback.app.WrongUse;

/** {@code visit}: back to a job that was closed. */
@Command(
    name = "visit",
    mixinStandardHelpOptions = true,
    description = {
      "Goes back to a job that was closed: to tighten again, to look at a level next morning, to put"
          + " right what was written.",
      "What was closed and sealed stays as it is; what is noted now follows it, until 'close'."
    })
final class VisitCommand implements Callable<Integer> {

  private static final int LONGEST = 200;

  private final Console console;
  @Mixin private DataOption data = new DataOption();

  @Option(
      names = "--job",
      paramLabel = "ID",
      description = "The job. Default: the newest that is closed.")
  private @Nullable String job;

  @Option(names = "--why", paramLabel = "WORDS", description = "What for, in your words.")
  private @Nullable String why;

  VisitCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    String words = why == null || why.isBlank() ? null : why.strip();
    if (words != null && words.length() > LONGEST) {
      throw new WrongUse("--why: longer than " + LONGEST + " letters; say it in fewer");
    }
    String gone =
        JobDesk.beginVisit(
            data.toGoOn(console),
            job,
            words,
            new JobDesk.Setting("terminal", "mechanic", console.zone(), console.clock()));
    console.out().println(gone + " is open for a visit");
    console.err().println("note with '--job " + gone + "', then 'close' it once more");
    return ExitCode.CLEAR;
  }
}
