package tallyback.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;

/**
 * The do-not-start tag of a job that is left half open: one sheet to be printed, on A4 or Letter,
 * or shown on a screen. Like {@link HtmlRecord} it needs nothing else, and everything said or named
 * in a plan is escaped. Any thread may use it.
 */
public final class HtmlTag {

  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, HtmlTag.class.getClassLoader(), "tallyback.report");

  private HtmlTag() {}

  /**
   * The sheet as text, to be written as UTF-8.
   *
   * @param job the job
   */
  public static String page(JobRecord job) {
    StringOutput page = new StringOutput();
    TEMPLATES.render("tag.jte", TagSheet.of(job, HtmlRecord.resource("tag.css")), page);
    return SafeText.visible(page.toString());
  }
}
