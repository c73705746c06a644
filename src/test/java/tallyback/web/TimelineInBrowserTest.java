package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
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
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.interactions.WheelInput;
import tallyback.app.CheckedJob;
import tallyback.app.KeptSounds;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.LongJob;
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
  private TestBrowser browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Served served;

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    data = folder.resolve("jobs.tallyback");
    LongJob.write(data, 120);
    served =
        Served.start(Served.settings(LoadedPlan.withoutPlan(KnownVoices.none()), data, "another"));
    browser = TestBrowser.silent(folder, "--disable-smooth-scrolling");
    open("");
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

  private void open(String hash) {
    browser.go("about:blank");
    browser.go(served.address() + "jobs/long%20job/timeline" + hash);
    browser.await("document.body.dataset.ready === 'yes'");
  }

  @Test
  void movesByWheelKeysDragAndTouch() {
    assertEquals("", address("wide"));
    browser.click("#closer");
    browser.click("#closer");
    double closer = wide();
    WebElement view = browser.find("#view");
    double from = from();
    new Actions(browser.driver())
        .scrollFromOrigin(WheelInput.ScrollOrigin.fromElement(view), 0, 200)
        .perform();
    browser.await("!location.hash.includes('from=" + (long) from + "&')");
    assertTrue(from() > from, "the wheel goes along");
    assertEquals(closer, wide(), 1);
    new Actions(browser.driver())
        .keyDown(Keys.CONTROL)
        .scrollFromOrigin(WheelInput.ScrollOrigin.fromElement(view), 0, -200)
        .keyUp(Keys.CONTROL)
        .perform();
    settle();
    assertTrue(wide() < closer, "with Ctrl it goes closer");

    double before = from();
    new Actions(browser.driver())
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
    browser.click("#doubtful");
    int doubtful = rows();
    assertTrue(doubtful >= 5 && doubtful < 60, () -> doubtful + " doubtful");
    assertTrue(
        browser.text("#counts").startsWith(doubtful + " of 120 entries, " + doubtful),
        browser.text("#counts"));
    for (String sign :
        List.of("Asked, not", "Not under", "Corrected", "Withdrawn", "Time changed")) {
      assertTrue(browser.text("#list").contains(sign), sign);
    }
    browser.click("#doubtful");
    browser.type("#words", "NEWTON cover");
    assertTrue(rows() > 3 && rows() < 60, () -> rows() + " rows");
    browser.type("#words", " zebra");
    assertEquals(0, rows());
    assertEquals("Nothing fits what you ask for.", browser.text("#counts"));
    browser.click("#clear");
    assertEquals(120, rows());
    browser.click("#filters summary");
    browser.click("#lanes input[value=torques]");
    assertTrue(rows() < 120);
    browser.click("#lanes input[value=torques]");
    browser.run(
        "const s = document.getElementById('place');"
            + "s.value = [...s.options].find(o => o.textContent.includes('script')).value;"
            + "s.dispatchEvent(new Event('change'))");
    assertEquals(2, rows());
    settle();
    String address = Objects.requireNonNull(browser.driver().getCurrentUrl());
    open(address.substring(address.indexOf('#')));
    assertEquals(2, rows(), "the address holds what was asked for");
    assertQuiet();
  }

  @Test
  void showsEveryReadingAndWhatWasAsked() throws IOException {
    choose("two flange nuts lost");
    assertEquals("Asked and answered", browser.text("#detail .sign").substring(2));
    assertTrue(
        browser
            .text("#detail")
            .contains("two flange nuts lost\u201d\u201ctwo flange nuts off\u201d, taken"),
        browser.text("#detail"));
    assertTrue(
        browser.text("#detail").contains("did you say two flange nuts lost?"),
        browser.text("#detail"));
    assertTrue(
        browser.text("#detail").contains("answered: \u201cno\u201d"), browser.text("#detail"));
    assertForEverybody("timeline-asked");
    choose("torqued the cover bolts to forty");
    assertTrue(browser.text("#detail").contains("nobody answered"), browser.text("#detail"));
    assertQuiet();
  }

  @Test
  void goesFromFindingToEvidenceAndBack() {
    assertTrue(browser.count("#detail [data-finding]") > 0, () -> browser.text("#detail"));
    browser.click("#detail [data-finding]");
    String finding = browser.text("#detail h3");
    assertTrue(browser.count("#detail [data-entry]") > 0, () -> browser.text("#detail"));
    browser.click("#detail [data-entry]");
    assertTrue(browser.text("#found-title").startsWith("no. "), browser.text("#found-title"));
    browser.click("#detail [data-finding]");
    assertEquals(finding, browser.text("#detail h3"));
    WebElement view = browser.find("#view");
    view.sendKeys("f");
    assertNotEquals("", browser.text("#detail h3"));
    view.sendKeys("d");
    assertTrue(browser.count("#detail .sign") > 0, "the next doubtful one");
    view.sendKeys(Keys.ESCAPE);
    assertEquals("Findings", browser.text("#found-title"));
    assertQuiet();
  }

  @Test
  void playsTheSoundOfAnEntryAndTellsWhereItWasAlteredOrTaken() throws SQLException {
    choose("five cover bolts off");
    browser.await("document.querySelector('#wave canvas')");
    assertTrue(waveInk() > 500, () -> waveInk() + " dots of ink");
    browser.await("parseFloat(document.getElementById('clock').textContent) > 0.2");
    assertEquals("Pause", browser.text("#play"));
    browser.type("#view", " ");
    browser.await("document.getElementById('play').textContent === 'Play'");
    browser.click("#slower");
    browser.await("parseFloat(document.getElementById('clock').textContent) > 0.2");
    assertTrue(browser.text("#detail").contains("Since no."), () -> browser.text("#detail"));
    assertEquals(
        "/jobs/long%20job/review#entry-4", browser.find("#correct").getDomAttribute("href"));

    // Entry 7 is the undo, entry 8 what was asked and not answered; their sounds are spoiled.
    alter("UPDATE clip SET sound = zeroblob(length(sound)) WHERE hash = ?", LongJob.sound(6));
    alter("DELETE FROM clip WHERE hash = ?", LongJob.sound(7));
    choose("scratch that");
    browser.await("document.querySelector('#sound .silent')");
    assertTrue(
        browser.text("#sound").contains("altered after it was noted"), browser.text("#sound"));
    assertTrue(browser.text("#list [aria-selected=true]").contains("altered"));
    choose("torqued the cover bolts to forty");
    browser.await("document.querySelector('#sound .silent')");
    assertTrue(browser.text("#sound").contains("taken out"), browser.text("#sound"));
  }

  @Test
  void aPlaceNamedLikeAPieceOfAPageStaysText() {
    choose("look at this");
    assertTrue(
        browser.text("#detail").contains("<script>alert(1)</script>\uFFFD\uFFFDflank"),
        browser.text("#detail"));
    assertEquals(0, browser.count("#detail script, #list script"));
    assertQuiet();
  }

  @Test
  void aJobThatIsNotThereIsTold() {
    browser.go(served.address() + "jobs/no%20such/timeline");
    browser.await("document.body.dataset.ready === 'no'");
    assertTrue(browser.text("#trouble").contains("no such"), browser.text("#trouble"));
  }

  @Test
  void anybodyCanReadIt() throws IOException {
    assertForEverybody("timeline-whole");
    browser.click("#detail [data-finding]");
    assertForEverybody("timeline-finding");
    choose("five cover bolts off");
    browser.await("document.querySelector('#wave canvas')");
    browser.click("#filters summary");
    browser.click("#help summary");
    assertForEverybody("timeline-entry");
  }

  @Test
  void aFileHoldsEverything() throws IOException {
    CheckedJob checked = CheckedJob.read(data, LongJob.JOB);
    JobRecord record = checked.record(Instant.parse("2026-04-01T10:00:00Z"), null);
    KeptSounds.All all = KeptSounds.all(data, checked.entries());
    Path file = folder.resolve("timeline.html");
    Files.writeString(file, HtmlTimeline.page(record.with(all.sounds()), all.silent()));
    served.close();
    browser.driver().executeCdpCommand("Network.enable", Map.of());
    browser
        .driver()
        .executeCdpCommand(
            "Network.emulateNetworkConditions",
            Map.of(
                "offline", true, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
    browser.go(file.toUri().toString());
    browser.await("document.body.dataset.ready === 'yes'");
    assertEquals(120, rows());
    choose("five cover bolts off");
    browser.await("document.querySelector('#wave canvas')");
    browser.await("parseFloat(document.getElementById('clock').textContent) > 0.2");
    assertEquals(0, browser.count("#correct"), "nobody is there to put it right");
    assertFalse(browser.find("#to-job").isDisplayed());
    settle();
    assertEquals("4", address("entry"));
    choose("look at this");
    assertTrue(browser.text("#detail").contains("<script>alert(1)"));
    assertEquals(List.of(), browser.violations());
    assertQuiet();
  }

  // ---- hands and eyes

  /** Until the address has followed. */
  private void settle() {
    TestBrowser.pause(500);
  }

  private String address(String name) {
    return (String)
        browser.value("new URLSearchParams(location.hash.slice(1)).get(arguments[0]) || ''", name);
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
    browser
        .driver()
        .executeCdpCommand("Input.dispatchTouchEvent", Map.of("type", type, "touchPoints", points));
  }

  private int rows() {
    return browser.count("#list li:not([hidden])");
  }

  /** Chooses the entry that was said so, in the list. */
  private void choose(String words) {
    WebElement field = browser.find("#words");
    field.clear();
    field.sendKeys(words);
    browser.click("#list li:not([hidden])");
    field.clear();
    field.sendKeys(" ");
  }

  private long waveInk() {
    return (Long)
        Objects.requireNonNull(
            browser
                .driver()
                .executeScript(
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

  private void assertForEverybody(String state) {
    browser.assertForEverybody(state, TestBrowser.SCREENS, where -> settle());
  }

  /** Nothing was refused by the policy, and nothing failed. */
  private void assertQuiet() {
    assertEquals(List.of(), browser.complaints("favicon"));
  }
}
