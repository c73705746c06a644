package tallyback.reconcile;

import java.util.List;
import tallyback.model.Finding;
import tallyback.model.Verdict;

/**
 * An outcome's findings as plain text, every field of them, for comparing with what was expected.
 */
final class FindingLines {

  private FindingLines() {}

  static String of(Outcome outcome) {
    StringBuilder text = new StringBuilder();
    outcome.findings().forEach(finding -> add(text, finding, ""));
    Verdict verdict = outcome.verdict();
    text.append("verdict: start for test ")
        .append(verdict.startForTest())
        .append(", work ")
        .append(verdict.work())
        .append(", hand over ")
        .append(verdict.handOver())
        .append('\n');
    return text.toString();
  }

  private static void add(StringBuilder text, Finding finding, String indent) {
    text.append(indent)
        .append(finding.kind())
        .append(" (")
        .append(finding.weight())
        .append(", against ")
        .append(finding.stages())
        .append("): ")
        .append(finding.subject())
        .append('\n');
    line(text, indent, "expected", finding.expected());
    line(text, indent, "found", finding.found());
    if (finding.difference() != null) {
      line(text, indent, "difference", finding.difference());
    }
    if (finding.tolerance() != null) {
      line(text, indent, "tolerance", finding.tolerance());
    }
    line(text, indent, "seen in", String.join(" ", finding.entries()));
    line(text, indent, "remedy", finding.remedy());
    List<Finding> followers = finding.followers();
    followers.forEach(follower -> add(text, follower, indent + "    "));
  }

  private static void line(StringBuilder text, String indent, String name, String value) {
    text.append(indent).append("  ").append(name).append(": ").append(value).append('\n');
  }
}
