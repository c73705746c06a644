package tallyback.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.MadePlans;
import tallyback.app.PlanFile;
import tallyback.planning.LearnedText;
import tallyback.planning.PastJobs;

/** {@code plan-learn}: what past jobs of a plan tell for the next. */
@Command(
    name = "plan-learn",
    mixinStandardHelpOptions = true,
    description = {
      "Shows what the closed jobs of a plan tell for the next one: minutes of each step, what came"
          + " out of each drain, fluids, tools, what stuck. Medians with their spread.",
      "With --out the plan is written with these minutes and drained amounts. Torques and limits"
          + " are never learned."
    })
final class PlanLearnCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description = "The plan that learns. Default: the plan of the job.")
  private @Nullable Path plan;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description =
          "The plan file to write; its name ends in .yaml. What stands there with other words is"
              + " kept as a copy beside it, with its remarks.")
  private @Nullable Path out;

  PlanLearnCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Path file = out;
    if (file != null) {
      PlanFile.requireKnownEnding(file);
    }
    PastJobs learned = MadePlans.learn(data.toRead(), plan, job.id());
    if (file == null) {
      LearnedText.lines(learned).forEach(console.out()::println);
    } else {
      WrittenPlan.tell(console, file, learned.text());
      LearnedText.lines(learned).forEach(console.err()::println);
    }
    return ExitCode.CLEAR;
  }
}
