package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tallyback.app.JobHistory;
import tallyback.report.JobsSheet;

/** {@code compare}: two jobs side by side. */
@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    description = {
      "Shows two jobs side by side: what was found, fluids with how far they may be off, time of each"
          + " step, tightness, what was measured, parts renewed.",
      "Of different plans only what both call by the same name is held against each other."
    })
final class CompareCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private PageOption out = new PageOption();

  @Parameters(index = "0", paramLabel = "JOB", description = "The first job.")
  private String one = "";

  @Parameters(index = "1", paramLabel = "JOB", description = "The second.")
  private String other = "";

  CompareCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    out.requireUsable();
    JobsSheet sheet =
        JobsSheet.of(JobHistory.compare(data.toRead(), one, other), JobsSheet.NO_LINKS);
    out.give(console, to -> to.print(sheet.text()), sheet::page);
    return ExitCode.CLEAR;
  }
}
