package tallyback.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.phrase.CardSection;
import tallyback.plan.Plan;
import tallyback.planning.PrepSheet;

/**
 * The sheet to lay out by before a job, for print on A4 or Letter, for a screen, or as plain lines.
 * Everything named in a plan is escaped. Any thread may use it.
 */
public final class HtmlPrep {

  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, HtmlPrep.class.getClassLoader(), "tallyback.report");

  private HtmlPrep() {}

  /**
   * The sheet as a page, to be written as UTF-8.
   *
   * @param plan the plan
   * @param sheet what it needs
   * @param card its phrase card
   * @param underWay the job in the middle of which it is asked, or null before one
   */
  public static String page(
      Plan plan, PrepSheet sheet, List<CardSection> card, @Nullable String underWay) {
    StringOutput page = new StringOutput();
    TEMPLATES.render(
        "prep.jte",
        PrepPage.of(plan, sheet, card, underWay, HtmlRecord.resource("prep.css")),
        page);
    return SafeText.visible(page.toString());
  }

  /** The sheet as lines for a terminal, without the phrase card; parameters as above. */
  public static List<String> lines(Plan plan, PrepSheet sheet, @Nullable String underWay) {
    PrepPage page = PrepPage.of(plan, sheet, List.of(), underWay, "");
    List<String> lines = new ArrayList<>();
    lines.add(page.title() + ": " + page.job());
    lines.add(page.machine());
    page.head().forEach(fact -> lines.add(fact.name() + ": " + fact.value()));
    for (PrepPage.Box box : page.boxes()) {
      lines.add("");
      lines.add(box.heading());
      for (PrepPage.Line line : box.lines()) {
        String both =
            line.what().isEmpty()
                ? line.how()
                : line.how().isEmpty() ? line.what() : line.what() + ": " + line.how();
        lines.add((line.tick() ? "  [ ] " : "      ") + both);
      }
      if (!box.note().isEmpty()) {
        lines.add("      " + box.note());
      }
    }
    if (!page.cautions().isEmpty()) {
      lines.add("");
      lines.add("Mind");
      page.cautions().forEach(caution -> lines.add("  - " + caution));
    }
    lines.add("");
    lines.add(page.deferral());
    return lines.stream().map(SafeText::visible).toList();
  }
}
