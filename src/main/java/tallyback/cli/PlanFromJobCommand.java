package tallyback.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.MadePlans;
import tallyback.app.PlanFile;

/** {@code plan-from-job}: the plan that a tear-down turns into. */
@Command(
    name = "plan-from-job",
    mixinStandardHelpOptions = true,
    description = {
      "Draws a plan from a job: what came off, how many, with which heads, from where, and back in"
          + " reverse order.",
      "No torque comes from the job: the maker's figures stand in your manual, and the plan says"
          + " where they are wanted.",
      "Ends with 1 when something could not be decided by what was told: it is asked here and in"
          + " the plan, never guessed."
    })
final class PlanFromJobCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description =
          "The plan file to write; its name ends in .yaml. What stands there with other words is"
              + " kept as a copy beside it. Default: the plan is printed.")
  private @Nullable Path out;

  PlanFromJobCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Path file = out;
    if (file != null) {
      PlanFile.requireKnownEnding(file);
    }
    MadePlans.FromJob drawn = MadePlans.fromJob(data.toRead(), job.id());
    WrittenPlan.tell(console, file, drawn.text());
    drawn.open().forEach(question -> console.err().println("open: " + question));
    drawn.unfit().forEach(console.err()::println);
    return drawn.open().isEmpty() && drawn.unfit().isEmpty() ? ExitCode.CLEAR : ExitCode.FINDINGS;
  }
}
