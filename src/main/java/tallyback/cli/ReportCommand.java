package tallyback.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.CheckedJob;
import tallyback.app.KeptSounds;
import tallyback.app.RecordFile;
import tallyback.report.JobRecord;

/** {@code report}: the record of a job as a page. */
@Command(
    name = "report",
    mixinStandardHelpOptions = true,
    description = {
      "Writes the record of a job as one page for any browser and for print.",
      "Verdict, findings, balances, tightness, timeline, entries. A file of that name is replaced.",
      "With --tag: one sheet to hang on a machine that is left half open."
    })
final class ReportCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "The file to write; its name ends in .html.")
  private @Nullable Path out;

  @Option(
      names = "--tag",
      description =
          "Write a do-not-start tag to hang on the machine instead: what is open, who left it, when.")
  private boolean tag;

  ReportCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Path file = java.util.Objects.requireNonNull(out, "picocli asks for it");
    RecordFile.requireKnownEnding(file);
    CheckedJob checked = CheckedJob.read(data.toRead(), job.id());
    JobRecord record = checked.record(console.clock().instant(), null);
    if (tag) {
      RecordFile.writeTag(file, record);
    } else {
      RecordFile.write(file, record.with(KeptSounds.read(data.toRead(), checked.entries())));
    }
    console.out().println(file.toAbsolutePath());
    return ExitCode.CLEAR;
  }
}
