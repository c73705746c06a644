package tallyback.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tallyback.app.LoadedPlan;
import tallyback.app.WrongUse;

/** {@code lint}: is this plan right, and can all of it be said. */
@Command(
    name = "lint",
    mixinStandardHelpOptions = true,
    description = {
      "Checks plans: are they right, and can all of it be said.",
      "Tells every fault with its line, what was expected and what to do, and ends with 1 if there"
          + " is any."
    })
final class LintCommand implements Callable<Integer> {

  private final Console console;

  @Parameters(arity = "1..*", paramLabel = "PLAN", description = "Plan files, YAML or JSON.")
  private List<Path> plans = List.of();

  LintCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    boolean anyFault = false;
    for (Path file : plans) {
      try {
        LoadedPlan loaded = LoadedPlan.of(file);
        loaded.warnings().forEach(line -> console.out().println(line));
        console.out().println(file + ": " + (loaded.warnings().isEmpty() ? "right" : "usable"));
      } catch (WrongUse faults) {
        faults.lines().forEach(line -> console.out().println(line));
        anyFault = true;
      }
    }
    return anyFault ? ExitCode.FINDINGS : ExitCode.CLEAR;
  }
}
