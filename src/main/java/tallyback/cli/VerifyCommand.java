package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tallyback.log.LogReader;
import tallyback.log.VerifyReport;
import tallyback.log.sqlite.SqliteLogs;

/** {@code verify}: was anything altered after it was noted. */
@Command(
    name = "verify",
    mixinStandardHelpOptions = true,
    description = "Checks a data file: hash chain, guards against change, sound clips.")
final class VerifyCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();

  VerifyCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    try (LogReader log = SqliteLogs.openForReading(data.toRead())) {
      VerifyReport report = log.verify();
      report.problems().forEach(problem -> console.out().println(problem));
      report.notices().forEach(notice -> console.out().println(notice));
      console
          .out()
          .println(
              report.jobCount()
                  + " jobs, "
                  + report.entryCount()
                  + " entries, "
                  + report.clipCount()
                  + " clips: "
                  + (report.sound() ? "sound" : report.problems().size() + " problems"));
      return report.sound() ? ExitCode.CLEAR : ExitCode.FINDINGS;
    }
  }
}
