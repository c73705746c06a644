package tallyback.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/**
 * The record of a job as one page that needs nothing else: style and picture are inside, it runs no
 * script and fetches nothing. It reads from 360 pixels width upward, in light and dark, and prints
 * on A4 and Letter. Everything that was said or named in a plan is escaped. Any thread may use it.
 */
public final class HtmlRecord {

  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, HtmlRecord.class.getClassLoader(), "tallyback.report");

  private HtmlRecord() {}

  /**
   * The page as text, to be written as UTF-8.
   *
   * @param job the job
   */
  public static String page(JobRecord job) {
    StringOutput page = new StringOutput();
    TEMPLATES.render("record.jte", RecordPage.of(job, resource("record.css")), page);
    return SafeText.visible(page.toString());
  }

  /** A text that lies beside this class. */
  static String resource(String name) {
    try (InputStream text = HtmlRecord.class.getResourceAsStream(name)) {
      if (text == null) {
        throw new IllegalStateException(name + " is missing from the jar");
      }
      return new String(text.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
