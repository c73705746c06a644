package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.logging.LogType;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;

/** The page of all jobs and the sheets it leads to, in a real browser. */
@Tag("slow")
@Timeout(480)
class JobsInBrowserTest {

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private ChromeDriver browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServer server;

  @BeforeEach
  void open() throws Exception {
    TestBrowser.assumeInstalled();
    server = JobPagesTest.serve(JobPagesTest.shop(folder));
    Path microphone = folder.resolve("microphone.wav");
    Files.write(microphone, WavWriter.toBytes(new Clip(new short[Clip.SAMPLE_RATE_HZ], 0)));
    browser = TestBrowser.open(folder, microphone, List.of());
    browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(60));
    resize(1600);
    go("jobs");
    await("document.body.dataset.ready === 'yes'");
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.quit();
    }
    if (server != null) {
      server.close();
    }
  }

  private void go(String path) {
    browser.get(server.address() + path);
  }

  private void resize(int width) {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", 1000, "deviceScaleFactor", 1, "mobile", false));
  }

  private void await(String condition) {
    Instant until = Instant.now().plusSeconds(60);
    while (!Boolean.TRUE.equals(browser.executeScript("return Boolean(" + condition + ")"))) {
      assertTrue(
          Instant.now().isBefore(until),
          () -> condition + "; page: " + browser.findElement(By.tagName("body")).getText());
      try {
        Thread.sleep(100);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private String text(String css) {
    return Objects.requireNonNull(
        (String)
            browser.executeScript("return document.querySelector(arguments[0]).innerText", css));
  }

  private List<String> shown() {
    return browser.findElements(By.cssSelector(".one")).stream()
        .map(one -> String.valueOf(one.getDomAttribute("data-job")))
        .toList();
  }

  private void look(String words, String count) {
    browser.findElement(By.id("words")).clear();
    browser.findElement(By.id("words")).sendKeys(words);
    await("document.querySelector('#count').textContent === '" + count + "'");
  }

  private Object violations() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(JobsInBrowserTest.class.getResourceAsStream("/axe.min.js"))) {
      browser.executeScript(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
    return Objects.requireNonNull(
        browser.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run().then(r => done(r.violations.map(v => v.id + ': '"
                + " + v.nodes.map(n => n.target + ' ' + n.failureSummary).join('; '))))"));
  }

  /** With -Dscreens=FOLDER pictures too. */
  private void assertForEverybody(String state) throws IOException {
    String pictures = System.getProperty("screens", "");
    for (String scheme : List.of("light", "dark")) {
      browser.executeCdpCommand(
          "Emulation.setEmulatedMedia",
          Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
      for (int width : new int[] {360, 1000, 1600}) {
        resize(width);
        if (!pictures.isEmpty()) {
          Files.write(
              Path.of(pictures, "jobs-" + state + "-" + width + "-" + scheme + ".png"),
              browser.getScreenshotAs(OutputType.BYTES));
        }
        assertEquals(
            0L,
            browser.executeScript(
                "const e = document.scrollingElement; return e.scrollWidth - e.clientWidth"),
            state + " runs out sideways at " + width);
        assertEquals(List.of(), violations(), state + " " + scheme + " " + width);
      }
    }
    resize(1600);
  }

  private void assertNoComplaints() {
    assertEquals(
        List.of(),
        browser.manage().logs().get(LogType.BROWSER).getAll().stream()
            .map(Object::toString)
            .toList());
  }

  @Test
  void aWordOfLongAgoIsFoundAsItIsTyped() throws IOException {
    assertEquals("20 of 44 jobs", text("#count"));
    assertEquals("newer", shown().get(0));
    assertTrue(text(".one .unread").contains("written by a newer version of Tallyback"));
    assertTrue(text(".one:nth-child(3) .found").contains("check"), text(".one:nth-child(3)"));
    assertForEverybody("all");

    look("brindl", "1 job fits");
    assertEquals(List.of("job-21"), shown());
    assertEquals("brindlewick", text(".hits mark"));
    assertTrue(browser.getCurrentUrl().endsWith("/jobs?words=brindl"), browser.getCurrentUrl());
    browser.navigate().refresh();
    await("document.body.dataset.ready === 'yes'");
    assertEquals(List.of("job-21"), shown());
    assertForEverybody("found");

    look("no such thing", "No job fits.");
    look("OR * \"", "No job fits.");
    browser.findElement(By.cssSelector("#filters summary")).click();
    browser.findElement(By.id("clear")).click();
    await("document.querySelector('#count').textContent === '20 of 44 jobs'");
    browser.findElement(By.id("open")).click();
    await("document.querySelector('#count').textContent === '3 jobs fit'");
    assertForEverybody("filters");
    assertNoComplaints();
  }

  @Test
  void aNameOfAnyKindStaysText() {
    look("alert", "1 job fits");
    assertEquals(List.of("<img src=x onerror=alert(2)>"), shown());
    assertTrue(text(".hits").contains("seen at <script>alert(1)</script>"), text(".hits"));
    assertEquals(0, browser.findElements(By.cssSelector("#list script, #list img")).size());
    browser.findElement(By.linkText("Record")).click();
    await("document.querySelector('h1') !== null");
    assertTrue(text("body").contains("<script>alert(1)</script>"));
    assertEquals(0, browser.findElements(By.cssSelector("script, img")).size());
    assertNoComplaints();
  }

  @Test
  void olderJobsFollowAndTwoAreCompared() throws IOException {
    browser.findElement(By.id("older")).click();
    await("document.querySelectorAll('.one').length === 40");
    browser.findElement(By.id("older")).click();
    await("document.querySelectorAll('.one').length === 44");
    assertFalse(browser.findElement(By.id("older")).isDisplayed());
    assertEquals(44, shown().stream().distinct().count());

    look("quarrowby", "11 jobs fit");
    for (String job : List.of("job-17", "job-1")) {
      // As somebody does who goes there by key: it must not lie behind the bar.
      browser.executeScript(
          "arguments[0].scrollIntoView({block: 'nearest'})",
          browser.findElement(By.cssSelector(".one[data-job='" + job + "'] input")));
      browser.findElement(By.cssSelector(".one[data-job='" + job + "'] input")).click();
    }
    assertEquals("job-17 and job-1", text("#beside-says"));
    assertForEverybody("chosen");
    browser.findElement(By.id("compare")).click();
    await("document.title.startsWith('Two jobs side by side')");
    assertTrue(
        text("main").contains("more than the jugs can be off")
            || text("main").contains("none that the jugs can tell"));
    assertForEverybody("compared");
    browser.findElement(By.linkText("All jobs")).click();
    await("document.body.dataset.ready === 'yes'");
    assertNoComplaints();
  }

  @Test
  void aMachineIsFollowedFromJobToJob() throws IOException {
    look("job-37", "1 job fits");
    browser.findElement(By.linkText("From job to job")).click();
    await("document.querySelectorAll('svg.chart').length >= 6");
    assertTrue(text("main").contains("11 jobs are on record."), text("main"));
    assertEquals(
        11L,
        browser.executeScript(
            "return document.querySelectorAll('svg.chart')[0].querySelectorAll('a').length"));
    assertForEverybody("trends");
    browser.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "print"));
    String pictures = System.getProperty("screens", "");
    if (!pictures.isEmpty()) {
      Files.write(
          Path.of(pictures, "jobs-trends-print.png"), browser.getScreenshotAs(OutputType.BYTES));
    }
    browser.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    browser.findElement(By.cssSelector("svg.chart a")).click();
    await("document.title.endsWith('job record')");
    assertNoComplaints();
  }
}
