package tallyback.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.HowHeard;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.review.Change;
import tallyback.review.Doubt;

/** What a review shows, in words. */
public final class ReviewText {

  private ReviewText() {}

  /**
   * One thing that is otherwise.
   *
   * @param what what it is about
   * @param before how it was; empty for nothing
   * @param after how it is; empty for nothing
   */
  public record Line(String what, String before, String after) {}

  /** Why an entry is doubtful. */
  public static String why(Doubt.Why why) {
    return switch (why) {
      case NOT_UNDERSTOOD -> "not understood";
      case UNCONFIRMED -> "asked about, never confirmed";
      case PUT_IN_DOUBT -> "put in doubt by a later entry";
      case CHANGES_NOTHING -> "was to change another, and changes nothing";
      case UNUSABLE -> "can't be counted as it stands";
    };
  }

  /** How an entry came by its words, a line each; none where there is nothing to tell. */
  public static List<String> heard(Entry entry) {
    List<String> lines = new ArrayList<>();
    if (!entry.words().isEmpty()) {
      lines.add("words: " + entry.words());
    }
    List<String> others = entry.readings().stream().filter(words -> !entry.took(words)).toList();
    if (!others.isEmpty()) {
      lines.add((lines.isEmpty() ? "heard: " : "also heard: ") + String.join(" | ", others));
    }
    for (HowHeard.Asked asked : entry.asked()) {
      String answer = asked.answer();
      lines.add(
          "asked: "
              + asked.question()
              + (answer == null ? "; nobody answered" : "; answered: " + answer));
    }
    return lines;
  }

  /** A finding in one line: {@code STOP outlet nuts: 0 of 3 torqued}. */
  public static String finding(Finding finding) {
    return Wording.weight(finding.weight()) + " " + finding.subject() + ": " + finding.says();
  }

  /** An answer in one line, and whether it still holds. */
  public static String answer(Outcome.Answered answered) {
    return Wording.answer(answered);
  }

  /** What an answered finding is about. */
  public static String subject(Outcome.Answered answered) {
    return Wording.answeredSubject(answered);
  }

  /** What an act changes: the verdict first, then findings, then where things are. */
  public static List<Line> lines(Change change, Plan plan) {
    List<Line> lines = new ArrayList<>();
    for (Stage stage : Stage.values()) {
      String before = Wording.answer(Wording.answer(change.verdictBefore(), stage));
      String after = Wording.answer(Wording.answer(change.verdictAfter(), stage));
      if (!before.equals(after)) {
        lines.add(new Line(Wording.question(stage), before, after));
      }
    }
    for (Finding gone : change.gone()) {
      lines.add(
          new Line(
              gone.subject(),
              Wording.weight(gone.weight()) + " " + gone.says(),
              isAnswered(gone, change.after()) ? "answered" : "no finding any more"));
    }
    for (Finding now : change.altered()) {
      String before =
          change.before().findings().stream()
              .flatMap(each -> Stream.concat(Stream.of(each), each.followers().stream()))
              .filter(each -> each.id().equals(now.id()))
              .map(each -> Wording.weight(each.weight()) + " " + each.says())
              .findFirst()
              .orElse("");
      lines.add(new Line(now.subject(), before, Wording.weight(now.weight()) + " " + now.says()));
    }
    for (Finding come : change.come()) {
      lines.add(new Line(come.subject(), "", Wording.weight(come.weight()) + " " + come.says()));
    }
    for (Change.Moved moved : change.moved()) {
      String before = moved.before() == null ? "" : Wording.balance(moved.before());
      String after = moved.after() == null ? "" : Wording.balance(moved.after());
      String label =
          moved.after() != null
              ? Wording.label(moved.after(), plan)
              : moved.before() != null ? Wording.label(moved.before(), plan) : "";
      lines.add(new Line(label, before, after));
    }
    return lines;
  }

  private static boolean isAnswered(Finding finding, Outcome after) {
    return after.settled().stream().anyMatch(each -> each.answer().finding().equals(finding.id()));
  }
}
