package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.ServerSocket;
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
import org.openqa.selenium.Dimension;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.voice.freetts.FreeTtsVoice;

/**
 * The page in a real browser whose microphone is a recording. Needs chromium and chromedriver;
 * {@code .ci/run} installs them, and forbids that this is skipped.
 */
@Tag("slow")
@Timeout(240)
class PageInBrowserTest {

  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));

  /** 20 mm for a glove, at 96 to the inch. */
  private static final int SMALLEST_BUTTON = 76;

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private ChromeDriver browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServerTest.Served served;

  private int port;

  private static Path program(String... names) {
    for (String name : names) {
      for (String where : List.of("/usr/bin/", "/usr/local/bin/", "/snap/bin/")) {
        if (Files.isExecutable(Path.of(where + name))) {
          return Path.of(where + name);
        }
      }
    }
    return Path.of(names[0]);
  }

  @BeforeEach
  void open() throws IOException {
    Path chromium = program("chromium", "chromium-browser");
    Path driver = program("chromedriver");
    assumeTrue(
        Files.isExecutable(chromium) && Files.isExecutable(driver),
        "no browser here: install chromium and chromium-driver");
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    served = start();
    Path microphone = folder.resolve("microphone.wav");
    // The browser plays it over and over: what follows is a long quiet.
    short[] said = TestPage.room(5, "004-090120.wav", "005-090150.wav", "006-090215.wav");
    short[] sound = java.util.Arrays.copyOf(said, said.length + 120 * Clip.SAMPLE_RATE_HZ);
    for (int i = said.length; i < sound.length; i++) {
      sound[i] = said[i % Clip.SAMPLE_RATE_HZ];
    }
    Files.write(microphone, WavWriter.toBytes(new Clip(sound, 0)));
    ChromeOptions options = new ChromeOptions();
    options.setBinary(chromium.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--user-data-dir=" + folder.resolve("browser"),
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        "--use-file-for-fake-audio-capture=" + microphone,
        "--autoplay-policy=no-user-gesture-required");
    browser =
        new ChromeDriver(
            new ChromeDriverService.Builder().usingDriverExecutable(driver.toFile()).build(),
            options);
    browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(60));
    browser.get(served.address().toString());
    await("#connection", "Connected");
  }

  private PageServerTest.Served start() {
    Path data = folder.resolve("job.tallyback");
    PageServer server =
        PageServer.open(
            new PageServer.Settings(
                PLAN,
                data,
                null,
                null,
                port,
                new JobDesk.Setting("page", "anna", ZoneOffset.UTC, InstantSource.system()),
                FreeTtsVoice::open),
            line -> {});
    Thread thread =
        new Thread(
            () -> {
              try {
                server.run();
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            },
            "server-run");
    thread.start();
    return new PageServerTest.Served(server, thread, data);
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

  private String text(String css) {
    return Objects.requireNonNull(
        String.valueOf(
            browser.executeScript("return document.querySelector(arguments[0]).textContent", css)));
  }

  private void await(String css, String part) {
    Instant until = Instant.now().plusSeconds(60);
    while (!text(css).contains(part)) {
      assertTrue(
          Instant.now().isBefore(until),
          () -> css + " says '" + text(css) + "', expected '" + part + "'; told " + text("#told"));
      pause(100);
    }
  }

  private static void pause(long ms) {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void press(String css) {
    browser.findElement(By.cssSelector(css)).click();
  }

  private void type(String words) {
    browser.findElement(By.id("words")).sendKeys(words);
    press("#enter");
  }

  private List<String> said() {
    return entries().stream().map(Entry::words).toList();
  }

  private List<Entry> entries() {
    try (LogReader log = SqliteLogs.openForReading(folder.resolve("job.tallyback"))) {
      return log.entries(log.choose(null).id()).stream()
          .filter(entry -> entry.source() == Source.SPOKEN)
          .toList();
    }
  }

  @Test
  void whatIsSpokenIntoTheMicrophoneIsNotedOnceOverAReloadAndAServerStartedAnew() {
    press("#listen");
    await("#microphone", "Listening");
    await("#last-says", "key out");
    assertEquals("Noted", text("#last-status"));
    assertEquals(List.of("key out"), said());

    served.close();
    await("#connection", "Ended: start Tallyback again");
    // The second is said into nothing: the page keeps it.
    pause(4000);
    served = start();
    await("#last-says", "wheels chocked");

    await("#told", "wheels chocked");
    await("#last-says", "implement down");
    assertEquals(List.of("key out", "wheels chocked", "implement down"), said());

    browser.navigate().refresh();
    await("#connection", "Connected");
    await("#microphone", "Listening");
    await("#last-says", "implement down");
    // The browser's microphone begins its recording anew then.
    assertEquals(List.of("key out", "wheels chocked", "implement down"), said().subList(0, 3));
    assertEquals(List.of(), complaints());
  }

  /** What the browser's console holds, without the connection that was broken on purpose. */
  private List<String> complaints() {
    return browser.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(Object::toString)
        .filter(line -> !line.contains("ERR_CONNECTION_REFUSED"))
        .filter(line -> !line.contains("WebSocket"))
        .toList();
  }

  @Test
  void theWholePageCanBeReadAndPressedByEverybodyOnEveryScreen() {
    type("six splash guard bolts off");
    await("#off", "splash guard bolts");
    type("drained two point one litres from the block plug");
    await("#fluids", "cooling system");
    type("torqued the fan nuts to 22");
    await("#answers", "newton metres");
    for (String scheme : List.of("light", "dark")) {
      browser.executeCdpCommand(
          "Emulation.setEmulatedMedia",
          Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
      for (Dimension size :
          List.of(new Dimension(360, 740), new Dimension(1280, 900), new Dimension(2560, 1440))) {
        resize(size);
        assertEquals(List.of(), violations(), scheme + " " + size);
        assertEquals(0L, sidewaysOverflow(), "runs out sideways at " + size);
        assertEquals(List.of(), tooSmall(), "too small for a glove at " + size);
      }
    }
    press("#answers button");
    await("#last-says", "22 N\u00b7m");
    assertEquals("none", browser.findElement(By.id("asking")).getCssValue("display"));
    press("#undo");
    await("#last-says", "scratch that");
    press("#lock");
    assertEquals(List.of(), violations(), "locked");
    assertEquals(true, browser.executeScript("return document.getElementById('bar').inert"));
    browser.executeScript(
        "document.getElementById('unlock').dispatchEvent(new PointerEvent('pointerdown'))");
    Instant until = Instant.now().plusSeconds(20);
    while (Boolean.TRUE.equals(
        browser.executeScript("return document.getElementById('bar').inert"))) {
      assertTrue(Instant.now().isBefore(until), "stays locked");
      pause(100);
    }
    assertTrue(text("#lone-worker").contains("no lone-worker alarm"));
  }

  private void resize(Dimension size) {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width", size.width, "height", size.height, "deviceScaleFactor", 1, "mobile", false));
  }

  private Object sidewaysOverflow() {
    return Objects.requireNonNull(
        browser.executeScript(
            "const e = document.scrollingElement; return e.scrollWidth - e.clientWidth"));
  }

  private Object tooSmall() {
    return Objects.requireNonNull(
        browser.executeScript(
            "return [...document.querySelectorAll('button, input')].filter(e => e.offsetParent)"
                + ".filter(e => { const r = e.getBoundingClientRect();"
                + " return r.width < arguments[0] || r.height < arguments[0] }).map(e => e.id)",
            SMALLEST_BUTTON));
  }

  private Object violations() {
    browser.executeScript(axe());
    return Objects.requireNonNull(
        browser.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run().then(r => done(r.violations.map(v => v.id + ': '"
                + " + v.nodes.map(n => n.target + ' ' + n.failureSummary).join('; '))))"));
  }

  private static String axe() {
    try (InputStream in =
        Objects.requireNonNull(PageInBrowserTest.class.getResourceAsStream("/axe.min.js"))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }
}
