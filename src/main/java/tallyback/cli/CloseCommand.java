package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tallyback.app.JobDesk;
import tallyback.log.Seal;

/** {@code close}: nothing more is noted in a job. */
@Command(
    name = "close",
    mixinStandardHelpOptions = true,
    description = {
      "Closes a job: its entries stay, and nothing more is noted in it but on a visit ('visit').",
      "Prints a seal. Kept on paper or in the record, it shows later that the job is as it was."
    })
final class CloseCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  CloseCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Seal seal =
        JobDesk.closeJob(
            data.toGoOn(console),
            job.id(),
            new JobDesk.Setting("terminal", "mechanic", console.zone(), console.clock()));
    console.out().println(seal.job() + " is closed");
    console.out().println("seal " + seal);
    console
        .err()
        .println("keep the seal elsewhere: 'verify --seal' shows by it that nothing was altered");
    return ExitCode.CLEAR;
  }
}
