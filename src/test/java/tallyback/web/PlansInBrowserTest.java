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
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogType;
import tallyback.app.JobDesk;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.PlanShelf;
import tallyback.app.Prepared;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.plan.PlanFault;

/** The page of plans in a real browser, as somebody uses it who writes a plan before a job. */
@Tag("slow")
@Timeout(480)
class PlansInBrowserTest {

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private ChromeDriver browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServerTest.Served served;

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    Path data = folder.resolve("jobs.tallyback");
    PageServer server =
        PageServer.open(
            new PageServer.Settings(
                    LoadedPlan.withoutPlan(KnownVoices.none()),
                    data,
                    null,
                    null,
                    0,
                    new JobDesk.Setting("page", "anna", ZoneOffset.UTC, InstantSource.system()),
                    null)
                .with(new PlanShelf(folder.resolve("plans"), null)),
            line -> {});
    served = new PageServerTest.Served(Running.start(server), data);
    Path microphone = folder.resolve("microphone.wav");
    Files.write(microphone, WavWriter.toBytes(new Clip(new short[Clip.SAMPLE_RATE_HZ], 0)));
    browser = TestBrowser.open(folder, microphone, List.of());
    browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(60));
    resize(1600, 1000);
    browser.get(served.address() + "plans");
    await("document.body.dataset.ready === 'yes'");
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

  private String text(String css) {
    return Objects.requireNonNull(
        (String)
            browser.executeScript("return document.querySelector(arguments[0]).textContent", css));
  }

  private void press(String css) {
    browser.findElement(By.cssSelector(css)).click();
  }

  private void choose(String plan) {
    press("[data-plan='" + plan + "']");
    await("document.querySelector('[data-plan=\"" + plan + "\"]').hasAttribute('aria-current')");
  }

  private String written() {
    return Objects.requireNonNull(
        (String)
            browser.executeScript(
                "return [...document.querySelectorAll('.cm-line')].map(l => l.textContent).join('\\n')"));
  }

  private List<String> complaints() {
    return browser.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(Object::toString)
        .filter(line -> !line.contains("WebSocket"))
        .toList();
  }

  private Object violations() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(PlansInBrowserTest.class.getResourceAsStream("/axe.min.js"))) {
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
              Path.of(pictures, "plans-" + state + "-" + width + "-" + scheme + ".png"),
              browser.getScreenshotAs(OutputType.BYTES));
        }
        assertEquals(
            0L,
            browser.executeScript(
                "const e = document.scrollingElement; return e.scrollWidth - e.clientWidth"),
            state + " runs out sideways at " + width);
      }
      assertEquals(List.of(), violations(), state + " " + scheme);
    }
    resize(1600, 1000);
  }

  @Test
  void aStarterIsFilledInSavedAndBecomesAJob() throws IOException {
    choose("starter:engine-oil-and-filter");
    await("document.querySelectorAll('.gap').length === 3");
    assertEquals("Nothing found: the plan is right.", text("#found-says"));

    // Without its unit it is turned away, in the reader's words.
    browser.findElement(By.cssSelector("[name=capacity]")).sendKeys("4.2", Keys.ENTER);
    await("document.querySelector('.gap .says').textContent.includes('expected')");
    assertTrue(
        text(".gap .says")
            .contains("capacity: expected a number and its unit, found \"4.2\" without a unit"),
        text(".gap .says"));
    browser.findElement(By.cssSelector("[name=capacity]")).clear();
    browser.findElement(By.cssSelector("[name=capacity]")).sendKeys("4.2 L", Keys.ENTER);
    await("document.querySelectorAll('.gap').length === 2");
    browser.findElement(By.cssSelector("[name=value]")).sendKeys("30 N·m");
    browser.findElement(By.cssSelector("[name=tolerance]")).sendKeys("3 N·m");
    browser
        .findElement(By.cssSelector("[name='tolerance-from']"))
        .sendKeys("my manual p. 40", Keys.ENTER);
    await("document.querySelectorAll('.gap').length === 1");
    assertTrue(written().contains("capacity: 4.2 L"), written());
    await(
        "document.querySelector('#tables').textContent.includes('30 N·m ±3 N·m (my manual p. 40)')");
    assertForEverybody("filled");

    press("#save-new");
    browser.findElement(By.id("new-name")).clear();
    browser.findElement(By.id("new-name")).sendKeys("Oil of the old baler", Keys.ENTER);
    await("document.querySelector('#kept').textContent === 'Saved'");
    String kept = Files.readString(folder.resolve("plans/oil-of-the-old-baler.yaml"));
    assertTrue(kept.contains("name: Oil of the old baler\n"), kept);
    assertTrue(kept.startsWith("# yaml-language-server: $schema=plan.schema.json\n"), kept);

    press("#begin");
    await("!document.querySelector('#beginning').hidden");
    assertEquals("Start a job: Oil of the old baler", text("#beginning-title"));
    press("#begin-yes");
    await("document.querySelector('#job')?.textContent.includes('Oil of the old baler')");
    browser.findElement(By.id("words")).sendKeys("sump plug off", Keys.ENTER);
    await("document.querySelector('#last-says').textContent.includes('sump plug')");
    assertEquals(List.of("sump plug off"), served.said().stream().map(e -> e.words()).toList());
    assertEquals(List.of(), complaints());
  }

  @Test
  void whatIsWrongIsToldWhileItIsWrittenInTheWordsOfLint() throws IOException {
    choose("empty");
    await("document.querySelector('#found-says').textContent.startsWith('Nothing')");
    browser.findElement(By.cssSelector(".cm-content")).click();
    new Actions(browser).keyDown(Keys.CONTROL).sendKeys(Keys.END).keyUp(Keys.CONTROL).perform();
    new Actions(browser).sendKeys("  - say: [last look]\nneeds: all", Keys.ESCAPE).perform();
    await("document.querySelectorAll('#faults li').length > 0");
    String lines = written();
    assertEquals(
        LoadedPlan.lint("plan.yaml", lines).faults().stream().map(PlanFault::weighedText).toList(),
        browser.findElements(By.cssSelector("#faults button")).stream()
            .map(button -> button.getText())
            .toList());
    assertFalse(browser.findElement(By.id("begin")).isEnabled());
    assertTrue(browser.findElements(By.cssSelector(".cm-lintRange-error")).size() > 0);
    assertForEverybody("wrong");
    browser.findElement(By.cssSelector("#faults button")).click();
    assertEquals(
        true,
        browser.executeScript("return document.activeElement.classList.contains('cm-content')"));

    // Not saved, and yet not lost with the page.
    browser.navigate().refresh();
    await("document.body.dataset.ready === 'yes'");
    choose("empty");
    await("!document.querySelector('#restored').hidden");
    assertEquals(lines, written());
    press("#restored button");
    await("document.querySelector('#restored').hidden");
    assertFalse(written().contains("last look"), written());
    assertEquals(List.of(), complaints());
  }

  @Test
  void offersWhatFits() {
    choose("empty");
    browser.findElement(By.cssSelector(".cm-content")).click();
    new Actions(browser).keyDown(Keys.CONTROL).sendKeys(Keys.END).keyUp(Keys.CONTROL).perform();
    new Actions(browser).sendKeys("  - say: [last look]\nne").perform();
    await("document.querySelector('.cm-completionLabel')?.textContent === 'needs'");
    new Actions(browser).sendKeys(Keys.ESCAPE).perform();
    for (String[] each :
        new String[][] {
          {"items:\n  - say: [cover]\n    thi", "items", "null", "thi"},
          {"items:\n  - say: [cover]\n    thing: bo", "items", "thing", "bo"},
          {"items:\n  - {say: [cover, lid], thing: bolt, of: co", "items", "of", "co"},
          {"items:\n  - {say: [cov", "items", "say", "cov"},
          {
            "items:\n  - say: [a bolt]\n    torque: {value: 3 N·m, tol",
            "items,torque",
            "null",
            "tol"
          },
          {
            "systems:\n  - say: [oil]\n    drains:\n      - say: [plug]\n        pl",
            "systems,drains",
            "null",
            "pl"
          },
          {
            "systems:\n  - say: [oil]\n    drains:\n      - say: [plug]\n    fl",
            "systems",
            "null",
            "fl"
          },
          {"steps:\n  - say: [go]\n    off: [a, b]\n    needs: fi", "steps", "needs", "fi"},
          {"# remark: {\nna", "", "null", "na"},
          {"name: \"a: {b\"\nmach", "", "null", "mach"},
          {"machine:\n  na", "machine", "null", "na"},
        }) {
      assertEquals(
          each[1] + "|" + each[2] + "|" + each[3],
          browser.executeAsyncScript(
              "const done = arguments[1]; import('/plan-words.js').then(m => {"
                  + " const p = m.placeIn(arguments[0]);"
                  + " done(p.path.join(',') + '|' + p.key + '|' + p.word); });",
              each[0]),
          each[0]);
    }
  }

  /**
   * As a file, as {@code prep --out} writes it: the server's own answer lets no script look at it.
   */
  @Test
  void theLayOutSheetIsForEverybody() throws IOException {
    Path sheet = folder.resolve("sheet.html");
    LoadedPlan plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    Files.writeString(sheet, Prepared.before(plan, Optional.empty()).page());
    browser.get(sheet.toUri().toString());
    assertTrue(text("h1").contains("Lay out before the job"), text("h1"));
    assertForEverybody("sheet");
  }
}
