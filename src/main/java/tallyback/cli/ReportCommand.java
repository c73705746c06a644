package tallyback.cli;

import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.CheckedJob;
import tallyback.app.KeptPictures;
import tallyback.app.KeptSounds;
import tallyback.app.RecordFile;
import tallyback.app.WrongUse;
import tallyback.report.JobRecord;
import tallyback.report.owner.OwnerPictures;

/** {@code report}: the record of a job as a page. */
@Command(
    name = "report",
    mixinStandardHelpOptions = true,
    description = {
      "Writes the record of a job. A file of that name is replaced.",
      "As .html, for whoever reviews the job: verdict, findings, balances, tightness, timeline,"
          + " entries.",
      "With --owner, or as .pdf: for the owner of the machine, two pages in plain words, annexes"
          + " behind them.",
      "With --timeline: everything said over time, to move about in, with the sounds.",
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
      description = "The file to write; its name ends in .html or .pdf.")
  private @Nullable Path out;

  @Option(
      names = "--tag",
      description =
          "Write a do-not-start tag to hang on the machine instead: what is open, who left it, when.")
  private boolean tag;

  @Option(
      names = "--owner",
      description = "Write the record for the owner of the machine. A .pdf always is that one.")
  private boolean owner;

  @Option(
      names = "--timeline",
      description = "Write the timeline instead: one file to open in any browser, without network.")
  private boolean timeline;

  @Option(names = "--without-sound", description = "Leave the sounds out of the timeline.")
  private boolean withoutSound;

  @Mixin private OwnerOption form = new OwnerOption();

  ReportCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Path file = java.util.Objects.requireNonNull(out, "picocli asks for it");
    boolean pdf = RecordFile.isPdf(file);
    refuseWhatDoesNotFit(pdf);
    CheckedJob checked = CheckedJob.read(data.toRead(), job.id());
    JobRecord record = checked.record(console.clock().instant(), null);
    if (owner || pdf) {
      JobRecord shown = record.withPictures(KeptPictures.read(data.toRead(), checked.entries()));
      RecordFile.writeOwner(
          file, shown, form.form(data.usualFolder()).with(OwnerPictures.of(shown)));
    } else if (tag) {
      RecordFile.writeTag(file, record);
    } else if (timeline) {
      writeTimeline(file, record.withPictures(KeptPictures.read(data.toRead(), checked.entries())));
    } else {
      RecordFile.write(
          file,
          record
              .with(KeptSounds.read(data.toRead(), checked.entries()))
              .withPictures(KeptPictures.read(data.toRead(), checked.entries())));
    }
    console.out().println(file.toAbsolutePath());
    return ExitCode.CLEAR;
  }

  private void writeTimeline(Path file, JobRecord record) {
    if (withoutSound) {
      RecordFile.writeTimeline(file, record, Map.of());
    } else {
      KeptSounds.All all = KeptSounds.all(data.toRead(), record.entries());
      RecordFile.writeTimeline(file, record.with(all.sounds()), all.silent());
    }
  }

  private void refuseWhatDoesNotFit(boolean pdf) {
    if (timeline && (tag || owner || pdf)) {
      throw new WrongUse(
          "--timeline: expected a name that ends in .html, and neither --owner nor --tag: the"
              + " timeline is a page of its own");
    }
    if (withoutSound && !timeline) {
      throw new WrongUse("--without-sound: only the timeline has all sounds; add --timeline");
    }
    if (tag && (owner || pdf)) {
      throw new WrongUse(
          "--tag: expected a name that ends in .html, and no --owner: the tag is a page of its own");
    }
    if (form.given() && !owner && !pdf) {
      throw new WrongUse(
          "--paper, --units: only the owner's record has them; add --owner, or end the name in .pdf");
    }
  }
}
