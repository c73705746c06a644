package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
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
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import tallyback.app.CheckedJob;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.TypedLines;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.HowHeard.Asked;
import tallyback.model.Source;
import tallyback.model.Statement;

/** The page of a review in a real browser, beside a job that is being noted. */
@Tag("slow")
@Timeout(480)
class ReviewInBrowserTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final String HOSTILE =
      "<script>document.title='taken'</script><img src=x onerror=1>";

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private ChromeDriver browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServerTest.Served served;

  private Path data() {
    return folder.resolve("jobs.tallyback");
  }

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    LoadedPlan plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    earlier(plan);
    PageServer server =
        PageServer.open(
            new PageServer.Settings(
                plan,
                data(),
                "today",
                null,
                0,
                new JobDesk.Setting("page", "anna", ZoneOffset.UTC, InstantSource.system()),
                null),
            line -> {});
    served = new PageServerTest.Served(Running.start(server), data());
    Path microphone = folder.resolve("microphone.wav");
    Files.write(microphone, WavWriter.toBytes(new Clip(new short[Clip.SAMPLE_RATE_HZ], 0)));
    browser = TestBrowser.open(folder, microphone, List.of());
    browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(60));
    resize(1600, 1000);
    browser.get(served.address().toString());
    await("document.querySelector('#to-review').href.endsWith('/jobs/today/review')");
  }

  /** A job that was closed, with something left over and something not understood. */
  private void earlier(LoadedPlan plan) {
    Instant[] now = {NINE};
    JobDesk.Setting setting =
        new JobDesk.Setting("keyboard", "mechanic", ZoneOffset.UTC, () -> now[0]);
    try (JobDesk desk = JobDesk.open(data(), plan, "earlier", NINE, setting)) {
      TypedLines typed = new TypedLines(desk);
      for (String line :
          List.of(
              "six splash guard bolts off",
              "four splash guard bolts back on",
              "memo: " + HOSTILE)) {
        now[0] = now[0].plusSeconds(60);
        assertTrue(typed.enter(line).line().startsWith("noted"), line);
      }
    }
    try (JobLog log = SqliteLogs.openForWriting(data())) {
      Entry unused =
          log.append(
              new Draft(
                  "missed-1",
                  "earlier",
                  now[0],
                  now[0],
                  ZoneOffset.UTC,
                  "mechanic",
                  "test",
                  Source.SPOKEN,
                  Certainty.UNCONFIRMED,
                  "",
                  new Statement.NotUnderstood(11),
                  new HowHeard(
                      List.of("two splash guard bolts back on", "two splash guards back on"),
                      List.of(new Asked(HOSTILE, null)))),
              null);
    }
    var unused = JobDesk.closeJob(data(), "earlier", setting);
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.quit();
    }
    if (served != null) {
      served.close();
    }
  }

  private void resize(int width, int height) {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
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

  private WebElement find(String css) {
    return browser.findElement(By.cssSelector(css));
  }

  private String text(String css) {
    return find(css).getText();
  }

  /** The field under a label, in the form that is open. */
  private WebElement field(String label) {
    String id =
        Objects.requireNonNull(
            browser
                .findElement(By.xpath("//form[@class='act']//label[.=\"" + label + "\"]"))
                .getAttribute("for"));
    return browser.findElement(By.id(id));
  }

  private void review(String job) {
    browser.get(served.address() + "jobs/" + job + "/review");
    await("document.querySelectorAll('#entries li').length > 0");
  }

  private void note() {
    browser.findElement(By.cssSelector("form.act [type=submit]")).click();
    await("!document.querySelector('form.act .primary').hidden");
    find("form.act .primary").click();
    await("!document.querySelector('#done').hidden && !document.querySelector('form.act')");
  }

  private Object violations() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(ReviewInBrowserTest.class.getResourceAsStream("/axe.min.js"))) {
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
        resize(width, 1000);
        if (!pictures.isEmpty()) {
          Files.write(
              Path.of(pictures, "review-" + state + "-" + width + "-" + scheme + ".png"),
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
    resize(1600, 1000);
  }

  private List<Entry> entries(String job) {
    return CheckedJob.read(data(), job).entries();
  }

  @Test
  void aClosedJobIsPutRightAndClosedOnceMore() throws IOException {
    review("earlier");
    assertEquals("Doubtful: 1", text("#doubtful-title"));
    assertTrue(text("#doubts li").contains("not understood"), text("#doubts"));

    // Without a name nothing is noted.
    find("#doubts [data-act=settle]").click();
    assertTrue(
        text("#doubts li").contains("two splash guards back on"), "what it was taken for is shown");
    assertTrue(
        text("#doubts li").contains(HOSTILE + "\u201d Nobody answered."), text("#doubts li"));
    browser.findElements(By.cssSelector("form.act [data-reading]")).get(0).click();
    assertEquals(
        "two splash guard bolts back on",
        field("What it is to say, as you would say it").getAttribute("value"));
    field("Why").sendKeys("listened to it", Keys.ENTER);
    await("document.querySelector('form.act .says').textContent.includes('Write your name')");
    find("#name").sendKeys("Mira Tolvan");
    browser.findElement(By.cssSelector("form.act [type=submit]")).click();
    await("document.querySelectorAll('form.act table.change tr').length > 1");
    assertTrue(text("form.act").contains("6 on the machine"), text("form.act"));
    assertForEverybody("looked");
    assertEquals(6, entries("earlier").size(), "looking notes nothing");
    find("form.act .primary").click();
    await("!document.querySelector('#done').hidden");
    assertEquals("Noted as no. 8 and 9", text("#done-title"));
    assertEquals("Doubtful: nothing", text("#doubtful-title"));
    assertTrue(text("#open-says").contains("open for a visit"), text("#open-says"));
    assertEquals("visit: review", entries("earlier").get(6).words());
    assertEquals("Mira Tolvan", entries("earlier").get(7).actor());
    assertForEverybody("noted");

    // What was noted shows later what it has changed.
    find("#entry-8 [data-act=changed]").click();
    await("document.querySelector('#entry-8 table.change')");
    assertTrue(text("#entry-8").contains("6 on the machine"), text("#entry-8"));

    find("#close").click();
    await("document.querySelector('#done-title').textContent.startsWith('Closed')");
    assertTrue(text("#done-title").contains("earlier/10/"), text("#done-title"));
    assertTrue(CheckedJob.read(data(), "earlier").seal() != null);
  }

  @Test
  void aFindingIsAnsweredAndAnOldAnswerIsRefused() {
    review("earlier");
    find("#name").sendKeys("Mira Tolvan");
    String finding = "#findings li[data-weight=stop]";
    String before = text("#found-title");
    assertEquals(
        0,
        browser.findElements(By.cssSelector(finding + " > .one [data-act=accepted]")).size(),
        "nobody can agree to a stop");
    find(finding + " [data-act=fixed]").click();
    field("What was done").sendKeys("done and looked at");
    note();
    assertTrue(text("#answers").contains("put right by Mira Tolvan: done and looked at"));
    assertTrue(!before.isEmpty() && text("#done-lines").contains("answered"), text("#done-lines"));
    assertTrue(text("#answers").contains("it read:"), text("#answers"));
  }

  @Test
  void theJobThatIsBeingNotedIsReviewedToo() {
    browser.get(served.address().toString());
    await("document.querySelector('#to-review').href.endsWith('/jobs/today/review')");
    find("#words").sendKeys("six splash guard bolts off", Keys.ENTER);
    await("document.querySelector('#last-says').textContent.includes('splash guard')");
    review("today");
    find("#name").sendKeys("Mira Tolvan");
    find("#now").click();
    field("What it is to say, as you would say it").sendKeys("four splash guard bolts back on");
    note();
    assertEquals(
        List.of("six splash guard bolts off", "four splash guard bolts back on"),
        served.said().stream().map(Entry::words).toList());

    // What is said next knows of it: three more would be seven of six.
    browser.get(served.address().toString());
    await("document.querySelector('#told').textContent.includes('splash guard')");
    find("#words").sendKeys("three splash guard bolts back on", Keys.ENTER);
    await("document.querySelector('#last').dataset.status === 'asked'");
    assertTrue(text("#last-says").contains("of six splash guard bolts"), text("#last-says"));
  }

  @Test
  void textStaysTextAndANamedEntryIsShown() {
    browser.get(served.address() + "jobs/earlier/review#entry-4");
    await("document.activeElement && document.activeElement.id === 'entry-4'");
    assertTrue(text("#entry-4").contains(HOSTILE), text("#entry-4"));
    assertEquals("Review of job earlier", browser.getTitle());
    find("#search").sendKeys("no such thing here");
    await("document.querySelector('#counted').textContent === 'Nothing fits.'");
  }

  @Test
  void onlyThePageItselfMayNote() throws Exception {
    HttpClient client = HttpClient.newHttpClient();
    URI address = URI.create(served.address() + "jobs/earlier/review/note");
    HttpRequest.Builder asked =
        HttpRequest.newBuilder(address)
            .POST(
                HttpRequest.BodyPublishers.ofString(
                    "{\"id\":\"0123456789abcdef\",\"act\":\"withdraw\",\"seq\":2,\"name\":\"M\",\"why\":\"x\"}"));
    int before = entries("earlier").size();
    assertEquals(
        403,
        client
            .send(
                asked.copy().header("Origin", "https://elsewhere.example").build(),
                HttpResponse.BodyHandlers.ofString())
            .statusCode());
    assertEquals(before, entries("earlier").size());
    HttpResponse<String> unknown =
        client.send(
            HttpRequest.newBuilder(URI.create(served.address() + "jobs/nobody/review")).build(),
            HttpResponse.BodyHandlers.ofString());
    assertEquals(400, unknown.statusCode());
    assertTrue(unknown.body().contains("nobody"), unknown.body());
  }
}
