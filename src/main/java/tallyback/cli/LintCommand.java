package tallyback.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tallyback.app.LoadedPlan;
import tallyback.model.Weight;
import tallyback.planning.PlanLint;

/** {@code lint}: is this plan right, and can all of it be said. */
@Command(
    name = "lint",
    mixinStandardHelpOptions = true,
    description = {
      "Checks plans: are they right, and can all of it be said.",
      "Tells everything at once, each with its line, what was expected and what to do. stop: it can't be",
      "used so, or would hurt; check: most likely a slip; note: unusual, and yet often right. Ends",
      "with 1 if there is any stop or check."
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
    boolean clear = true;
    for (Path file : plans) {
      PlanLint lint = LoadedPlan.lint(file);
      lint.faults().forEach(fault -> console.out().println(fault.weighedText()));
      if (!lint.open().isEmpty()) {
        console
            .out()
            .println(file + ": to enter from your manual: " + String.join(", ", lint.open()));
      }
      Weight heaviest = lint.heaviest().orElse(null);
      if (heaviest != Weight.STOP) {
        console.out().println(file + ": " + (heaviest == Weight.CHECK ? "usable" : "right"));
      }
      clear &= heaviest == null || heaviest == Weight.NOTE;
    }
    return clear ? ExitCode.CLEAR : ExitCode.FINDINGS;
  }
}
