package tallyback.cli;

import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;

/** {@code jobs}: what is in a data file. */
@Command(
    name = "jobs",
    mixinStandardHelpOptions = true,
    description = "Lists the jobs in a data file: name, opened when, how many entries, plan.")
final class JobsCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();

  JobsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    DateTimeFormatter time =
        DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(console.zone());
    try (LogReader log = SqliteLogs.openForReading(data.toRead())) {
      for (JobSummary job : log.jobs()) {
        console
            .out()
            .println(
                String.format(
                    Locale.ROOT,
                    "%-16s %-6s %s  %4d entries  %s",
                    job.id(),
                    job.closed() ? "closed" : "open",
                    time.format(job.openedAt()),
                    job.entryCount(),
                    job.planName()));
      }
    }
    return ExitCode.CLEAR;
  }
}
