package tallyback.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.RecordSeal;
import tallyback.app.RecordText;
import tallyback.log.JobSummary;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.Seal;
import tallyback.log.VerifyReport;
import tallyback.log.VerifyReport.Problem;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.report.SafeText;

/** {@code verify}: was anything altered after it was noted. */
@Command(
    name = "verify",
    mixinStandardHelpOptions = true,
    description = {
      "Tells whether anything in a data file was altered after it was noted.",
      "Checks every entry, sound clip and picture and the guards against change; ends with 1 if"
          + " something is wrong.",
      "With a seal also that nobody wrote the file anew, or cut the job off, since it was given."
    })
final class VerifyCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();

  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--seal",
      paramLabel = "SEAL",
      description = "What 'close' printed, kept elsewhere; of one or several jobs.")
  private List<String> seals = List.of();

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "A record for the owner, .pdf or .html, made after 'close': its seal is taken.")
  private List<Path> records = List.of();

  VerifyCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    try (LogReader log = SqliteLogs.openForReading(data.toRead())) {
      VerifyReport report = log.verify();
      List<Problem> problems = new ArrayList<>(report.problems());
      List<String> says = new ArrayList<>(report.notices());
      sealed(log, problems, says);
      problems.forEach(problem -> console.out().println(problem));
      says.forEach(console.out()::println);
      console
          .out()
          .println(
              count(report.jobCount(), "job", "jobs")
                  + ", "
                  + count(report.entryCount(), "entry", "entries")
                  + ", "
                  + count(report.clipCount(), "sound clip", "sound clips")
                  + (report.pictureCount() == 0
                      ? ""
                      : ", " + count(report.pictureCount(), "picture", "pictures"))
                  + ": "
                  + (problems.isEmpty()
                      ? "all in order"
                      : count(problems.size(), "problem", "problems")));
      return problems.isEmpty() ? ExitCode.CLEAR : ExitCode.FINDINGS;
    }
  }

  /** What stands in the file says nothing against whoever wrote the whole file: seals do. */
  private void sealed(LogReader log, List<Problem> problems, List<String> says) {
    List<Seal> given = new ArrayList<>(seals.stream().map(Seal::read).toList());
    List<String> jobs = log.jobs().stream().map(JobSummary::id).toList();
    for (Path file : records) {
      Seal seal = RecordSeal.in(file, jobs);
      given.add(seal);
      told(file, log, seal, problems, says);
    }
    for (Seal seal : given) {
      JobSummary found =
          log.jobs().stream().filter(each -> each.id().equals(seal.job())).findFirst().orElse(null);
      String where = "seal of job " + seal.job();
      if (found == null) {
        problems.add(new Problem(where, "the job in this file", "none of that name"));
        continue;
      }
      String hash = log.hashOf(seal.job(), seal.seq()).orElse(null);
      if (hash == null) {
        problems.add(
            new Problem(
                where,
                count(seal.seq(), "entry", "entries") + " at least, as sealed",
                found.entryCount() + ": it was cut off after the seal was given"));
      } else if (!seal.fits(hash)) {
        problems.add(
            new Problem(
                where,
                "entry " + seal.seq() + " as sealed",
                "another: " + Seal.of(seal.job(), seal.seq(), hash)));
      } else {
        says.add(
            "job "
                + seal.job()
                + ": entries 1 to "
                + seal.seq()
                + " are those that were sealed"
                + added(found.entryCount() - seal.seq()));
      }
    }
    for (JobSummary each : log.jobs()) {
      if (job.id() == null || each.id().equals(job.id())) {
        log.seals(each.id())
            .forEach(seal -> says.add("seal " + seal + added(each.entryCount() - seal.seq())));
      }
    }
    if (given.isEmpty()) {
      console
          .err()
          .println(
              "what this can't show: that nobody wrote the whole file anew; a seal kept elsewhere"
                  + " can: verify --seal, or --record with the owner's record");
    }
  }

  /** Whether a record tells every entry as the log has it. */
  private static void told(
      Path file, LogReader log, Seal seal, List<Problem> problems, List<String> says) {
    RecordText.Held held;
    try {
      held = RecordText.against(file, log, seal).orElse(null);
    } catch (LogFailed altered) {
      // Told above, entry by entry.
      return;
    }
    if (held == null) {
      says.add(file + ": its plan can't be read any more, so its words were not compared");
    } else if (held.differs() != null) {
      problems.add(
          new Problem(
              file + ", entry no. " + held.number(),
              "as the log has it: " + SafeText.visible(held.differs()),
              "told otherwise, or not at all"));
    } else {
      says.add(
          file
              + ": tells "
              + count(held.lines(), "entry", "entries")
              + " as the log has them; its first pages and pictures were not compared");
    }
  }

  private static String added(long entries) {
    return entries == 0
        ? ""
        : "; " + count(entries, "entry was", "entries were") + " added after it";
  }

  private static String count(long count, String one, String many) {
    return count + " " + (count == 1 ? one : many);
  }
}
