package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;

/** The page of all jobs and the sheets it leads to, in a real browser. */
@Tag("slow")
@Timeout(480)
class JobsInBrowserTest {

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private TestBrowser browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServer server;

  @BeforeEach
  void open() throws Exception {
    TestBrowser.assumeInstalled();
    server = JobPagesTest.serve(JobPagesTest.shop(folder));
    browser = TestBrowser.silent(folder);
    go("jobs");
    browser.await("document.body.dataset.ready === 'yes'");
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.close();
    }
    if (server != null) {
      server.close();
    }
  }

  private void go(String path) {
    browser.go(server.address() + path);
  }

  private List<String> shown() {
    return browser.findAll(".one").stream()
        .map(one -> String.valueOf(one.getDomAttribute("data-job")))
        .toList();
  }

  private void look(String words, String count) {
    browser.write("#words", words);
    browser.await("document.querySelector('#count').textContent === '" + count + "'");
  }

  @Test
  void aWordOfLongAgoIsFoundAsItIsTyped() throws IOException {
    assertEquals("20 of 44 jobs", browser.seen("#count"));
    assertEquals("newer", shown().get(0));
    assertTrue(browser.seen(".one .unread").contains("written by a newer version of Tallyback"));
    assertTrue(
        browser.seen(".one:nth-child(3) .found").contains("check"),
        browser.seen(".one:nth-child(3)"));
    browser.assertForEverybody("jobs-all");

    look("brindl", "1 job fits");
    assertEquals(List.of("job-21"), shown());
    assertEquals("brindlewick", browser.seen(".hits mark"));
    assertTrue(
        browser.driver().getCurrentUrl().endsWith("/jobs?words=brindl"),
        browser.driver().getCurrentUrl());
    browser.driver().navigate().refresh();
    browser.await("document.body.dataset.ready === 'yes'");
    assertEquals(List.of("job-21"), shown());
    browser.assertForEverybody("jobs-found");

    look("no such thing", "No job fits.");
    look("OR * \"", "No job fits.");
    browser.click("#filters summary");
    browser.click("#clear");
    browser.await("document.querySelector('#count').textContent === '20 of 44 jobs'");
    browser.click("#open");
    browser.await("document.querySelector('#count').textContent === '3 jobs fit'");
    browser.assertForEverybody("jobs-filters");
    assertEquals(List.of(), browser.complaints());
  }

  @Test
  void aNameOfAnyKindStaysText() {
    look("alert", "1 job fits");
    assertEquals(List.of("<img src=x onerror=alert(2)>"), shown());
    assertTrue(
        browser.seen(".hits").contains("seen at <script>alert(1)</script>"), browser.seen(".hits"));
    assertEquals(0, browser.count("#list script, #list img"));
    browser.driver().findElement(By.linkText("Record")).click();
    browser.await("document.querySelector('h1') !== null");
    assertTrue(browser.seen("body").contains("<script>alert(1)</script>"));
    assertEquals(0, browser.count("script, img"));
    assertEquals(List.of(), browser.complaints());
  }

  @Test
  void olderJobsFollowAndTwoAreCompared() throws IOException {
    browser.click("#older");
    browser.await("document.querySelectorAll('.one').length === 40");
    browser.click("#older");
    browser.await("document.querySelectorAll('.one').length === 44");
    assertFalse(browser.find("#older").isDisplayed());
    assertEquals(44, shown().stream().distinct().count());

    look("quarrowby", "11 jobs fit");
    for (String job : List.of("job-17", "job-1")) {
      // As somebody does who goes there by key: it must not lie behind the bar.
      WebElement tick = browser.find(".one[data-job='" + job + "'] input");
      browser.run("arguments[0].scrollIntoView({block: 'nearest'})", tick);
      tick.click();
    }
    assertEquals("job-17 and job-1", browser.seen("#beside-says"));
    browser.assertForEverybody("jobs-chosen");
    browser.click("#compare");
    browser.await("document.title.startsWith('Two jobs side by side')");
    assertTrue(
        browser.seen("main").contains("more than the jugs can be off")
            || browser.seen("main").contains("none that the jugs can tell"));
    browser.assertForEverybody("jobs-compared");
    browser.driver().findElement(By.linkText("All jobs")).click();
    browser.await("document.body.dataset.ready === 'yes'");
    assertEquals(List.of(), browser.complaints());
  }

  @Test
  void aMachineIsFollowedFromJobToJob() throws IOException {
    look("job-37", "1 job fits");
    browser.driver().findElement(By.linkText("From job to job")).click();
    browser.await("document.querySelectorAll('svg.chart').length >= 6");
    assertTrue(browser.seen("main").contains("11 jobs are on record."), browser.seen("main"));
    assertEquals(
        11L,
        browser.value("document.querySelectorAll('svg.chart')[0].querySelectorAll('a').length"));
    browser.assertForEverybody("jobs-trends");
    browser.medium("print");
    browser.picture("jobs-trends-print");
    browser.medium("");
    browser.click("svg.chart a");
    browser.await("document.title.endsWith('job record')");
    assertEquals(List.of(), browser.complaints());
  }
}
