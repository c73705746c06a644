package tallyback.report.owner;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import tallyback.report.JobRecord;
import tallyback.report.SafeText;
import tallyback.report.pdf.PaperDocument;

/**
 * The record for the owner of the machine. As a page it needs nothing else, runs no script and
 * fetches nothing; as a PDF it is tagged and made to be kept (PDF/A-2a, PDF/UA-1), its font inside.
 * The same job, form and time give the same bytes. Any thread may use it.
 */
public final class OwnerRecord {

  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, OwnerRecord.class.getClassLoader(), "tallyback.report");

  private static final String UNPRINTED =
      PaperDocument.UNPRINTED
          + " stands for a letter that this print has no type for; the record as a page for the"
          + " screen shows it.";

  private OwnerRecord() {}

  /** The record as a page, to be written as UTF-8. */
  public static String html(JobRecord job, Form form) {
    String style = resource("owner.css") + resource("screen.css");
    return "<!DOCTYPE html>\n" + rendered(PageMaker.of(job, form, style, false));
  }

  /** The record as a PDF. */
  public static byte[] pdf(JobRecord job, Form form) {
    String style =
        resource("owner.css")
            + resource("paper.css")
                .replace("PAPER", form.paper().size())
                .replace("FONT", form.paper().letters());
    OwnerPage page = PageMaker.of(job, form, style, true);
    String text = rendered(page);
    return PaperDocument.of(
        PaperDocument.canPrint(text) ? text : rendered(page.unprinted(UNPRINTED)),
        new PaperDocument.About(
            page.title() + ": " + page.machine(),
            "What was done on the machine, what was measured and what was not checked",
            job.heading().madeAt(),
            job.heading().zone()));
  }

  /**
   * What the annex of everything told says, line by line, by time.
   *
   * @param job the job
   * @param units the units the record is written in
   */
  public static List<Line> told(JobRecord job, Form.Units units) {
    return PageMaker.told(job, new Form(Form.Paper.A4, units, List.of())).stream()
        .flatMap(day -> day.lines().stream())
        .map(
            line ->
                new Line(
                    line.number(),
                    SafeText.visible(line.time() + " " + line.meaning() + " " + line.mark())))
        .toList();
  }

  /**
   * A line of it.
   *
   * @param number the number of the entry
   * @param text time, meaning, and what became of it
   */
  public record Line(String number, String text) {}

  private static String rendered(OwnerPage page) {
    StringOutput text = new StringOutput();
    TEMPLATES.render("owner/owner.jte", page, text);
    return SafeText.visible(text.toString());
  }

  private static String resource(String name) {
    try (InputStream text = OwnerRecord.class.getResourceAsStream(name)) {
      if (text == null) {
        throw new IllegalStateException(name + " is missing from the jar");
      }
      return new String(text.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
