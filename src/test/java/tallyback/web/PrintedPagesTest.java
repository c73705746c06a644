package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.LoadedPlan;
import tallyback.app.LongJob;

/**
 * The pages about jobs as Chromium prints them, without grounds, as a printer is set to: on few
 * sheets, and all that is shown can be read on white paper.
 */
@Tag("slow")
@Timeout(480)
class PrintedPagesTest {

  /** WCAG 2.2, 1.4.3: 4.5 to 1, here against paper. */
  private static final String UNREADABLE =
      """
      const luminance = (text) => {
        const parts = text.match(/[0-9.]+/g).map(Number);
        const linear = parts.slice(0, 3).map((c) => c / 255).map((c) => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
      };
      const found = [];
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) {
        const element = walker.currentNode.parentElement;
        const style = getComputedStyle(element);
        const text = walker.currentNode.textContent.trim();
        if (text && element.checkVisibility() && element.getClientRects().length && !["SCRIPT", "STYLE"].includes(element.tagName)
            && style.clipPath === "none" && style.printColorAdjust !== "exact" && 1.05 / (luminance(style.color) + 0.05) < 4.5) {
          found.push(`${element.tagName} ${element.className} ${style.color}: ${text.slice(0, 40)}`);
        }
      }
      return found;""";

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private TestBrowser browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Served served;

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    Path data = folder.resolve("jobs.tallyback");
    LongJob.write(data, 200);
    served =
        Served.start(Served.settings(LoadedPlan.of(Path.of("demo-data/plan.yaml")), data, "today"));
    browser = TestBrowser.silent(folder);
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.close();
    }
    if (served != null) {
      served.close();
    }
  }

  /** The text of a page on A4; with -Dscreens=FOLDER the sheets too. */
  private String printed(String name, String path, String ready, int mostSheets)
      throws IOException {
    browser.go(served.address() + path);
    browser.await(ready);
    browser.medium("print");
    assertEquals(List.of(), browser.driver().executeScript(UNREADABLE), path);
    assertEquals(
        false,
        browser.value("document.body.textContent.includes('\\u202e')"),
        path + ": what a name holds turns what is beside it");
    browser.medium("");
    Map<String, Object> answer =
        browser
            .driver()
            .executeCdpCommand(
                "Page.printToPDF",
                Map.of(
                    "printBackground", false, "paperWidth", 210 / 25.4, "paperHeight", 297 / 25.4));
    byte[] pdf = Base64.getDecoder().decode(Objects.requireNonNull((String) answer.get("data")));
    String pictures = System.getProperty("screens", "");
    if (!pictures.isEmpty()) {
      Files.write(Path.of(pictures, "printed-" + name + ".pdf"), pdf);
    }
    try (PDDocument document = Loader.loadPDF(pdf)) {
      int sheets = document.getNumberOfPages();
      assertTrue(sheets <= mostSheets, () -> path + " takes " + sheets + " sheets");
      for (int sheet = 0; sheet < sheets; sheet++) {
        double dark = dark(new PDFRenderer(document).renderImageWithDPI(sheet, 40));
        assertTrue(dark > 0.001 && dark < 0.3, path + " sheet " + sheet + " is dark in " + dark);
      }
      return new PDFTextStripper().getText(document);
    }
  }

  /** The share of a sheet that is darker than middle grey. */
  private static double dark(BufferedImage sheet) {
    long dark = 0;
    for (int y = 0; y < sheet.getHeight(); y++) {
      for (int x = 0; x < sheet.getWidth(); x++) {
        dark += (sheet.getRGB(x, y) >> 8 & 0xFF) < 128 ? 1 : 0;
      }
    }
    return (double) dark / sheet.getWidth() / sheet.getHeight();
  }

  @Test
  void everyPageAboutJobsCanBePrinted() throws IOException {
    String job = "jobs/" + LongJob.JOB;
    String review =
        printed(
            "review", job + "/review", "document.querySelectorAll('#entries li').length > 0", 12);
    assertTrue(review.contains("Everything noted: 200 entries"), review);
    assertTrue(review.contains("CAN'T SAY") || review.contains("NO"), review);
    String timeline = printed("timeline", job + "/timeline", "document.querySelector('.jump')", 4);
    assertTrue(timeline.contains("Doubtful entries"), timeline);
    assertTrue(timeline.contains("STOP"), timeline);
    String jobs = printed("jobs", "jobs", "document.body.dataset.ready === 'yes'", 1);
    assertTrue(jobs.contains(LongJob.JOB), jobs);
    String trends =
        printed("trends", "jobs/trends?job=" + LongJob.JOB, "document.querySelector('h1')", 3);
    assertTrue(trends.contains("1 job is on record"), trends);
    String record = printed("record", job + "/record", "document.querySelector('h1')", 16);
    assertTrue(record.contains(LongJob.JOB), record);
  }
}
