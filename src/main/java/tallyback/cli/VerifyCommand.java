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
    description = {
      "Tells whether anything in a data file was altered after it was noted.",
      "Checks every entry, every sound clip and the guards against change; ends with 1 if something"
          + " is wrong."
    })
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
              count(report.jobCount(), "job", "jobs")
                  + ", "
                  + count(report.entryCount(), "entry", "entries")
                  + ", "
                  + count(report.clipCount(), "sound clip", "sound clips")
                  + ": "
                  + (report.sound()
                      ? "all in order"
                      : count(report.problems().size(), "problem", "problems")));
      return report.sound() ? ExitCode.CLEAR : ExitCode.FINDINGS;
    }
  }

  private static String count(long count, String one, String many) {
    return count + " " + (count == 1 ? one : many);
  }
}
