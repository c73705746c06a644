package tallyback.reconcile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tallyback.books.Standing;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Statement.FindingEnd;
import tallyback.model.Weight;
import tallyback.reconcile.Outcome.Answered;

/**
 * What answers make of findings. An answer holds only while the finding reads as it did when it was
 * given, and rests on nothing that was noted since: whatever the job tells since then was not known
 * to whoever gave it, even if it is the same once more. The last one counts. It ends the one
 * finding and nothing that follows from it. Nobody can agree to a stop: only work on the machine,
 * or a correction of what was noted, ends it. Used by one thread.
 */
final class FindingAnswers {

  /** The last answer to each finding, by the finding. */
  private final Map<String, Entry> last = new LinkedHashMap<>();

  private final Map<String, Long> numbers = new HashMap<>();
  private final List<Answered> given = new ArrayList<>();

  /**
   * The answers of a job.
   *
   * @param standing those of its entries that stand
   * @param all every entry of it
   */
  FindingAnswers(List<Standing> standing, List<Entry> all) {
    standing.stream()
        .map(Standing::entry)
        .filter(entry -> entry.confirmed() && entry.statement() instanceof FindingAnswered)
        .sorted(Comparator.comparingLong(Entry::seq))
        .forEach(entry -> last.put(answer(entry).finding(), entry));
    if (!last.isEmpty()) {
      all.forEach(entry -> numbers.put(entry.id(), entry.seq()));
    }
  }

  private static FindingAnswered answer(Entry entry) {
    return (FindingAnswered) entry.statement();
  }

  /** Those that stand for all that was answered. */
  List<Draft> standing(List<Draft> drafts) {
    if (last.isEmpty()) {
      return drafts;
    }
    Set<String> found = new HashSet<>();
    List<Draft> standing = new ArrayList<>();
    for (Draft draft : drafts) {
      Entry entry = last.get(draft.identity());
      boolean settled = false;
      if (entry != null && found.add(draft.identity())) {
        Answered answered = answered(entry, draft.finish(List.of()));
        given.add(answered);
        settled = answered.settles();
      }
      if (!settled) {
        standing.add(draft);
      }
    }
    last.forEach(
        (finding, entry) -> {
          if (!found.contains(finding)) {
            given.add(new Answered(entry, answer(entry), null, false, false));
          }
        });
    given.sort(Comparator.comparingLong(each -> each.entry().seq()));
    return standing;
  }

  private Answered answered(Entry entry, Finding finding) {
    boolean more =
        finding.entries().stream()
            .anyMatch(id -> numbers.getOrDefault(id, 0L).longValue() > entry.seq());
    boolean holds = !more && finding.says().equals(answer(entry).read());
    boolean settles = holds && ends(answer(entry).end(), finding.weight());
    return new Answered(entry, answer(entry), finding, holds, settles);
  }

  private static boolean ends(FindingEnd end, Weight weight) {
    return switch (end) {
      case FIXED -> true;
      case ACCEPTED -> weight != Weight.STOP;
      case LOOK_AGAIN -> false;
    };
  }

  /** The answers, by when they were noted; known once it was asked what stands. */
  List<Answered> given() {
    return List.copyOf(given);
  }
}
