package tallyback.reconcile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tallyback.books.Standing;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Statement.FindingEnd;
import tallyback.model.Weight;
import tallyback.reconcile.Outcome.Answered;

/**
 * What answers make of findings. An answer holds only while the finding reads as it did when it was
 * given: whatever the job tells since then was not known to whoever gave it. The last one counts.
 * Nobody can agree to a stop: only work on the machine, or a correction of what was noted, ends it.
 *
 * @param standing the findings that stand
 * @param given the answers, by when they were noted
 */
record FindingAnswers(List<Finding> standing, List<Answered> given) {

  static FindingAnswers of(List<Finding> findings, List<Standing> entries) {
    Map<String, Entry> last = new LinkedHashMap<>();
    entries.stream()
        .map(Standing::entry)
        .filter(entry -> entry.confirmed() && entry.statement() instanceof FindingAnswered)
        .sorted(Comparator.comparingLong(Entry::seq))
        .forEach(entry -> last.put(((FindingAnswered) entry.statement()).finding(), entry));
    if (last.isEmpty()) {
      return new FindingAnswers(findings, List.of());
    }
    Map<String, Finding> byId = new LinkedHashMap<>();
    findings.forEach(finding -> byId.put(finding.id(), finding));
    List<Answered> given = new ArrayList<>();
    List<Finding> standing = new ArrayList<>(findings);
    last.values().stream()
        .sorted(Comparator.comparingLong(Entry::seq))
        .forEach(
            entry -> {
              FindingAnswered answer = (FindingAnswered) entry.statement();
              Finding finding = byId.get(answer.finding());
              boolean holds = finding != null && finding.says().equals(answer.read());
              boolean settles = finding != null && holds && ends(answer.end(), finding.weight());
              if (settles) {
                standing.removeIf(each -> each.id().equals(answer.finding()));
              }
              given.add(new Answered(entry, answer, finding, holds, settles));
            });
    return new FindingAnswers(standing, given);
  }

  private static boolean ends(FindingEnd end, Weight weight) {
    return switch (end) {
      case FIXED -> true;
      case ACCEPTED -> weight != Weight.STOP;
      case LOOK_AGAIN -> false;
    };
  }
}
