package tallyback.report;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Source;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Weight;

/**
 * What stands on a do-not-start tag.
 *
 * @param style its style sheet
 * @param machine the machine
 * @param serial number of this one machine, or empty
 * @param job what is being done, and the name of the job
 * @param leftBy who left it
 * @param leftAt when
 * @param open what is open, stops first
 * @param more how many things more, in words, or empty
 */
record TagSheet(
    String style,
    String machine,
    String serial,
    String job,
    String leftBy,
    String leftAt,
    List<Line> open,
    String more) {

  /** As many as can be read from an arm's length on one sheet. */
  private static final int LINES = 7;

  private static final String HALF_OPEN = "left-half-open";

  /**
   * One thing that is open.
   *
   * @param what what it is
   * @param how how it stands
   */
  record Line(String what, String how) {}

  /** Copies its list. */
  public TagSheet {
    open = List.copyOf(open);
  }

  static TagSheet of(JobRecord job, String style) {
    List<Finding> open = open(job);
    Entry left = left(job);
    ZoneId zone = left.zone();
    String serial = job.plan().machine().serial();
    int more = open.size() - LINES;
    return new TagSheet(
        style,
        job.plan().machine().name(),
        serial == null ? "" : serial,
        job.plan().name() + " (" + job.heading().job() + ")",
        job.plan().label(left.actor()),
        ShopTime.full(left.happenedAt(), zone),
        open.stream()
            .limit(LINES)
            .map(each -> new Line(each.subject(), Wording.together(each.inShort())))
            .toList(),
        more > 0 ? "and " + more + " more: see the record of the job" : "");
  }

  /** The entry by which it was left, else the last that somebody made. */
  private static Entry left(JobRecord job) {
    Entry last = job.entries().get(0);
    for (Entry entry : job.entries()) {
      last = entry.source() == Source.TOOL ? last : entry;
    }
    for (Entry entry : job.entries()) {
      last = entry.statement() instanceof LeftForNight ? entry : last;
    }
    return last;
  }

  /** What stands against it by what was said, stops first. What nobody has come to is not open. */
  private static List<Finding> open(JobRecord job) {
    List<Finding> open = new ArrayList<>();
    for (Finding finding : job.outcome().findings()) {
      if (finding.kind().equals(HALF_OPEN)) {
        open.addAll(finding.followers());
      } else {
        open.add(finding);
      }
    }
    open.removeIf(finding -> finding.weight() == Weight.NOTE || finding.entries().isEmpty());
    open.sort(Comparator.comparing(Finding::weight));
    return open;
  }
}
