package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
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
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.interactions.WheelInput;
import org.openqa.selenium.logging.LogType;
import tallyback.app.CheckedJob;
import tallyback.app.JobDesk;
import tallyback.app.KeptSounds;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.LongJob;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.log.SoundClip;
import tallyback.report.HtmlTimeline;
import tallyback.report.JobRecord;

/** The timeline in a real browser, as somebody uses it who looks a job through days later. */
@Tag("slow")
@Timeout(480)
class TimelineInBrowserTest {

  @TempDir private Path folder;
  private Path data = Path.of("");

  @SuppressWarnings("NullAway.Init") // set before each test
  private ChromeDriver browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServerTest.Served served;

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    data = folder.resolve("jobs.tallyback");
    LongJob.write(data, 120);
    PageServer server =
        PageServer.open(
            new PageServer.Settings(
                LoadedPlan.withoutPlan(KnownVoices.none()),
                data,
                "another",
                null,
                0,
                new JobDesk.Setting("page", "anna", ZoneOffset.UTC, InstantSource.system()),
                null),
            line -> {});
    served = new PageServerTest.Served(Running.start(server), data);
    Path microphone = folder.resolve("microphone.wav");
    Files.write(microphone, WavWriter.toBytes(new Clip(new short[Clip.SAMPLE_RATE_HZ], 0)));
    browser = TestBrowser.open(folder, microphone, List.of("--disable-smooth-scrolling"));
    browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(60));
    resize(1600, 1000);
    open("");
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

  private void open(String hash) {
    browser.get("about:blank");
    browser.get(served.address() + "jobs/long%20job/timeline" + hash);
    await("document.body.dataset.ready === 'yes'");
  }

  @Test
  void movesByWheelKeysDragAndTouch() {
    assertEquals("", address("wide"));
    click("#closer");
    click("#closer");
    double closer = wide();
    WebElement view = browser.findElement(By.id("view"));
    double from = from();
    new Actions(browser)
        .scrollFromOrigin(WheelInput.ScrollOrigin.fromElement(view), 0, 200)
        .perform();
    await("!location.hash.includes('from=" + (long) from + "&')");
    assertTrue(from() > from, "the wheel goes along");
    assertEquals(closer, wide(), 1);
    new Actions(browser)
        .keyDown(Keys.CONTROL)
        .scrollFromOrigin(WheelInput.ScrollOrigin.fromElement(view), 0, -200)
        .keyUp(Keys.CONTROL)
        .perform();
    settle();
    assertTrue(wide() < closer, "with Ctrl it goes closer");

    double before = from();
    new Actions(browser)
        .moveToElement(view, 0, 40)
        .clickAndHold()
        .moveByOffset(-200, 0)
        .release()
        .perform();
    settle();
    assertTrue(from() > before, "dragging goes along");

    view.sendKeys(Keys.HOME);
    settle();
    double first = from();
    view.sendKeys(Keys.ARROW_RIGHT);
    settle();
    assertTrue(from() > first, "keys go along");
    double width = wide();
    view.sendKeys("-");
    settle();
    assertEquals(width * 2, wide(), width * 0.02);
    view.sendKeys("0");
    settle();
    assertEquals("", address("wide"), "the whole job");

    touch("touchStart", 700, 600, 900, 600);
    touch("touchMove", 600, 600, 1000, 600);
    touch("touchMove", 500, 600, 1100, 600);
    touch("touchEnd");
    settle();
    double pinched = wide();
    assertTrue(pinched > 0, "two fingers go closer");
    double touched = from();
    touch("touchStart", 900, 600);
    touch("touchMove", 800, 600);
    touch("touchMove", 600, 600);
    touch("touchEnd");
    settle();
    assertTrue(from() > touched, "one finger goes along");
    assertEquals(pinched, wide(), 1);
    assertQuiet();
  }

  @Test
  void findsByWordKindPlaceAndDoubt() {
    assertEquals(120, rows());
    click("#doubtful");
    int doubtful = rows();
    assertTrue(doubtful >= 5 && doubtful < 60, () -> doubtful + " doubtful");
    assertTrue(
        text("#counts").startsWith(doubtful + " of 120 entries, " + doubtful), text("#counts"));
    for (String sign :
        List.of("Asked, not", "Not under", "Corrected", "Withdrawn", "Time changed")) {
      assertTrue(text("#list").contains(sign), sign);
    }
    click("#doubtful");
    browser.findElement(By.id("words")).sendKeys("NEWTON cover");
    assertTrue(rows() > 3 && rows() < 60, () -> rows() + " rows");
    browser.findElement(By.id("words")).sendKeys(" zebra");
    assertEquals(0, rows());
    assertEquals("Nothing fits what you ask for.", text("#counts"));
    click("#clear");
    assertEquals(120, rows());
    browser.findElement(By.cssSelector("#filters summary")).click();
    click("#lanes input[value=torques]");
    assertTrue(rows() < 120);
    click("#lanes input[value=torques]");
    browser.executeScript(
        "const s = document.getElementById('place');"
            + "s.value = [...s.options].find(o => o.textContent.includes('script')).value;"
            + "s.dispatchEvent(new Event('change'))");
    assertEquals(2, rows());
    settle();
    String address = Objects.requireNonNull(browser.getCurrentUrl());
    open(address.substring(address.indexOf('#')));
    assertEquals(2, rows(), "the address holds what was asked for");
    assertQuiet();
  }

  @Test
  void showsEveryReadingAndWhatWasAsked() throws IOException {
    choose("two flange nuts lost");
    assertEquals("Asked and answered", text("#detail .sign").substring(2));
    assertTrue(
        text("#detail")
            .contains("two flange nuts lost\u201d\u201ctwo flange nuts off\u201d, taken"),
        text("#detail"));
    assertTrue(text("#detail").contains("did you say two flange nuts lost?"), text("#detail"));
    assertTrue(text("#detail").contains("answered: \u201cno\u201d"), text("#detail"));
    assertForEverybody("asked");
    choose("torqued the cover bolts to forty");
    assertTrue(text("#detail").contains("nobody answered"), text("#detail"));
    assertQuiet();
  }

  @Test
  void goesFromFindingToEvidenceAndBack() {
    assertTrue(count("#detail [data-finding]") > 0, () -> text("#detail"));
    browser.findElement(By.cssSelector("#detail [data-finding]")).click();
    String finding = text("#detail h3");
    assertTrue(count("#detail [data-entry]") > 0, () -> text("#detail"));
    browser.findElement(By.cssSelector("#detail [data-entry]")).click();
    assertTrue(text("#found-title").startsWith("no. "), text("#found-title"));
    browser.findElement(By.cssSelector("#detail [data-finding]")).click();
    assertEquals(finding, text("#detail h3"));
    WebElement view = browser.findElement(By.id("view"));
    view.sendKeys("f");
    assertNotEquals("", text("#detail h3"));
    view.sendKeys("d");
    assertTrue(count("#detail .sign") > 0, "the next doubtful one");
    view.sendKeys(Keys.ESCAPE);
    assertEquals("Findings", text("#found-title"));
    assertQuiet();
  }

  @Test
  void playsTheSoundOfAnEntryAndTellsWhereItWasAlteredOrTaken() throws SQLException {
    choose("five cover bolts off");
    await("document.querySelector('#wave canvas')");
    assertTrue(waveInk() > 500, () -> waveInk() + " dots of ink");
    await("parseFloat(document.getElementById('clock').textContent) > 0.2");
    assertEquals("Pause", text("#play"));
    browser.findElement(By.id("view")).sendKeys(" ");
    await("document.getElementById('play').textContent === 'Play'");
    click("#slower");
    await("parseFloat(document.getElementById('clock').textContent) > 0.2");
    assertTrue(text("#detail").contains("Since no."), () -> text("#detail"));
    assertEquals(
        "/jobs/long%20job/review#entry-4",
        browser.findElement(By.id("correct")).getDomAttribute("href"));

    // Entry 7 is the undo, entry 8 what was asked and not answered; their sounds are spoiled.
    alter("UPDATE clip SET sound = zeroblob(length(sound)) WHERE hash = ?", LongJob.sound(6));
    alter("DELETE FROM clip WHERE hash = ?", LongJob.sound(7));
    choose("scratch that");
    await("document.querySelector('#sound .silent')");
    assertTrue(text("#sound").contains("altered after it was noted"), text("#sound"));
    assertTrue(text("#list [aria-selected=true]").contains("altered"));
    choose("torqued the cover bolts to forty");
    await("document.querySelector('#sound .silent')");
    assertTrue(text("#sound").contains("taken out"), text("#sound"));
  }

  @Test
  void aPlaceNamedLikeAPieceOfAPageStaysText() {
    choose("look at this");
    assertTrue(
        text("#detail").contains("<script>alert(1)</script>\uFFFD\uFFFDflank"), text("#detail"));
    assertEquals(0, count("#detail script, #list script"));
    assertQuiet();
  }

  @Test
  void aJobThatIsNotThereIsTold() {
    browser.get(served.address() + "jobs/no%20such/timeline");
    await("document.body.dataset.ready === 'no'");
    assertTrue(text("#trouble").contains("no such"), text("#trouble"));
  }

  @Test
  void anybodyCanReadIt() throws IOException {
    assertForEverybody("whole");
    browser.findElement(By.cssSelector("#detail [data-finding]")).click();
    assertForEverybody("finding");
    choose("five cover bolts off");
    await("document.querySelector('#wave canvas')");
    browser.findElement(By.cssSelector("#filters summary")).click();
    browser.findElement(By.cssSelector("#help summary")).click();
    assertForEverybody("entry");
  }

  @Test
  void aFileHoldsEverything() throws IOException {
    CheckedJob checked = CheckedJob.read(data, LongJob.JOB);
    JobRecord record = checked.record(Instant.parse("2026-04-01T10:00:00Z"), null);
    KeptSounds.All all = KeptSounds.all(data, checked.entries());
    Path file = folder.resolve("timeline.html");
    Files.writeString(file, HtmlTimeline.page(record.with(all.sounds()), all.silent()));
    served.close();
    browser.executeCdpCommand("Network.enable", Map.of());
    browser.executeCdpCommand(
        "Network.emulateNetworkConditions",
        Map.of("offline", true, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
    browser.get(file.toUri().toString());
    await("document.body.dataset.ready === 'yes'");
    assertEquals(120, rows());
    choose("five cover bolts off");
    await("document.querySelector('#wave canvas')");
    await("parseFloat(document.getElementById('clock').textContent) > 0.2");
    assertEquals(0, count("#correct"), "nobody is there to put it right");
    assertFalse(browser.findElement(By.id("to-job")).isDisplayed());
    settle();
    assertEquals("4", address("entry"));
    choose("look at this");
    assertTrue(text("#detail").contains("<script>alert(1)"));
    assertEquals(List.of(), violations());
    assertQuiet();
  }

  // ---- hands and eyes

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
      pause(50);
    }
  }

  /** Until the address has followed. */
  private void settle() {
    pause(500);
  }

  private static void pause(long millis) {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private String address(String name) {
    return String.valueOf(
        browser.executeScript(
            "return new URLSearchParams(location.hash.slice(1)).get(arguments[0]) || ''", name));
  }

  private double wide() {
    settle();
    return Double.parseDouble(address("wide"));
  }

  private double from() {
    settle();
    return Double.parseDouble(address("from"));
  }

  private void touch(String type, int... places) {
    List<Map<String, Object>> points = new java.util.ArrayList<>();
    for (int i = 0; i < places.length; i += 2) {
      points.add(Map.of("x", places[i], "y", places[i + 1] - 300, "id", i));
    }
    browser.executeCdpCommand(
        "Input.dispatchTouchEvent", Map.of("type", type, "touchPoints", points));
  }

  private int rows() {
    return count("#list li:not([hidden])");
  }

  private int count(String css) {
    return browser.findElements(By.cssSelector(css)).size();
  }

  private String text(String css) {
    return String.valueOf(
        browser.executeScript("return document.querySelector(arguments[0]).textContent", css));
  }

  private void click(String css) {
    browser.findElement(By.cssSelector(css)).click();
  }

  /** Chooses the entry that was said so, in the list. */
  private void choose(String words) {
    WebElement field = browser.findElement(By.id("words"));
    field.clear();
    field.sendKeys(words);
    browser.findElement(By.cssSelector("#list li:not([hidden])")).click();
    field.clear();
    field.sendKeys(" ");
  }

  private long waveInk() {
    return (Long)
        Objects.requireNonNull(
            browser.executeScript(
                "const c = document.querySelector('#wave canvas');"
                    + "const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;"
                    + "let n = 0; for (let i = 3; i < d.length; i += 4) { n += d[i] > 0; } return n"));
  }

  /** Behind the log's back, as somebody does who wants another past. */
  private void alter(String sql, byte[] sound) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + data)) {
      try (var statement = connection.createStatement();
          var triggers =
              statement.executeQuery(
                  "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'clip'")) {
        List<String> names = new java.util.ArrayList<>();
        while (triggers.next()) {
          names.add(triggers.getString(1));
        }
        for (String name : names) {
          try (var drop = connection.createStatement()) {
            drop.execute("DROP TRIGGER " + name);
          }
        }
      }
      try (var statement = connection.prepareStatement(sql)) {
        statement.setString(1, SoundClip.hashOf(sound));
        assertEquals(1, statement.executeUpdate());
      }
    }
  }

  private Object violations() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(TimelineInBrowserTest.class.getResourceAsStream("/axe.min.js"))) {
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
        settle();
        if (!pictures.isEmpty()) {
          Files.write(
              Path.of(pictures, "timeline-" + state + "-" + width + "-" + scheme + ".png"),
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
  }

  /** Nothing was refused by the policy, and nothing failed. */
  private void assertQuiet() {
    List<String> lines =
        browser.manage().logs().get(LogType.BROWSER).getAll().stream()
            .map(Object::toString)
            .filter(line -> line.contains("SEVERE"))
            .filter(line -> !line.contains("favicon"))
            .toList();
    assertEquals(List.of(), lines);
  }
}
