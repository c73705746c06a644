package tallyback.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import tallyback.dialogue.Reply;
import tallyback.model.Finding;
import tallyback.model.Verdict;

/**
 * A scripted job on a starter plan, typed line by line as a mechanic would say it. Each line takes
 * a minute; {@code +25 words} comes so many minutes after the one before; {@code #} begins a
 * remark.
 *
 * @param plan the plan it was done by
 * @param answers what became of each line: its words, and what was said to them
 * @param notNoted the lines that were not noted as they stand
 * @param job the job
 */
record SeedJob(LoadedPlan plan, List<String> answers, List<String> notNoted, CheckedJob job) {

  private static final Instant EIGHT = Instant.parse("2026-03-02T08:00:00Z");

  static SeedJob run(Path seed, Path script) throws IOException {
    LoadedPlan plan = LoadedPlan.of(seed);
    JobDesk.Setting setting =
        new JobDesk.Setting("keyboard", "mechanic", ZoneOffset.UTC, () -> EIGHT);
    try (JobDesk desk = JobDesk.withoutData(plan, EIGHT, setting)) {
      TypedLines lines = new TypedLines(desk);
      List<String> answers = new ArrayList<>();
      List<String> notNoted = new ArrayList<>();
      Instant at = EIGHT;
      for (String line : Files.readAllLines(script)) {
        if (line.isBlank() || line.startsWith("#")) {
          continue;
        }
        int minutes = 1;
        String words = line.strip();
        if (words.startsWith("+")) {
          int blank = words.indexOf(' ');
          minutes = Integer.parseInt(words.substring(1, blank));
          words = words.substring(blank + 1);
        }
        at = at.plus(Duration.ofMinutes(minutes));
        TypedLines.Told told = lines.enter("@" + at + " " + words);
        answers.add(words + " -> " + told.line());
        if (told.status() != Reply.Status.NOTED || !told.leftOpen().isEmpty()) {
          notNoted.add(words + " -> " + told.line() + " " + told.leftOpen());
        }
      }
      notNoted.addAll(lines.finish());
      return new SeedJob(
          plan,
          List.copyOf(answers),
          List.copyOf(notNoted),
          CheckedJob.of("trial", plan.plan(), desk.entries()));
    }
  }

  /** The findings, one a line, with those that follow from another under it, and the verdict. */
  String outcome() {
    StringBuilder text = new StringBuilder();
    job.outcome().findings().forEach(finding -> tell(finding, "", text));
    Verdict verdict = job.outcome().verdict();
    return text.append("start for test ")
        .append(verdict.startForTest())
        .append(", work ")
        .append(verdict.work())
        .append(", hand over ")
        .append(verdict.handOver())
        .append('\n')
        .toString();
  }

  private static void tell(Finding finding, String indent, StringBuilder text) {
    text.append(indent)
        .append(finding.weight())
        .append(' ')
        .append(finding.kind())
        .append(": ")
        .append(finding.subject())
        .append(": ")
        .append(finding.found())
        .append('\n');
    finding.followers().forEach(each -> tell(each, indent + "  ", text));
  }
}
