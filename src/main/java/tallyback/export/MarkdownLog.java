package tallyback.export;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement.LookAgain;
import tallyback.reconcile.Outcome.Answered;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;
import tallyback.report.ReviewText;

/**
 * The log of a job to read, as CommonMark with tables. Whatever somebody said or named is escaped,
 * so that it is neither a tag, a link, a heading nor the end of a cell.
 */
final class MarkdownLog {

  /** What could begin something else, wherever it stands. */
  private static final Pattern MEANINGFUL = Pattern.compile("[\\\\`*_\\[\\]<>|~&$@]");

  /** What a reader would make a link of. */
  private static final Pattern ADDRESS = Pattern.compile("(?i)(www|\\w)(\\.(?<=www\\.)|:(?=/))");

  private static final Pattern LIST_START = Pattern.compile("^(\\d+)([.)])(?=\\s|$)|^([-+:#])");

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.ENGLISH);

  private final JobRecord job;
  private final JobWords words;
  private final StringBuilder text = new StringBuilder();

  private MarkdownLog(JobRecord job) {
    this.job = job;
    this.words = JobWords.of(job);
  }

  static String text(JobRecord job) {
    MarkdownLog log = new MarkdownLog(job);
    log.heading();
    log.verdict();
    log.findings();
    log.unsaid();
    log.lookAgain();
    log.entries();
    return log.text.toString();
  }

  /** Words of a user, as nothing but words. */
  static String escaped(String words) {
    String line = Line.of(words).strip();
    String safe = MEANINGFUL.matcher(line).replaceAll("\\\\$0");
    safe = ADDRESS.matcher(safe).replaceAll("$1\\\\$2");
    return LIST_START
        .matcher(safe)
        .replaceFirst(
            found ->
                found.group(1) == null
                    ? "\\\\" + found.group(3)
                    : found.group(1) + "\\\\" + found.group(2));
  }

  private void heading() {
    line("# " + escaped(words.title()));
    line("");
    line(escaped(words.jobLine()));
  }

  private void verdict() {
    line("");
    line("## Verdict");
    line("");
    line("| asked | answer | why |");
    line("| --- | --- | --- |");
    for (JobWords.Verdict stage : words.verdict()) {
      line(
          "| "
              + escaped(stage.question())
              + " | **"
              + escaped(stage.answer())
              + "** | "
              + escaped(stage.reason())
              + " |");
    }
    line("");
    line(escaped(JobWords.deferral()));
  }

  private void findings() {
    line("");
    line("## Findings");
    List<Finding> findings = job.outcome().findings();
    if (findings.isEmpty()) {
      line("");
      line("None in what was told.");
    }
    for (int index = 0; index < findings.size(); index++) {
      Finding finding = findings.get(index);
      line("");
      line(
          "### "
              + (index + 1)
              + ". "
              + JobWords.weight(finding.weight())
              + ": "
              + escaped(finding.subject()));
      line("");
      fact("found", finding.found());
      fact("expected", finding.expected());
      fact("differs", finding.difference() == null ? "" : finding.difference());
      fact("allowed", finding.tolerance() == null ? "" : finding.tolerance());
      fact("told", words.told(finding.entries()));
      for (Finding follower : finding.followers()) {
        fact("so also", follower.subject() + ": " + follower.found());
      }
      fact("what to do", finding.remedy());
    }
    List<Answered> answers = job.outcome().answers();
    if (!answers.isEmpty()) {
      line("");
      line("## Answered");
      line("");
      answers.forEach(
          each ->
              line(
                  "- no. "
                      + each.entry().seq()
                      + ", "
                      + escaped(ReviewText.subject(each))
                      + ": "
                      + escaped(ReviewText.answer(each))));
    }
  }

  private void fact(String name, String value) {
    if (!value.isEmpty()) {
      line("- " + name + ": " + escaped(value));
    }
  }

  private void unsaid() {
    List<String> unsaid = job.outcome().unchecked();
    if (!unsaid.isEmpty()) {
      line("");
      line("## Not said");
      line("");
      unsaid.forEach(each -> line("- " + escaped(each)));
    }
  }

  private void lookAgain() {
    List<String> rows = new ArrayList<>();
    for (Entry entry : job.outcome().standing()) {
      if (entry.statement() instanceof LookAgain again) {
        rows.add(
            "| "
                + DAY.format(again.dueOn(entry.happenedAt(), entry.zone()))
                + " | "
                + escaped(words.meaning(entry))
                + " | "
                + entry.seq()
                + (entry.confirmed() ? "" : " (" + ExportText.NOT_CONFIRMED + ")")
                + " |");
      }
    }
    for (Answered answered : job.outcome().answers()) {
      LocalDate day = answered.answer().again();
      if (day != null && answered.holds()) {
        rows.add(
            "| "
                + DAY.format(day)
                + " | "
                + escaped(ReviewText.subject(answered))
                + " | "
                + answered.entry().seq()
                + " |");
      }
    }
    if (!rows.isEmpty()) {
      line("");
      line("## To look at again");
      line("");
      line("| day | what | no. |");
      line("| --- | --- | --- |");
      rows.forEach(this::line);
    }
  }

  private void entries() {
    ZoneId zone = job.heading().zone();
    line("");
    line("## All entries");
    line("");
    line("Times of " + escaped(zone.getId()) + ". What was withdrawn or corrected is struck out.");
    line("");
    line("| no. | time | who | what | words | remarks |");
    line("| ---: | --- | --- | --- | --- | --- |");
    for (Entry entry : job.entries()) {
      List<String> remarks = new ArrayList<>();
      if (!entry.confirmed()) {
        remarks.add(ExportText.NOT_CONFIRMED);
      }
      remarks.addAll(words.fate(entry));
      String meaning = escaped(words.meaning(entry));
      line(
          "| "
              + entry.seq()
              + " | "
              + words.clock(entry)
              + " | "
              + escaped(job.plan().label(entry.actor()))
              + " | "
              + (words.struck(entry) ? "~~" + meaning + "~~" : meaning)
              + " | "
              + escaped(entry.words())
              + " | "
              + escaped(String.join("; ", remarks))
              + " |");
    }
  }

  private void line(String line) {
    text.append(line).append('\n');
  }
}
