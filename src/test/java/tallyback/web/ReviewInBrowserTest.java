package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import tallyback.app.CheckedJob;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.TypedLines;
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
  private TestBrowser browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Served served;

  private Path data() {
    return folder.resolve("jobs.tallyback");
  }

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    LoadedPlan plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    earlier(plan);
    served = Served.start(Served.settings(plan, data(), "today"));
    browser = TestBrowser.silent(folder);
    browser.go(served.address().toString());
    browser.await("document.querySelector('#to-review').href.endsWith('/jobs/today/review')");
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
      browser.close();
    }
    if (served != null) {
      served.close();
    }
  }

  /** The field under a label, in the form that is open. */
  private WebElement field(String label) {
    String id =
        Objects.requireNonNull(
            browser
                .driver()
                .findElement(By.xpath("//form[@class='act']//label[.=\"" + label + "\"]"))
                .getAttribute("for"));
    return browser.driver().findElement(By.id(id));
  }

  private void review(String job) {
    browser.go(served.address() + "jobs/" + job + "/review");
    browser.await("document.querySelectorAll('#entries li').length > 0");
  }

  private void note() {
    browser.click("form.act [type=submit]");
    browser.await("!document.querySelector('form.act .primary').hidden");
    browser.click("form.act .primary");
    browser.await("!document.querySelector('#done').hidden && !document.querySelector('form.act')");
  }

  private List<Entry> entries(String job) {
    return CheckedJob.read(data(), job).entries();
  }

  @Test
  void aClosedJobIsPutRightAndClosedOnceMore() throws IOException {
    review("earlier");
    assertEquals("Doubtful: 1", browser.seen("#doubtful-title"));
    assertTrue(browser.seen("#doubts li").contains("not understood"), browser.seen("#doubts"));

    // Without a name nothing is noted.
    browser.click("#doubts [data-act=settle]");
    assertTrue(
        browser.seen("#doubts li").contains("two splash guards back on"),
        "what it was taken for is shown");
    assertTrue(
        browser.seen("#doubts li").contains(HOSTILE + "\u201d Nobody answered."),
        browser.seen("#doubts li"));
    browser.findAll("form.act [data-reading]").get(0).click();
    assertEquals(
        "two splash guard bolts back on",
        field("What it is to say, as you would say it").getAttribute("value"));
    field("Why").sendKeys("listened to it", Keys.ENTER);
    browser.await(
        "document.querySelector('form.act .says').textContent.includes('Write your name')");
    browser.type("#name", "Mira Tolvan");
    browser.click("form.act [type=submit]");
    browser.await("document.querySelectorAll('form.act table.change tr').length > 1");
    assertTrue(browser.seen("form.act").contains("6 on the machine"), browser.seen("form.act"));
    browser.assertForEverybody("review-looked");
    assertEquals(6, entries("earlier").size(), "looking notes nothing");
    browser.click("form.act .primary");
    browser.await("!document.querySelector('#done').hidden");
    assertEquals("Noted as no. 8 and 9", browser.seen("#done-title"));
    assertEquals("Doubtful: nothing", browser.seen("#doubtful-title"));
    assertTrue(browser.seen("#open-says").contains("open for a visit"), browser.seen("#open-says"));
    assertEquals("visit: review", entries("earlier").get(6).words());
    assertEquals("Mira Tolvan", entries("earlier").get(7).actor());
    browser.assertForEverybody("review-noted");

    // What was noted shows later what it has changed.
    browser.click("#entry-8 [data-act=changed]");
    browser.await("document.querySelector('#entry-8 table.change')");
    assertTrue(browser.seen("#entry-8").contains("6 on the machine"), browser.seen("#entry-8"));

    browser.click("#close");
    browser.await("document.querySelector('#done-title').textContent.startsWith('Closed')");
    assertTrue(browser.seen("#done-title").contains("earlier/10/"), browser.seen("#done-title"));
    assertTrue(CheckedJob.read(data(), "earlier").seal() != null);
  }

  @Test
  void aFindingIsAnsweredAndAnOldAnswerIsRefused() {
    review("earlier");
    browser.type("#name", "Mira Tolvan");
    String finding = "#findings li[data-weight=stop]";
    String before = browser.seen("#found-title");
    assertEquals(
        0, browser.count(finding + " > .one [data-act=accepted]"), "nobody can agree to a stop");
    browser.click(finding + " [data-act=fixed]");
    field("What was done").sendKeys("done and looked at");
    note();
    assertTrue(browser.seen("#answers").contains("put right by Mira Tolvan: done and looked at"));
    assertTrue(
        !before.isEmpty() && browser.seen("#done-lines").contains("answered"),
        browser.seen("#done-lines"));
    assertTrue(browser.seen("#answers").contains("it read:"), browser.seen("#answers"));
  }

  @Test
  void theJobThatIsBeingNotedIsReviewedToo() {
    browser.go(served.address().toString());
    browser.await("document.querySelector('#to-review').href.endsWith('/jobs/today/review')");
    browser.type("#words", "six splash guard bolts off", Keys.ENTER);
    browser.await("document.querySelector('#last-says').textContent.includes('splash guard')");
    review("today");
    browser.type("#name", "Mira Tolvan");
    browser.click("#now");
    field("What it is to say, as you would say it").sendKeys("four splash guard bolts back on");
    note();
    assertEquals(
        List.of("six splash guard bolts off", "four splash guard bolts back on"),
        served.said().stream().map(Entry::words).toList());

    // What is said next knows of it: three more would be seven of six.
    browser.go(served.address().toString());
    browser.await("document.querySelector('#told').textContent.includes('splash guard')");
    browser.type("#words", "three splash guard bolts back on", Keys.ENTER);
    browser.await("document.querySelector('#last').dataset.status === 'asked'");
    assertTrue(
        browser.seen("#last-says").contains("of six splash guard bolts"),
        browser.seen("#last-says"));
  }

  @Test
  void textStaysTextAndANamedEntryIsShown() {
    browser.go(served.address() + "jobs/earlier/review#entry-4");
    browser.await("document.activeElement && document.activeElement.id === 'entry-4'");
    assertTrue(browser.seen("#entry-4").contains(HOSTILE), browser.seen("#entry-4"));
    assertEquals("Review of job earlier", browser.driver().getTitle());
    browser.type("#search", "no such thing here");
    browser.await("document.querySelector('#counted').textContent === 'Nothing fits.'");
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
