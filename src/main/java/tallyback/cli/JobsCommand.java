package tallyback.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.JobHistory;
import tallyback.app.JobHistory.Figures;
import tallyback.app.JobsJson;
import tallyback.app.WrongUse;
import tallyback.log.JobRow;
import tallyback.log.JobSearch;
import tallyback.log.JobsFound;
import tallyback.log.JobsFound.Found;
import tallyback.log.JobsFound.Hit;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.report.JobsText;
import tallyback.report.SafeText;

/** {@code jobs}: what is in a data file, and where something was said. */
@Command(
    name = "jobs",
    mixinStandardHelpOptions = true,
    description = {
      "Lists the jobs in a data file, the newest first: when, how long, how it stands, what was"
          + " found, plan and machine.",
      "With WORDS only those in which they were said or typed, or whose names hold them: things and"
          + " places of the plan, machine, owner, plan, job. All must be there; the beginning of a"
          + " word will do."
    })
final class JobsCommand implements Callable<Integer> {

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  private final Console console;
  @Mixin private DataOption data = new DataOption();

  @Parameters(paramLabel = "WORDS", description = "What to look for.")
  private List<String> words = List.of();

  @Option(
      names = "--find",
      paramLabel = "WORDS",
      description = "The same as one argument, when it begins with a hyphen.")
  private String find = "";

  @Option(
      names = "--machine",
      paramLabel = "WORDS",
      description = "Only on machines with these words in name, serial number or owner.")
  private String machine = "";

  @Option(
      names = "--plan",
      paramLabel = "WORDS",
      description = "Only of plans with these words in their name.")
  private String plan = "";

  @Option(
      names = "--since",
      paramLabel = "DAY",
      description = "Only opened on this day or later, such as 2026-03-02; or from a time on.")
  private @Nullable String since;

  @Option(
      names = "--until",
      paramLabel = "DAY",
      description = "Only opened on this day or before it; or before a time.")
  private @Nullable String until;

  @Option(names = "--open", description = "Only jobs that are not closed.")
  private boolean open;

  @Option(
      names = "--count",
      paramLabel = "N",
      description = "So many at most, up to 1000. Default: ${DEFAULT-VALUE}.",
      defaultValue = "" + JobSearch.USUAL)
  private int count;

  @Option(
      names = "--before",
      paramLabel = "ID",
      description = "Go on after this job: only older ones.")
  private @Nullable String before;

  @Option(names = "--json", description = "Print one JSON object for each job instead.")
  private boolean json;

  JobsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    JobSearch search =
        JobSearch.ALL
            .withWords((String.join(" ", words) + " " + find).strip())
            .withMachine(machine)
            .withPlan(plan)
            .withTime(
                since == null ? null : time("--since", since, 0),
                until == null ? null : time("--until", until, 1))
            .withOnlyOpen(open)
            .withBefore(before)
            .withCount(count);
    try (LogReader log = SqliteLogs.openForReading(data.toRead())) {
      JobsFound found = log.find(search);
      for (Found each : found.jobs()) {
        Optional<Figures> figures = JobHistory.figures(log, each.job());
        if (json) {
          console.out().println(JobsJson.of(each, figures));
        } else {
          tell(each, figures);
        }
      }
      if (!json) {
        tellEnd(found, search.equals(JobSearch.ALL));
      }
    }
    return ExitCode.CLEAR;
  }

  /** A day counts whole: {@code days} are added to its beginning. */
  private Instant time(String option, String text, int days) {
    try {
      return text.length() <= 10
          ? LocalDate.parse(text).plusDays(days).atStartOfDay(console.zone()).toInstant()
          : OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException e) {
      throw new WrongUse(
          option
              + " "
              + text
              + ": expected a day such as 2026-03-02, or a time such as"
              + " 2026-03-02T09:15:00+01:00");
    }
  }

  private void tell(Found found, Optional<Figures> figures) {
    JobRow job = found.job();
    line(
        "%-16s %-10s %s  %s",
        job.id(),
        JobsText.state(job.closed(), job.closings()),
        TIME.format(job.openedAt().atZone(job.zone())),
        figures
            .map(
                known ->
                    JobsText.worked(known.worked())
                        + ", "
                        + JobsText.entries(job.entries())
                        + ", "
                        + JobsText.findings(known.stops(), known.checks(), known.notes()))
            .orElse(JobsText.entries(job.entries())));
    line("    %s", job.plan().isEmpty() ? "plan not known" : job.plan());
    line("    %s", JobsText.machine(job.machine(), job.serial(), job.owner()));
    if (!job.unread().isEmpty()) {
      line("    can't be read: %s", job.unread());
    }
    for (Hit hit : found.first()) {
      line(
          "      %s  %s%s",
          TIME.format(hit.at().atZone(hit.zone())),
          hit.words(),
          hit.withdrawn() ? "  (taken back or put right later)" : "");
    }
    if (found.hits() > found.first().size()) {
      line("      %s", JobsText.moreHits(found.hits() - found.first().size()));
    }
  }

  private void line(String format, Object... values) {
    console.out().println(SafeText.visible(String.format(Locale.ROOT, format, values)));
  }

  private void tellEnd(JobsFound found, boolean everything) {
    if (found.jobs().isEmpty()) {
      console.out().println(everything ? JobsText.NONE_YET : JobsText.NONE);
    } else if (found.more()) {
      console
          .out()
          .println(
              JobsText.shown(found.jobs().size(), found.all())
                  + "; older ones: --before "
                  + found.jobs().get(found.jobs().size() - 1).job().id());
    }
  }
}
