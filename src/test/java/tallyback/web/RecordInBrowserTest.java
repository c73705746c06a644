package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.CheckedJob;
import tallyback.app.KeptPictures;
import tallyback.app.LongJob;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.SoundClip;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.report.HtmlRecord;

/** The reviewer's record in a real browser: readable for everybody, its pictures too. */
@Tag("slow")
@Timeout(480)
class RecordInBrowserTest {

  @TempDir private Path folder;

  private static byte[] jpeg() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    assertTrue(
        ImageIO.write(new BufferedImage(640, 400, BufferedImage.TYPE_INT_RGB), "jpg", bytes));
    return bytes.toByteArray();
  }

  private Path record() throws IOException {
    Path data = folder.resolve("jobs.tallyback");
    LongJob.write(data, 60);
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      Entry last = log.entries(LongJob.JOB).get(30);
      Entry unused =
          log.append(
              new Draft(
                  "picture-1",
                  LongJob.JOB,
                  last.happenedAt().plusSeconds(5),
                  Instant.parse("2026-04-01T09:00:00Z"),
                  last.zone(),
                  "tallyback",
                  "bench",
                  Source.TOOL,
                  Certainty.CONFIRMED,
                  "picture",
                  new Statement.PictureTaken(
                      "<b>seal</b> & seat.jpg",
                      "a".repeat(64),
                      "2026-03-28T10:00:00",
                      "PT0S",
                      640,
                      400,
                      null)),
              new SoundClip(jpeg()));
    }
    CheckedJob job = CheckedJob.read(data, LongJob.JOB);
    return Files.writeString(
        folder.resolve("record.html"),
        HtmlRecord.page(
            job.record(Instant.parse("2026-04-01T10:00:00Z"), null)
                .withPictures(KeptPictures.read(data, job.entries()))));
  }

  @Test
  void anybodyCanReadItAndAPictureOpensInPlace() throws IOException {
    TestBrowser.assumeInstalled();
    try (TestBrowser browser = TestBrowser.silent(folder)) {
      browser.go(record().toUri().toString());
      assertEquals(1, browser.count(".shot img"));
      browser.assertForEverybody("record");
      Object small = browser.value("document.querySelector('.shot img').width");
      browser.click(".shot summary");
      assertTrue(
          (Long) browser.value("document.querySelector('.shot img').width") > 2 * (Long) small,
          "a click shows the whole");
      String alt = String.valueOf(browser.find(".shot img").getDomAttribute("alt"));
      assertEquals("Picture, 28 Mar 18:07, during: renew seals", alt);
      assertEquals(0, browser.count(".shot b"));
      browser.assertForEverybody("record-open");
      assertEquals(List.of(), browser.complaints());
    }
  }
}
