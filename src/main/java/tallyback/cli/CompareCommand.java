package tallyback.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.JobHistory;
import tallyback.app.RecordFile;
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

  @Parameters(index = "0", paramLabel = "JOB", description = "The first job.")
  private String one = "";

  @Parameters(index = "1", paramLabel = "JOB", description = "The second.")
  private String other = "";

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description =
          "Write a page instead; its name ends in .html. A file of that name is replaced.")
  private @Nullable Path out;

  CompareCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Path file = out;
    if (file != null) {
      RecordFile.requireKnownEnding(file);
    }
    JobsSheet sheet =
        JobsSheet.of(JobHistory.compare(data.toRead(), one, other), JobsSheet.NO_LINKS);
    SheetOutput.give(console, sheet, file);
    return ExitCode.CLEAR;
  }
}
