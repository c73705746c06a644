package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.CheckedJob;
import tallyback.report.CheckJson;
import tallyback.report.TextTables;

/** {@code check}: balances, findings, verdict. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = {
      "Shows what is wrong with a job: verdict, findings, balances.",
      "Ends with 1 when there is a finding to act on."
    })
final class CheckCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Option(names = "--json", description = "Print one JSON object instead of tables.")
  private boolean json;

  CheckCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    CheckedJob checked = CheckedJob.read(data.toRead(), job.id());
    if (json) {
      console.out().println(CheckJson.line(checked.job(), checked.outcome()));
    } else {
      TextTables.Paint paint =
          console.terminal() ? TextTables.Paint.COLOUR : TextTables.Paint.PLAIN;
      console
          .out()
          .print(TextTables.of(checked.record(console.clock().instant(), null), paint).all());
    }
    return checked.needsAction() ? ExitCode.FINDINGS : ExitCode.CLEAR;
  }
}
