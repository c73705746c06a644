package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Dimension;
import tallyback.report.JobRecord;
import tallyback.report.OrchardJob;
import tallyback.report.owner.Form;
import tallyback.report.owner.OwnerRecord;

/** The owner's record as a page, in a real browser, looked at as somebody does who can't see it. */
@Tag("slow")
class OwnerRecordInBrowserTest {

  private static final Dimension NARROWEST = new Dimension(500, 900);
  private static final List<Dimension> SCREENS =
      List.of(new Dimension(1280, 900), new Dimension(700, 900), NARROWEST);
  private static final int LINE_HEIGHT_PX = 24;

  @TempDir private Path folder;

  @BeforeAll
  static void installed() {
    TestBrowser.assumeInstalled();
  }

  @Test
  void anybodyCanReadIt() throws IOException {
    try (TestBrowser browser = TestBrowser.silent(folder)) {
      assertFits(browser, "owner", OrchardJob.record());
      assertFits(browser, "owner-long", OrchardJob.named("x".repeat(400)));
    }
  }

  private void assertFits(TestBrowser browser, String state, JobRecord job) throws IOException {
    Path page = folder.resolve("owner.html");
    Form form = new Form(Form.Paper.A4, Form.Units.US, List.of());
    Files.writeString(page, OwnerRecord.html(job, form));
    browser.resize(NARROWEST);
    browser.go(page.toUri().toString());
    browser.assertForEverybody(state, SCREENS, where -> {});
    String head =
        String.valueOf(
            browser.value("document.querySelector('#answer h2').getBoundingClientRect().height"));
    assertTrue(Double.parseDouble(head) >= LINE_HEIGHT_PX, head);
  }
}
