package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tallyback.app.JobDesk;

/** {@code close}: nothing more is noted in a job. */
@Command(
    name = "close",
    mixinStandardHelpOptions = true,
    description = "Closes a job for good: its entries stay, nothing more is noted in it.")
final class CloseCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  CloseCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    String closed =
        JobDesk.closeJob(
            data.toRead(),
            job.id(),
            new JobDesk.Setting("terminal", "mechanic", console.zone(), console.clock()));
    console.out().println(closed + " is closed");
    return ExitCode.CLEAR;
  }
}
