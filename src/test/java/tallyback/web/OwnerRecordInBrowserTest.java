package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.chrome.ChromeDriver;
import tallyback.report.JobRecord;
import tallyback.report.OrchardJob;
import tallyback.report.owner.Form;
import tallyback.report.owner.OwnerRecord;

/** The owner's record as a page, in a real browser, looked at as somebody does who can't see it. */
@Tag("slow")
class OwnerRecordInBrowserTest {

  private static final List<Integer> WIDTHS = List.of(1280, 700, 500);
  private static final int LINE_HEIGHT_PX = 24;

  @TempDir private Path folder;

  @BeforeAll
  static void installed() {
    TestBrowser.assumeInstalled();
  }

  @Test
  void anybodyCanReadIt() throws IOException {
    Form form = new Form(Form.Paper.A4, Form.Units.US, List.of());
    ChromeDriver browser =
        TestBrowser.open(folder, Path.of("demo-data/audio/009-090430.wav"), List.of());
    try {
      for (JobRecord job : List.of(OrchardJob.record(), OrchardJob.named("x".repeat(400)))) {
        Path page = folder.resolve("owner.html");
        Files.writeString(page, OwnerRecord.html(job, form));
        for (int width : WIDTHS) {
          browser.manage().window().setSize(new Dimension(width, 900));
          browser.get(page.toUri().toString());
          assertEquals(List.of(), violations(browser), width + " wide");
          long beyond =
              (Long)
                  Objects.requireNonNull(
                      browser.executeScript(
                          "return document.documentElement.scrollWidth - window.innerWidth"));
          assertTrue(beyond <= 0, () -> beyond + " px beyond the edge at " + width);
        }
        String head =
            String.valueOf(
                browser.executeScript(
                    "return document.querySelector('#answer h2').getBoundingClientRect().height"));
        assertTrue(Double.parseDouble(head) >= LINE_HEIGHT_PX, head);
      }
    } finally {
      browser.quit();
    }
  }

  private static Object violations(ChromeDriver browser) throws IOException {
    try (InputStream axe =
        Objects.requireNonNull(OwnerRecordInBrowserTest.class.getResourceAsStream("/axe.min.js"))) {
      browser.executeScript(new String(axe.readAllBytes(), StandardCharsets.UTF_8));
    }
    return Objects.requireNonNull(
        browser.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run().then(r => done(r.violations.map(v => v.id + ': '"
                + " + v.nodes.map(n => n.target + ' ' + n.failureSummary).join('; '))))"));
  }
}
