package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.interactions.Actions;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.PlanShelf;
import tallyback.app.Prepared;
import tallyback.plan.PlanFault;

/** The page of plans in a real browser, as somebody uses it who writes a plan before a job. */
@Tag("slow")
@Timeout(480)
class PlansInBrowserTest {

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private TestBrowser browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Served served;

  @BeforeEach
  void open() throws IOException {
    TestBrowser.assumeInstalled();
    Path data = folder.resolve("jobs.tallyback");
    served =
        Served.start(
            Served.settings(LoadedPlan.withoutPlan(KnownVoices.none()), data, null)
                .with(new PlanShelf(folder.resolve("plans"), null)));
    browser = TestBrowser.silent(folder);
    browser.go(served.address() + "plans");
    browser.await("document.body.dataset.ready === 'yes'");
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

  private void choose(String plan) {
    browser.click("[data-plan='" + plan + "']");
    browser.await(
        "document.querySelector('[data-plan=\"" + plan + "\"]').hasAttribute('aria-current')");
  }

  private String written() {
    return (String)
        browser.value(
            "[...document.querySelectorAll('.cm-line')].map(l => l.textContent).join('\\n')");
  }

  @Test
  void aStarterIsFilledInSavedAndBecomesAJob() throws IOException {
    choose("starter:engine-oil-and-filter");
    browser.await("document.querySelectorAll('.gap').length === 3");
    assertEquals("Nothing found: the plan is right.", browser.text("#found-says"));

    // Without its unit it is turned away, in the reader's words.
    browser.type("[name=capacity]", "4.2", Keys.ENTER);
    browser.await("document.querySelector('.gap .says').textContent.includes('expected')");
    assertTrue(
        browser
            .text(".gap .says")
            .contains("capacity: expected a number and its unit, found \"4.2\" without a unit"),
        browser.text(".gap .says"));
    browser.write("[name=capacity]", "4.2 L", Keys.ENTER);
    browser.await("document.querySelectorAll('.gap').length === 2");
    browser.type("[name=value]", "30 N·m");
    browser.type("[name=tolerance]", "3 N·m");
    browser.type("[name='tolerance-from']", "my manual p. 40", Keys.ENTER);
    browser.await("document.querySelectorAll('.gap').length === 1");
    assertTrue(written().contains("capacity: 4.2 L"), written());
    browser.await(
        "document.querySelector('#tables').textContent.includes('30 N·m ±3 N·m (my manual p. 40)')");
    browser.assertForEverybody("plans-filled");

    browser.click("#save-new");
    browser.write("#new-name", "Oil of the old baler", Keys.ENTER);
    browser.await("document.querySelector('#kept').textContent === 'Saved'");
    String kept = Files.readString(folder.resolve("plans/oil-of-the-old-baler.yaml"));
    assertTrue(kept.contains("name: Oil of the old baler\n"), kept);
    assertTrue(kept.startsWith("# yaml-language-server: $schema=plan.schema.json\n"), kept);

    browser.click("#begin");
    browser.await("!document.querySelector('#beginning').hidden");
    assertEquals("Start a job: Oil of the old baler", browser.text("#beginning-title"));
    browser.click("#begin-yes");
    browser.await("document.querySelector('#job')?.textContent.includes('Oil of the old baler')");
    browser.type("#words", "sump plug off", Keys.ENTER);
    browser.await("document.querySelector('#last-says').textContent.includes('sump plug')");
    assertEquals(List.of("sump plug off"), served.said().stream().map(e -> e.words()).toList());
    assertEquals(List.of(), browser.complaints("WebSocket"));
  }

  @Test
  void whatIsWrongIsToldWhileItIsWrittenInTheWordsOfLint() throws IOException {
    choose("empty");
    browser.await("document.querySelector('#found-says').textContent.startsWith('Nothing')");
    browser.click(".cm-content");
    new Actions(browser.driver())
        .keyDown(Keys.CONTROL)
        .sendKeys(Keys.END)
        .keyUp(Keys.CONTROL)
        .perform();
    new Actions(browser.driver())
        .sendKeys("  - say: [last look]\nneeds: all", Keys.ESCAPE)
        .perform();
    browser.await("document.querySelectorAll('#faults li').length > 0");
    String lines = written();
    assertEquals(
        LoadedPlan.lint("plan.yaml", lines).faults().stream().map(PlanFault::weighedText).toList(),
        browser.findAll("#faults button").stream().map(button -> button.getText()).toList());
    assertFalse(browser.find("#begin").isEnabled());
    assertTrue(browser.count(".cm-lintRange-error") > 0);
    browser.assertForEverybody("plans-wrong");
    browser.click("#faults button");
    assertEquals(true, browser.value("document.activeElement.classList.contains('cm-content')"));

    // Not saved, and yet not lost with the page.
    browser.driver().navigate().refresh();
    browser.await("document.body.dataset.ready === 'yes'");
    choose("empty");
    browser.await("!document.querySelector('#restored').hidden");
    assertEquals(lines, written());
    browser.click("#restored button");
    browser.await("document.querySelector('#restored').hidden");
    assertFalse(written().contains("last look"), written());
    assertEquals(List.of(), browser.complaints("WebSocket"));
  }

  @Test
  void offersWhatFits() {
    choose("empty");
    browser.click(".cm-content");
    new Actions(browser.driver())
        .keyDown(Keys.CONTROL)
        .sendKeys(Keys.END)
        .keyUp(Keys.CONTROL)
        .perform();
    new Actions(browser.driver()).sendKeys("  - say: [last look]\nne").perform();
    browser.await("document.querySelector('.cm-completionLabel')?.textContent === 'needs'");
    new Actions(browser.driver()).sendKeys(Keys.ESCAPE).perform();
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
          browser
              .driver()
              .executeAsyncScript(
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
    browser.go(sheet.toUri().toString());
    assertTrue(browser.text("h1").contains("Lay out before the job"), browser.text("h1"));
    browser.assertForEverybody("plans-sheet");
  }
}
