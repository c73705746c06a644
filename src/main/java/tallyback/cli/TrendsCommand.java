package tallyback.cli;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.JobHistory;
import tallyback.app.WrongUse;
import tallyback.report.JobsSheet;

/** {@code trends}: what changes on one machine from job to job. */
@Command(
    name = "trends",
    mixinStandardHelpOptions = true,
    description = {
      "Shows what changes on one machine from job to job: time worked, its meter, what was missing"
          + " and what came out of each system, torques found when checked, readings.",
      "As a page with charts, as text with tables. One machine is one serial number in the plans."
    })
final class TrendsCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private PageOption out = new PageOption();

  @Option(
      names = "--job",
      paramLabel = "ID",
      description = "The machine of this job. Default: of the only open one, else the newest.")
  private @Nullable String job;

  @Option(
      names = "--machine",
      paramLabel = "WORDS",
      description = "The one machine with these words in name, serial number or owner.")
  private String machine = "";

  TrendsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    out.requireUsable();
    if (job != null && !machine.isBlank()) {
      throw new WrongUse("--job, --machine: expected one of them; leave the other out");
    }
    JobHistory.OfMachine found = JobHistory.trends(data.toRead(), job, machine);
    JobsSheet sheet =
        JobsSheet.of(found.trends(), found.machine(), found.lead(), JobsSheet.NO_LINKS);
    out.give(console, to -> to.print(sheet.text()), sheet::page);
    return ExitCode.CLEAR;
  }
}
