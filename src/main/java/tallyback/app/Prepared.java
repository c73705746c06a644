package tallyback.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.phrase.CardSection;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.planning.PrepSheet;
import tallyback.planning.Preparation;
import tallyback.reconcile.PastJob;
import tallyback.report.HtmlPrep;

/**
 * What to lay out before a job, or still to get in the middle of one. Immutable.
 *
 * @param plan the plan
 * @param sheet what it needs
 * @param card its phrase card
 * @param job the job it is for, or null before one
 */
public record Prepared(Plan plan, PrepSheet sheet, List<CardSection> card, @Nullable String job) {

  /** Copies the list. */
  public Prepared {
    card = List.copyOf(card);
  }

  /**
   * Before a job.
   *
   * @param loaded its plan
   * @param data where jobs of it may have been noted before
   */
  public static Prepared before(LoadedPlan loaded, Optional<Path> data) {
    Plan plan = loaded.plan();
    List<PastJob> past = data.map(file -> CheckedJob.pastOf(file, plan.name())).orElse(List.of());
    return new Prepared(plan, Preparation.of(plan, minutes(past)), loaded.grammar().card(), null);
  }

  /**
   * In the middle of a job, by the plan that is frozen in it.
   *
   * @param data the data file
   * @param job its id
   */
  public static Prepared inJob(Path data, String job) {
    CheckedJob checked = CheckedJob.read(data, job);
    Plan plan = checked.plan();
    PrepSheet sheet =
        Preparation.of(plan, Books.of(plan, checked.entries()), minutes(checked.past()));
    return new Prepared(plan, sheet, EntryGrammar.of(plan).card(), checked.job());
  }

  private static List<Integer> minutes(List<PastJob> past) {
    return past.stream().map(each -> (int) each.worked().toMinutes()).toList();
  }

  /** As a page for print, HTML in UTF-8. */
  public String page() {
    return HtmlPrep.page(plan, sheet, card, job);
  }

  /** As lines for a terminal. */
  public List<String> lines() {
    return HtmlPrep.lines(plan, sheet, job);
  }
}
